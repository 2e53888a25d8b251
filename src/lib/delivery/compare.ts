/**
 * What came against what was taken off: every line of the packing lists and every ordered part with what became of it,
 * and which openings can start. Nothing is counted on a guess: a line that could mean two things is proposed to a
 * person, with the reason.
 */
import type { LengthStyle } from '../quantity/length.ts';
import type { Part } from '../takeoff/result.ts';
import { comparedLine, unlistedLines } from './compared-line.ts';
import type { ComparedPart, Comparison, DeliveryList } from './comparison.ts';
import { Ledger, type PartAccount } from './ledger.ts';
import { Matcher } from './match.ts';
import { likenessReader, readOrder } from './order.ts';
import { readLine } from './read-line.ts';
import { readiness, type OpeningStops } from './readiness.ts';

export type { Comparison, DeliveryList } from './comparison.ts';

export interface CompareOptions {
	/** Lengths and widths that differ by no more are the same, nm; 1/16 in unless given. */
	readonly lengthTolerance?: number;
	/** How lengths are written in what is said; feet and inches unless given. */
	readonly lengthStyle?: LengthStyle;
	/** Openings that the takeoff stops (`takeoff/stops.ts`), whatever has come for them. */
	readonly stopped?: readonly OpeningStops[];
}

/** 1/16 in, nm. */
const usualTolerance = 1_587_500;

function partState({ ordered, listed, amounts }: PartAccount): ComparedPart['state'] {
	if (amounts.whole.gte(ordered) && (listed || ordered.isZero()))
		return amounts.over.gt(0) ? 'over' : 'exact';
	if (amounts.damaged.gt(0)) return 'damaged';
	if (amounts.wrong.gt(0)) return 'wrong';
	if (amounts.backordered.gt(0)) return 'backordered';
	return listed ? 'short' : 'notListed';
}

function comparedPart(account: PartAccount): ComparedPart {
	const { part, ordered, amounts, lines } = account;
	return {
		partId: part.partId,
		openingId: part.openingId,
		mark: part.mark,
		title: part.title,
		unit: part.unit,
		supply: part.supply,
		ordered: ordered.toFixed(),
		received: amounts.whole.toFixed(),
		damaged: amounts.damaged.toFixed(),
		wrong: amounts.wrong.toFixed(),
		backordered: amounts.backordered.toFixed(),
		missing: amounts.missing.toFixed(),
		over: amounts.over.toFixed(),
		state: partState(account),
		lines: lines.map(({ list, line }) => ({ deliveryId: list.deliveryId, line: line.line }))
	};
}

/**
 * Compares packing lists with the material list.
 *
 * A line is matched by part id, else by mark (or opening), kind, and whatever else both sides say: hand, length, width,
 * size, finish, item. Loose goods (anchors, what is used up) need no mark. A line counts for the parts it names and no
 * others: what came too many for one mark is proposed for another, never moved.
 *
 * @param parts the material list, in the order the openings are wanted
 * @param lists in the order they came; a line repeated on a later list is over, not counted twice
 * @throws Error for a part or delivery id that stands twice, a part quantity that is no plain decimal number, or a
 * tolerance below 0
 */
export function compareDelivery(
	parts: readonly Part[],
	lists: readonly DeliveryList[],
	options: CompareOptions = {}
): Comparison {
	const tolerance = options.lengthTolerance ?? usualTolerance;
	if (!(tolerance >= 0)) throw new RangeError(`a length tolerance of ${tolerance} nm; write 0 or more`);
	const ids = new Set<string>();
	for (const { deliveryId, name } of lists) {
		if (ids.has(deliveryId)) throw new Error(`packing list ${name} (${deliveryId}) is given twice`);
		ids.add(deliveryId);
	}
	const likeness = likenessReader();
	const order = readOrder(parts, likeness);
	const matcher = new Matcher(order, { tolerance, style: options.lengthStyle ?? 'feetInches' }, likeness);
	const lines = lists.flatMap((list) => list.lines.map((line) => readLine(list, line, matcher)));
	const ledger = new Ledger(order, lines);
	const { accounts } = ledger;
	const unlistedStock = accounts.some(({ part, listed }) => part.supply === 'stock' && !listed);
	return {
		lines: [...lines.map((read, index) => comparedLine(read, index, ledger)), ...unlistedLines(accounts)],
		parts: accounts.map(comparedPart),
		openings: readiness(accounts, options.stopped ?? [], lists.length > 1),
		notChecked: ['fieldMeasure', ...(unlistedStock ? (['stock'] as const) : [])]
	};
}
