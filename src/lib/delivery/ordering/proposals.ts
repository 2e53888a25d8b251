/** What there is to order: the parts that no standing order covers, split by supplier, phase and release. */
import type { Part } from '../../takeoff/result.ts';
import { draftLines, scopeOf, type ScopedPart } from './draft-lines.ts';
import type { Buying } from './line-parts.ts';
import { knownAs, predecessorsOf, type Predecessors } from './lineage.ts';
import type { LineScope, PurchaseOrder, Supplier } from './purchase-order.ts';

/** An order that could be made; it has no number yet. */
export type OrderProposal = Omit<PurchaseOrder, 'orderId' | 'number' | 'revision'>;

export interface ProposalRequest extends Buying {
	/** In the wanted order. */
	readonly parts: readonly Part[];
	/** By opening; one that is not in it has the phase ``. */
	readonly phases: ReadonlyMap<string, string>;
	/** Where two sell the same kind of thing, the first has it. */
	readonly suppliers: readonly Supplier[];
	/** Parts on standing orders. */
	readonly ordered: ReadonlySet<string>;
	/** Of all parts ever issued; without it, what the parts say themselves. */
	readonly predecessors?: Predecessors;
	/** ISO 4217. */
	readonly currency: string;
}

interface NotPlaced {
	readonly scope: LineScope;
	readonly partIds: readonly string[];
	readonly openingIds: readonly string[];
	readonly text: string;
}

/** A part is on exactly one line of the proposals, on a standing order, to be revised there, or not placed. */
export interface Proposals {
	readonly proposals: readonly OrderProposal[];
	/** What nobody is named for. */
	readonly notPlaced: readonly NotPlaced[];
	/** Changed since they were ordered: their order takes them up when it is revised. */
	readonly toRevise: readonly {
		readonly partId: string;
		readonly orderedAs: string;
		readonly text: string;
	}[];
	/** What two suppliers are both named for, and which of them has it. */
	readonly notes: readonly string[];
}

/** Kinds of things bought, as they stand in a sentence. */
const scopeTitles: Readonly<Record<LineScope, string>> = {
	unit: 'complete units',
	part: 'parts made to order',
	stock: 'stock'
};

/** Of whom a kind of thing is bought: the first who is named for it; undefined where nobody is. */
export const supplierFor = (suppliers: readonly Supplier[], scope: LineScope): Supplier | undefined =>
	suppliers.find(({ scopes }) => scopes.includes(scope));

/** Which release an opening is in; the first where nobody has said. */
export const releaseOf = (openingId: string, plans: Buying['plans']): number =>
	plans.get(openingId)?.release ?? 1;

function overlapNotes(suppliers: readonly Supplier[]): string[] {
	return (['unit', 'part', 'stock'] as const).flatMap((scope) => {
		const [first, ...others] = suppliers.filter(({ scopes }) => scopes.includes(scope));
		if (!first || others.length === 0) return [];
		const names = others.map(({ name }) => name).join(', ');
		return [`${first.name} and ${names} are both named for ${scopeTitles[scope]}; ${first.name} has it.`];
	});
}

function notPlacedText(scope: LineScope, parts: number, openings: number): string {
	const what = `${parts} ${parts === 1 ? 'part' : 'parts'} of ${openings} ${openings === 1 ? 'opening' : 'openings'}`;
	return `Nobody is named for ${scopeTitles[scope]}: ${what} ${parts === 1 ? 'is' : 'are'} in no order. Name a supplier for it.`;
}

/** @throws RangeError when a part stands twice in the list */
function assertOnce(parts: readonly Part[]): void {
	const seen = new Set<string>();
	for (const { partId } of parts) {
		if (seen.has(partId)) throw new RangeError(`part ${partId} is in the list twice`);
		seen.add(partId);
	}
}

/**
 * @returns orders by supplier (in the order given), phase (in the order of its first part) and release
 * @throws RangeError when a part stands twice in the list
 */
export function orderProposals(request: ProposalRequest): Proposals {
	const { parts, phases, suppliers, ordered, plans, currency } = request;
	assertOnce(parts);
	const predecessors = request.predecessors ?? predecessorsOf(parts);
	const toRevise: Proposals['toRevise'][number][] = [];
	const missing = new Map<LineScope, Part[]>();
	const lots = new Map<string, { supplier: Supplier; phase: string; release: number; parts: ScopedPart[] }>();
	const phaseAt = new Map<string, number>();
	for (const part of parts) {
		const phase = phases.get(part.openingId) ?? '';
		if (!phaseAt.has(phase)) phaseAt.set(phase, phaseAt.size);
		const orderedAs = knownAs(part, ordered, predecessors);
		if (orderedAs === part.partId) continue;
		if (orderedAs !== null) {
			const text = `${part.title} of ${part.openingId} changed since it was ordered: revise its order.`;
			toRevise.push({ partId: part.partId, orderedAs, text });
			continue;
		}
		const scope = scopeOf(part, plans);
		const supplier = supplierFor(suppliers, scope);
		if (!supplier) {
			const others = missing.get(scope);
			if (others) others.push(part);
			else missing.set(scope, [part]);
			continue;
		}
		const release = releaseOf(part.openingId, plans);
		const key = JSON.stringify([supplier.id, phase, release]);
		const lot = lots.get(key);
		if (lot) lot.parts.push({ part, scope });
		else lots.set(key, { supplier, phase, release, parts: [{ part, scope }] });
	}
	const proposals = [...lots.values()]
		.sort(
			(a, b) =>
				suppliers.indexOf(a.supplier) - suppliers.indexOf(b.supplier) ||
				(phaseAt.get(a.phase) ?? 0) - (phaseAt.get(b.phase) ?? 0) ||
				a.release - b.release
		)
		.map(({ supplier, phase, release, parts: own }): OrderProposal => ({
			supplierId: supplier.id,
			supplierName: supplier.name,
			phase,
			release,
			currency,
			lines: draftLines(own, request, supplier).map((line, at) => ({ number: at + 1, ...line }))
		}))
		.filter(({ lines }) => lines.length > 0);
	const notPlaced = [...missing].map(([scope, own]): NotPlaced => {
		const openingIds = [...new Set(own.map(({ openingId }) => openingId))];
		return {
			scope,
			partIds: own.map(({ partId }) => partId),
			openingIds,
			text: notPlacedText(scope, own.length, openingIds.length)
		};
	});
	return { proposals, notPlaced, toRevise, notes: overlapNotes(suppliers) };
}
