/** What in the takeoff no longer agrees with an order as it stands. */
import { Decimal } from 'decimal.js';
import type { Part } from '../../takeoff/result.ts';
import { amountText } from '../sentence.ts';
import { isFill, lineName } from './attributes.ts';
import { knownAs, predecessorsOf, type Predecessors } from './lineage.ts';
import type { PurchaseLine, PurchaseOrder } from './purchase-order.ts';

export interface OutOfStep {
	/** `changed`: another part took its place. `gone`: not needed any more. `quantity`: more or less of it. `missing`: a complete unit needs it, and the order has it not. */
	readonly kind: 'changed' | 'gone' | 'quantity' | 'missing';
	readonly line: number;
	/** As ordered; of `missing` as needed. Of `quantity` all parts of the line. */
	readonly partIds: readonly string[];
	readonly text: string;
}

/** Parts as needed now by the id under which the order has them. */
function needed(
	order: PurchaseOrder,
	parts: readonly Part[],
	predecessors: Predecessors
): ReadonlyMap<string, Part> {
	const ordered = new Set(order.lines.flatMap(({ partIds }) => partIds));
	return new Map(
		parts.flatMap((part) => {
			const id = knownAs(part, ordered, predecessors);
			return id === null ? [] : [[id, part] as const];
		})
	);
}

function quantityStep(line: PurchaseLine, present: readonly Part[]): OutOfStep[] {
	if (line.scope === 'unit' || present.length < line.partIds.length) return [];
	const now = present.reduce((sum, { quantity }) => sum.plus(quantity), new Decimal(0));
	if (now.eq(line.quantity)) return [];
	const [a, b] = [amountText(now, line.unit), amountText(new Decimal(line.quantity), line.unit)];
	return [
		{
			kind: 'quantity',
			line: line.number,
			partIds: line.partIds,
			text: `${lineName(line)}: ${a} needed, ${b} ordered.`
		}
	];
}

/** Maker’s parts of the openings of a complete unit that no line has. */
function missingSteps(line: PurchaseLine, unknown: readonly Part[]): OutOfStep[] {
	if (line.scope !== 'unit') return [];
	return unknown
		.filter(({ openingId, supply }) => supply === 'maker' && line.openingIds.includes(openingId))
		.map((part) => ({
			kind: 'missing',
			line: line.number,
			partIds: [part.partId],
			text: `${lineName(line)}: ${part.openingId} now needs ${part.title.toLowerCase()}, which was not ordered.`
		}));
}

/**
 * Compares an order with what is needed now; empty where they agree. Prices and days are not looked at: those are what
 * was agreed. New parts of openings that are bought in parts are not out of step: they are there to be ordered.
 *
 * @param predecessors of all parts ever issued; without it, what the parts say themselves
 */
export function outOfStep(
	order: PurchaseOrder,
	parts: readonly Part[],
	predecessors: Predecessors = predecessorsOf(parts)
): OutOfStep[] {
	const byOrdered = needed(order, parts, predecessors);
	const knownNow = new Set([...byOrdered.values()].map(({ partId }) => partId));
	const unknown = parts.filter(({ partId }) => !knownNow.has(partId));
	return order.lines
		.filter((line) => !isFill(line))
		.flatMap((line): OutOfStep[] => {
			const present = line.partIds.flatMap((id) => byOrdered.get(id) ?? []);
			const single = line.partIds.flatMap((id): OutOfStep[] => {
				const part = byOrdered.get(id);
				if (!part)
					return [
						{
							kind: 'gone',
							line: line.number,
							partIds: [id],
							text: `${lineName(line)}: part ${id} is not needed any more.`
						}
					];
				if (part.partId === id) return [];
				return [
					{
						kind: 'changed',
						line: line.number,
						partIds: [id],
						text: `${lineName(line)}: ${part.title.toLowerCase()} of ${part.openingId} changed since; part ${part.partId} took the place of ${id}.`
					}
				];
			});
			return [...single, ...quantityStep(line, present), ...missingSteps(line, unknown)];
		});
}
