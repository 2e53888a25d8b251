/** The lines of a packing list, read with what the list, its supplier and people say of it. */
import type { Part } from '../takeoff/result.ts';
import type { DeliveryList, ListQuestion } from './comparison.ts';
import type { SiteCount } from './count.ts';
import { corrected, decide, type Deciding } from './decided.ts';
import type { Measuring } from './differ.ts';
import type { Likeness } from './likeness.ts';
import type { PackingLine } from './line.ts';
import type { Alias, DecidedLine } from './line-decision.ts';
import { handsQuestion, numbersAreOwn, readingOf } from './list-reading.ts';
import { Matcher, type ListReading } from './match.ts';
import { leftOut, proposeTogether } from './matched.ts';
import { confidences } from './confidence.ts';
import { OrderLines, type SentOrder } from './order-lines.ts';
import { notCounted, readLine, type ReadLine } from './read-line.ts';
import type { Wanted } from './wanted.ts';

export interface ListReaderOptions {
	readonly measuring: Measuring;
	readonly orders: readonly SentOrder[];
	readonly decisions: readonly DecidedLine[];
	readonly aliases: readonly Alias[];
	readonly counts: readonly SiteCount[];
}

export interface ReadList {
	readonly list: DeliveryList;
	readonly question: ListQuestion | null;
	/** A line each, then what was counted on site and is on no line. */
	readonly lines: readonly ReadLine[];
}

const keyOf = (deliveryId: string, line: number): string => JSON.stringify([deliveryId, line]);

/** What was counted last: by the time of the phone, then by id. */
const isLater = (a: SiteCount, b: SiteCount): boolean =>
	a.countedAt === b.countedAt ? a.countId > b.countId : a.countedAt > b.countedAt;

/** What a count on no line says, as a line. */
const foundOnSite = ({ description, crate }: SiteCount): PackingLine => ({
	line: 0,
	orderLine: null,
	partId: null,
	mark: null,
	description,
	quantity: 0,
	ordered: null,
	backordered: null,
	unit: null,
	length: null,
	width: null,
	size: null,
	hand: null,
	finish: null,
	crate,
	remark: null
});

export class ListReader {
	readonly orderLines: OrderLines;
	readonly #deciding: Deciding;
	readonly #aliases: readonly Alias[];
	readonly #decisions: ReadonlyMap<string, DecidedLine>;
	readonly #counts = new Map<string, SiteCount>();
	readonly #found = new Map<string, SiteCount>();

	constructor(
		wanted: Wanted,
		likeness: (part: Part) => Likeness,
		lists: readonly DeliveryList[],
		{ measuring, orders, decisions, aliases, counts }: ListReaderOptions
	) {
		this.orderLines = new OrderLines(orders, wanted, likeness);
		const names = new Map(lists.map(({ deliveryId, name }) => [deliveryId, name]));
		this.#deciding = {
			wanted,
			likeness,
			measuring,
			matcher: new Matcher(wanted, this.orderLines, measuring, likeness),
			nameOf: (deliveryId) => names.get(deliveryId) ?? 'a list that is gone'
		};
		this.#aliases = aliases;
		this.#decisions = new Map(decisions.map((one) => [keyOf(one.deliveryId, one.line), one]));
		for (const count of counts) {
			const [kept, key] =
				count.line === null
					? [this.#found, JSON.stringify([count.deliveryId, count.crate, count.description])]
					: [this.#counts, keyOf(count.deliveryId, count.line)];
			const before = kept.get(key);
			if (!before || isLater(count, before)) kept.set(key, count);
		}
	}

	/** @param question about the whole list; nothing of it counts as long as it stands */
	read(list: DeliveryList, question: ListQuestion | null): ReadList {
		const { matcher } = this.#deciding;
		const asSaid = readingOf(list, this.#aliases);
		const reading = { ...asSaid, ownNumbers: numbersAreOwn(list.lines, asSaid, matcher) };
		const decisionOf = (line: number): DecidedLine | null =>
			this.#decisions.get(keyOf(list.deliveryId, line)) ?? null;
		const hands =
			question ??
			handsQuestion(
				list,
				list.lines
					.filter(({ line }) => ['reads', undefined].includes(decisionOf(line)?.decision.kind))
					.map((line) => corrected(line, decisionOf(line.line)?.decision ?? null)),
				reading,
				matcher
			);
		const lines = list.lines.map((line) => this.#line(list, line, reading, decisionOf(line.line), hands));
		const found = [...this.#found.values()]
			.filter(({ deliveryId }) => deliveryId === list.deliveryId)
			.map((count) => this.#foundOnSite(list, count, reading));
		return { list, question: hands, lines: [...lines, ...found] };
	}

	#line(
		list: DeliveryList,
		written: PackingLine,
		reading: ListReading,
		decision: DecidedLine | null,
		question: ListQuestion | null
	): ReadLine {
		const line = corrected(written, decision?.decision ?? null);
		const count = this.#counts.get(keyOf(list.deliveryId, line.line)) ?? null;
		const { isOurs, isAnotherTruck } = list.answers ?? {};
		const read = readLine(
			list,
			written,
			line,
			(one) => {
				if (isOurs === false) return leftOut('its list is not for this job, as a person said');
				if (isAnotherTruck === false)
					return leftOut('its list came before, as a person said; not counted again');
				return decide(one, reading, decision?.decision ?? null, this.#deciding);
			},
			decision,
			count
		);
		if (question === null || (decision !== null && question.kind === 'handsFrom')) return read;
		if (question.kind === 'handsFrom') {
			const { match } = read;
			if (!match.matched || this.#deciding.matcher.claims(line, reading).hand === null) return read;
			return notCounted(read, question.reason, [
				proposeTogether(match.lots, 'as it stands, from the coil side', confidences.oneOfSeveral)
			]);
		}
		// A line that names nothing of the job says so itself.
		const saysItself = question.kind === 'isOurs' && (list.facts?.orderNumber ?? null) === null;
		return saysItself && !read.match.matched ? read : notCounted(read, question.reason);
	}

	/** What is on no line is never counted: it may be on another list. What it looks like is proposed. */
	#foundOnSite(list: DeliveryList, count: SiteCount, reading: ListReading): ReadLine {
		const line = foundOnSite(count);
		const { matcher } = this.#deciding;
		const read = readLine(list, line, line, (one) => matcher.match(one, reading), null, count);
		const looks = read.match.matched
			? [proposeTogether(read.match.lots, read.match.how, confidences.alike)]
			: read.match.proposals;
		return notCounted(read, 'counted on site, and on no line of the list', looks);
	}
}
