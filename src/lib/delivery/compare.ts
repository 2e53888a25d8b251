/**
 * What came against what was taken off: every line of the packing lists and every ordered part with what became of it,
 * and which openings can start. Nothing is counted on a guess: a line that could mean two things is proposed to a
 * person, with the reason.
 */
import type { LengthStyle } from '../quantity/length.ts';
import type { Part } from '../takeoff/result.ts';
import { comparedLine, unlistedLines } from './compared-line.ts';
import { comparedList, missingText } from './compared-list.ts';
import type { ComparedPart, Comparison, DeliveryList, ListQuestion } from './comparison.ts';
import type { SiteCount } from './count.ts';
import { Ledger, type PartAccount } from './ledger.ts';
import { likenessReader } from './likeness.ts';
import type { Alias, DecidedLine } from './line-decision.ts';
import { ListReader } from './read-list.ts';
import { OpeningSizes, type PlaceSizes } from './opening-sizes.ts';
import type { SentOrder } from './order-lines.ts';
import { arrivalsOf } from './readiness/arrivals.ts';
import { readinessByLists, type OpeningStops } from './readiness/by-lists.ts';
import { askAboutRepeats } from './repeats.ts';
import { isAnotherTruckQuestion, isOursQuestion } from './whose-list.ts';
import { readWanted } from './wanted.ts';

export type { Comparison, DeliveryList } from './comparison.ts';

export interface CompareOptions {
	/** Lengths and widths that differ by no more are the same, nm; 1/16 in unless given. */
	readonly lengthTolerance?: number;
	/** How lengths are written in what is said; feet and inches unless given. */
	readonly lengthStyle?: LengthStyle;
	/** Openings that the takeoff stops (`takeoff/stops.ts`), whatever has come for them. */
	readonly stopped?: readonly OpeningStops[];
	/** Orders of the job, each as it was sent last. */
	readonly orders?: readonly SentOrder[];
	/** What people decided; of two for one line the later one given stands. */
	readonly decisions?: readonly DecidedLine[];
	/** Words of suppliers. */
	readonly aliases?: readonly Alias[];
	/** What was counted on site; of several of one line the latest stands. */
	readonly counts?: readonly SiteCount[];
	/** Older revisions of the parts, as far as they are known. */
	readonly retired?: readonly Part[];
	/** Sizes of openings, for lists that give those instead of the parts’. */
	readonly placesSizes?: readonly PlaceSizes[];
	/** As the job is called; and numbers of our orders beside those in `orders`. */
	readonly jobNames?: readonly string[];
	readonly orderNumbers?: readonly string[];
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
		lines: lines.map(({ list, line }) => ({ deliveryId: list.deliveryId, line: line.line })),
		arrivals: arrivalsOf(account)
	};
}

/**
 * Compares packing lists with the material list.
 *
 * A line is matched by our order line, else by part id, else by mark (or opening), kind, and whatever else both sides
 * say: hand, length, width, size, finish, item; else by a word of the supplier that a person explained. Loose goods
 * (anchors, what is used up) need no mark. A line counts for the parts it names and no others: what came too many for
 * one mark is proposed for another, never moved. What a person decided stands as long as it is given, and is undone by
 * leaving it out. A list that seems to be of another job, or to have come before, is asked about and not counted.
 *
 * @param parts the material list, in the order the openings are wanted
 * @param lists in the order they came
 * @throws Error for a part or delivery id that stands twice, a quantity of a part, a count or a kit that is no plain
 * decimal number, or a tolerance below 0
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
	const wanted = readWanted(parts, likeness, options.retired);
	const orders = options.orders ?? [];
	const reader = new ListReader(wanted, likeness, lists, {
		measuring: {
			tolerance,
			style: options.lengthStyle ?? 'feetInches',
			openings: new OpeningSizes(options.placesSizes ?? []),
			former: wanted.former
		},
		orders,
		decisions: options.decisions ?? [],
		aliases: options.aliases ?? [],
		counts: options.counts ?? []
	});
	const names = {
		wanted,
		orderLines: reader.orderLines,
		orderNumbers: [...orders.map(({ orderNumber }) => orderNumber), ...(options.orderNumbers ?? [])],
		jobNames: options.jobNames ?? []
	};
	const counted: DeliveryList[] = [];
	const read = lists.map((list) => {
		const { isOurs, isAnotherTruck } = list.answers ?? {};
		let question: ListQuestion | null = isOurs === undefined ? isOursQuestion(list, names) : null;
		if (isAnotherTruck === undefined) question ??= isAnotherTruckQuestion(list, counted);
		if (question === null && isOurs !== false && isAnotherTruck !== false) counted.push(list);
		return reader.read(list, question);
	});
	const first = read.flatMap(({ lines }) => lines);
	const before = new Ledger(wanted, first);
	const lines = askAboutRepeats(first, before);
	const ledger = lines === first ? before : new Ledger(wanted, lines);
	const { accounts } = ledger;
	const unlistedStock = accounts.some(({ part, listed }) => part.supply === 'stock' && !listed);
	const said = read.map(({ list, question }) => comparedList(list, lists, question, orders));
	const missing = said.flatMap((list) => missingText(list) ?? []);
	return {
		lists: said,
		lines: [
			...lines.map((one, index) => comparedLine(one, index, ledger)),
			...unlistedLines(accounts, missing)
		],
		parts: accounts.map(comparedPart),
		openings: readinessByLists(accounts, options.stopped ?? [], lists.length > 1),
		notChecked: ['fieldMeasure', ...(unlistedStock ? (['stock'] as const) : [])]
	};
}
