/** Openings that are bought complete, as lines of an order. */
import { Decimal } from 'decimal.js';
import { formatLength } from '../../quantity/length.ts';
import type { Part, PartKind } from '../../takeoff/result.ts';
import { kindTitles } from '../kind-titles.ts';
import { datesOf, inOrderOfHanging, onePrice, unique, type Buying, type DraftLine } from './line-parts.ts';
import type { PartPrices } from './part-prices.ts';
import type { Supplier } from './purchase-order.ts';

/** `1 curtain, 2 guides` */
function contentsText(parts: readonly Part[]): string {
	const counts = new Map<PartKind, Decimal>();
	for (const { kind, quantity } of parts)
		counts.set(kind, (counts.get(kind) ?? new Decimal(0)).plus(quantity));
	return inOrderOfHanging
		.flatMap((kind) => {
			const count = counts.get(kind);
			return count ? [`${count.toFixed()} ${kindTitles[kind]}${count.eq(1) ? '' : 's'}`] : [];
		})
		.join(', ');
}

/** The price of a complete unit: all its parts together; null where one of them has none. */
function unitPriceOf(parts: readonly Part[], prices: PartPrices): string | null {
	let total = new Decimal(0);
	for (const { partId, quantity } of parts) {
		const price = prices.get(partId) ?? null;
		if (price === null) return null;
		total = total.plus(new Decimal(price).times(quantity));
	}
	return total.toFixed(Math.max(2, total.decimalPlaces()));
}

/** @param openings alike ones with their parts, at least one */
function unitLine(
	openings: readonly (readonly [openingId: string, parts: readonly Part[]])[],
	buying: Buying,
	supplier: Pick<Supplier, 'leadDays' | 'daysBefore'>
): DraftLine {
	const openingIds = openings.map(([openingId]) => openingId);
	const parts = openings.flatMap(([, own]) => own);
	const one = openings[0]?.[1] ?? [];
	const size = buying.openingSizes.get(openingIds[0] ?? '') ?? null;
	const curtain = one.find(({ kind }) => kind === 'curtain');
	const drive = one.find(({ kind }) => kind === 'drive' || kind === 'operator');
	const price = onePrice(openings.map(([, own]) => unitPriceOf(own, buying.prices)));
	const text = (nm: number): string => formatLength(nm, buying.style);
	return {
		scope: 'unit',
		kind: null,
		partIds: parts.map(({ partId }) => partId),
		openingIds,
		marks: unique(parts.map(({ mark }) => mark)),
		title: `Complete unit${curtain ? `: ${curtain.title.toLowerCase()}` : ''}`,
		item: curtain?.item ?? '',
		size: size ? `${text(size.width)} x ${text(size.height)}` : '',
		length: size?.height ?? null,
		width: size?.width ?? null,
		hand: drive?.hand ?? null,
		finish: curtain?.finish ?? '',
		quantity: String(openings.length),
		unit: 'each',
		unitPrice: price.unitPrice,
		note: [`Each: ${contentsText(one)}.`, price.note].filter((words) => words !== '').join(' '),
		...datesOf(openingIds, buying, supplier)
	};
}

/** Openings are alike where their parts may stand in for one another and their sizes are the same. */
export function unitLines(
	parts: readonly Part[],
	buying: Buying,
	supplier: Pick<Supplier, 'leadDays' | 'daysBefore'>
): DraftLine[] {
	const openings = new Map<string, Part[]>();
	for (const part of parts) {
		const own = openings.get(part.openingId);
		if (own) own.push(part);
		else openings.set(part.openingId, [part]);
	}
	const alike = Map.groupBy(openings, ([openingId, own]) => {
		const size = buying.openingSizes.get(openingId);
		const contents = own
			.map((part) => JSON.stringify([part.interchangeKey, part.quantity, part.unit]))
			.sort();
		return JSON.stringify([size?.width, size?.height, contents]);
	});
	return [...alike.values()].map((group) => unitLine(group, buying, supplier));
}
