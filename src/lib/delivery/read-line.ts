/** One line of a packing list read against what is wanted: what it means, and how many of it are whole. */
import { Decimal } from 'decimal.js';
import { shareLine, type LineShares, type PiecesState } from './amounts.ts';
import type { DeliveryList, Difference } from './comparison.ts';
import type { SiteCount } from './count.ts';
import type { PackingLine } from './line.ts';
import type { DecidedLine } from './line-decision.ts';
import { leftOut, type Match, type NoMatch } from './matched.ts';
import { readRemark, type RemarkReading } from './remark.ts';
import { amountOf } from './wanted.ts';

export interface ReadLine {
	readonly list: DeliveryList;
	/** As it stands on the list. */
	readonly written: PackingLine;
	/** As it is read: with what a person corrected. */
	readonly line: PackingLine;
	/** Pieces in the unit of the line, listed or counted, whichever is more; 0 where no number could be read. */
	readonly quantity: Decimal;
	readonly remark: RemarkReading;
	readonly match: Match | NoMatch;
	readonly differences: readonly Difference[];
	readonly shares: LineShares;
	readonly decision: DecidedLine | null;
	readonly count: SiteCount | null;
}

const zero = new Decimal(0);
const nothing: LineShares = { shares: [], surplus: zero, notes: [] };

/** A remark, with what the description itself says outright. */
function readState({ remark, description }: PackingLine): RemarkReading {
	const said = readRemark(remark);
	if (!/\bdamaged\b|back[\s-]?order|\bb\/o\b/iu.test(description)) return said;
	const words = readRemark(description);
	return {
		...said,
		damaged: said.damaged === 0 ? words.damaged : said.damaged,
		backordered: said.backordered === 0 ? words.backordered : said.backordered
	};
}

/** Pieces that were counted, whole, damaged and wrong. */
export function countedOf({
	countId,
	amounts
}: SiteCount): Record<keyof SiteCount['amounts'] | 'all', Decimal> {
	const read = (text: string): Decimal => amountOf(text, `site count ${countId}`);
	const [whole, damaged, wrong] = [read(amounts.whole), read(amounts.damaged), read(amounts.wrong)];
	return { whole, damaged, wrong, all: whole.plus(damaged).plus(wrong) };
}

/** What is known of the pieces: by the count on site, else by the line’s own words and columns. */
function stateOf(
	line: PackingLine,
	remark: RemarkReading,
	listed: Decimal,
	count: SiteCount | null
): PiecesState {
	const { backordered: column } = line;
	const later = column !== null && Number.isFinite(column) && column > 0 ? column : null;
	const apart = later !== null;
	if (!count) return { ...remark, backordered: later ?? remark.backordered, backorderApart: apart };
	const counted = countedOf(count);
	return {
		damaged: counted.damaged,
		wrong: counted.wrong,
		missing: Decimal.max(zero, listed.minus(counted.all)),
		backordered: later ?? (listed.isZero() && counted.all.isZero() ? remark.backordered : 0),
		backorderApart: apart
	};
}

/**
 * @param find what the line means, given how many pieces there are of it
 * @param count what was counted of it on site; it goes before what the line says
 */
export function readLine(
	list: DeliveryList,
	written: PackingLine,
	line: PackingLine,
	find: (line: PackingLine) => Match | NoMatch,
	decision: DecidedLine | null,
	count: SiteCount | null
): ReadLine {
	const number = line.quantity;
	const readable = number !== null && Number.isFinite(number) && number >= 0;
	const listed = readable ? new Decimal(number) : zero;
	const counted = count ? countedOf(count).all : null;
	const quantity = counted === null ? listed : Decimal.max(listed, counted);
	const remark = readState(line);
	const match = find(counted === null ? line : { ...line, quantity: counted.toNumber() });
	const read = { list, written, line, quantity, remark, match, decision, count };
	if (!match.matched) return { ...read, differences: [], shares: nothing };
	const differences = [...match.differences];
	const [first] = match.lots;
	if (remark.wrong !== 0 && !match.substitute && !count)
		differences.push({ attribute: 'remark', ordered: first.part.title, shipped: line.remark ?? '' });
	const said = remark.backordered !== 0 || (line.backordered ?? 0) > 0;
	if (!readable && counted === null && (number !== null || !said))
		differences.push({
			attribute: 'quantity',
			ordered: first.ordered.toFixed(),
			shipped: number === null ? 'not given' : Number.isFinite(number) ? String(number) : 'not a number'
		});
	const state = stateOf(line, match.substitute ? { ...remark, wrong: 0 } : remark, listed, count);
	return { ...read, differences, shares: shareLine(match, quantity, match.differences.length > 0, state) };
}

/** The same line, not counted, because of a question about it or its list. */
export const notCounted = (
	read: ReadLine,
	reason: string,
	proposals: NoMatch['proposals'] = []
): ReadLine => ({
	...read,
	match: { ...leftOut(reason, true), proposals },
	differences: [],
	shares: nothing
});
