/** One line of a packing list read against the order: what it means, and how many of it are whole. */
import { Decimal } from 'decimal.js';
import { shareLine, type LineShares } from './amounts.ts';
import type { DeliveryList, Difference } from './comparison.ts';
import type { PackingLine } from './line.ts';
import type { Match, Matcher } from './match.ts';
import type { NoMatch } from './no-match.ts';
import { readRemark, type RemarkReading } from './remark.ts';

export interface ReadLine {
	readonly list: DeliveryList;
	readonly line: PackingLine;
	/** 0 where no quantity could be read. */
	readonly quantity: Decimal;
	readonly remark: RemarkReading;
	readonly match: Match | NoMatch;
	readonly differences: readonly Difference[];
	readonly shares: LineShares;
}

const zero = new Decimal(0);

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

export function readLine(list: DeliveryList, line: PackingLine, matcher: Matcher): ReadLine {
	const match = matcher.match(line);
	const remark = readState(line);
	const written = line.quantity;
	const readable = written !== null && Number.isFinite(written) && written >= 0;
	const quantity = readable ? new Decimal(written) : zero;
	if (!match.matched) {
		const shares = { shares: [], surplus: zero, notes: [] };
		return { list, line, quantity, remark, match, differences: [], shares };
	}
	const differences = [...match.differences];
	const [first] = match.lots;
	if (remark.wrong !== 0)
		differences.push({ attribute: 'remark', ordered: first.part.title, shipped: line.remark ?? '' });
	if (!readable && (written !== null || remark.backordered === 0))
		differences.push({
			attribute: 'quantity',
			ordered: first.ordered.toFixed(),
			shipped: written === null ? 'not given' : Number.isFinite(written) ? String(written) : 'not a number'
		});
	const shares = shareLine(
		quantity,
		match.lots,
		match.factor,
		match.together,
		match.differences.length > 0,
		remark
	);
	return { list, line, quantity, remark, match, differences, shares };
}
