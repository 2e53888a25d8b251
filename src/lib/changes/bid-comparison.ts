/** Two bids, or a bid and the job as it is now, held against each other: openings, quantities, price. */
import { Money } from '../quantity/money.ts';
import { inputIds, type Cell, type InputId, type Measures } from '../takeoff/inputs.ts';
import { sameCell } from './apply.ts';
import type { BidContent, BidOpening, BidQuantity, BidSide, BidValue } from './bid.ts';

/** Quantities told of, at most: another shop book changes every one of every opening. */
const mostQuantities = 5000;
/** What arithmetic in another order may come to, as a share of the larger value. */
const noise = 1e-9;

interface CellDifference {
	readonly field: InputId;
	readonly before: Cell;
	readonly after: Cell;
}

export interface ComparedOpening {
	readonly rowId: string;
	readonly name: string;
	readonly openings: number;
}

interface ChangedOpening extends ComparedOpening {
	readonly cells: readonly CellDifference[];
}

interface QuantityDifference {
	readonly id: string;
	readonly before: BidValue;
	readonly after: BidValue;
}

export interface OpeningQuantities {
	readonly rowId: string;
	readonly name: string;
	readonly quantities: readonly QuantityDifference[];
}

/** Decimal texts with two decimals; `difference` is after less before. */
export interface AmountDifference {
	readonly before: string;
	readonly after: string;
	readonly difference: string;
}

export interface PriceComparison {
	readonly currency: string;
	readonly total: AmountDifference;
	/** Lines of the build-up by which the prices differ or not, in its order. */
	readonly lines: readonly ({ readonly id: string; readonly title: string } & AmountDifference)[];
	/** Marks whose price differs. One without a price counts as 0.00, and `priced` says so. */
	readonly marks: readonly ({
		readonly rowId: string;
		readonly name: string;
		readonly priced: { readonly before: boolean; readonly after: boolean };
	} & AmountDifference)[];
}

export interface BidComparison {
	readonly measures: Measures;
	/** Whether both were worked out by the same books. */
	readonly sameBooks: { readonly technical: boolean; readonly price: boolean };
	readonly added: readonly ComparedOpening[];
	readonly removed: readonly ComparedOpening[];
	readonly changed: readonly ChangedOpening[];
	/** Openings that are in both, as far as their quantities differ. */
	readonly quantities: readonly OpeningQuantities[];
	/** What the quantities in `quantities` are. */
	readonly titles: Readonly<Record<string, BidQuantity>>;
	/** Differing quantities that are left out of `quantities`, there being too many. */
	readonly leftOut: number;
	/** Titles of quantities that only one of the two knows. */
	readonly notCompared: readonly string[];
	/** Null when the two are in different currencies. */
	readonly price: PriceComparison | null;
}

/** Whether two values differ by more than the order of arithmetic. */
function differs(before: BidValue, after: BidValue): boolean {
	if (typeof before !== 'number' || typeof after !== 'number') return before !== after;
	return Math.abs(before - after) > noise * Math.max(Math.abs(before), Math.abs(after), 1);
}

const byRow = <T extends { readonly rowId: string }>(items: readonly T[]): ReadonlyMap<string, T> =>
	new Map(items.map((item) => [item.rowId, item]));

const comparedOpening = ({ rowId, name, openings }: BidOpening): ComparedOpening => ({
	rowId,
	name,
	openings
});

export function compareBidSides(before: BidSide, after: BidSide): BidComparison {
	const [was, is] = [before.content, after.content];
	const [wasBy, isBy] = [byRow(was.openings), byRow(is.openings)];
	return {
		measures: is.job.measures,
		sameBooks: {
			technical: before.technicalDigest === after.technicalDigest,
			price: before.priceDigest === after.priceDigest
		},
		added: is.openings.filter(({ rowId }) => !wasBy.has(rowId)).map(comparedOpening),
		removed: was.openings.filter(({ rowId }) => !isBy.has(rowId)).map(comparedOpening),
		changed: changedOpenings(was, is),
		...quantityDifferences(was, is),
		price: comparePrices(was, is)
	};
}

function changedOpenings(was: BidContent, is: BidContent): ChangedOpening[] {
	const before = new Map(was.rows.map((row) => [row.id, row.cells]));
	const after = new Map(is.rows.map((row) => [row.id, row.cells]));
	return is.openings.flatMap((opening) => {
		const [old, now] = [before.get(opening.rowId), after.get(opening.rowId)];
		if (!old || !now) return [];
		const cells = inputIds
			.filter((field) => !sameCell(old[field], now[field]))
			.map((field) => ({ field, before: old[field] ?? null, after: now[field] ?? null }));
		return cells.length === 0 ? [] : [{ ...comparedOpening(opening), cells }];
	});
}

function quantityDifferences(
	was: BidContent,
	is: BidContent
): Pick<BidComparison, 'quantities' | 'titles' | 'leftOut' | 'notCompared'> {
	const [known, knownNow] = [was, is].map(({ quantities }) => new Set(quantities.map(({ id }) => id)));
	const shared = is.quantities.filter(({ id, input }) => !input && known?.has(id));
	const oneSided = [
		...was.quantities.filter(({ id }) => !knownNow?.has(id)),
		...is.quantities.filter(({ id }) => !known?.has(id))
	];
	const places = new Map(was.openings.map(({ rowId }, place) => [rowId, place]));
	const titles: Record<string, BidQuantity> = {};
	const quantities: OpeningQuantities[] = [];
	let told = 0;
	let leftOut = 0;
	is.openings.forEach(({ rowId, name }, place) => {
		const wasPlace = places.get(rowId);
		if (wasPlace === undefined) return;
		const differing: QuantityDifference[] = [];
		for (const quantity of shared) {
			const { id } = quantity;
			const [before, after] = [was.values[id]?.[wasPlace] ?? null, is.values[id]?.[place] ?? null];
			if (!differs(before, after)) continue;
			if (told >= mostQuantities) {
				leftOut++;
				continue;
			}
			told++;
			titles[id] = quantity;
			differing.push({ id, before, after });
		}
		if (differing.length > 0) quantities.push({ rowId, name, quantities: differing });
	});
	return { quantities, titles, leftOut, notCompared: oneSided.map(({ title }) => title) };
}

function difference(before: string, after: string): AmountDifference {
	const [was, is] = [new Money(before), new Money(after)];
	return { before: was.toFixed(2), after: is.toFixed(2), difference: is.minus(was).toFixed(2) };
}

function comparePrices({ price: was }: BidContent, { price: is }: BidContent): PriceComparison | null {
	if (was.currency !== is.currency) return null;
	const known = new Set(is.lines.map(({ id }) => id));
	const lines = [...was.lines.filter(({ id }) => !known.has(id)), ...is.lines];
	const [wasBy, isBy] = [byRow(was.marks), byRow(is.marks)];
	const marks = [...is.marks, ...was.marks.filter(({ rowId }) => !isBy.has(rowId))];
	return {
		currency: is.currency,
		total: difference(was.totals.price ?? '0', is.totals.price ?? '0'),
		lines: lines.map(({ id, title }) => ({
			id,
			title,
			...difference(was.totals[id] ?? '0', is.totals[id] ?? '0')
		})),
		marks: marks
			.map(({ rowId, mark, openingId }) => {
				const [old, now] = [wasBy.get(rowId)?.amounts, isBy.get(rowId)?.amounts];
				return {
					rowId,
					name: openingId ?? mark,
					priced: { before: Boolean(old), after: Boolean(now) },
					...difference(old?.price ?? '0', now?.price ?? '0')
				};
			})
			.filter((mark) => !new Money(mark.difference).isZero() || mark.priced.before !== mark.priced.after)
	};
}
