/** Lines of a later list that bring once more what an earlier one brought: while nothing is outstanding, or in the same crate. */
import { Decimal } from 'decimal.js';
import type { Proposal } from './comparison.ts';
import { confidences } from './confidence.ts';
import type { Ledger } from './ledger.ts';
import type { Match } from './matched.ts';
import { notCounted, type ReadLine } from './read-line.ts';
import { plainMark } from './spelling.ts';

/** Lines with another text are not the same; those with the same may be. */
const goodsOf = ({ lots }: Match, quantity: Decimal): string =>
	`${quantity.toFixed()} ${lots.map(({ parts }) => `${parts[0].at}-${parts.length}-${parts.at(-1)?.at ?? 0}`).join(' ')}`;

const sameParts = (a: ReadLine, b: ReadLine): boolean => {
	const [some, others] = [a, b].map(({ match }) =>
		match.matched ? match.lots.flatMap(({ parts }) => parts) : []
	);
	return some?.length === others?.length && (some ?? []).every((one, at) => one === others?.[at]);
};

const sameCrate = ({ line: a }: ReadLine, { line: b }: ReadLine): boolean =>
	a.crate === null || b.crate === null || plainMark(a.crate) === plainMark(b.crate);

/** Both name a crate and a line of our order, and say the same in all they say. */
const isSameLineOfCrate = ({ line: a }: ReadLine, { line: b }: ReadLine): boolean =>
	a.crate !== null &&
	b.crate !== null &&
	a.orderLine !== null &&
	a.orderLine === b.orderLine &&
	a.backordered === b.backordered &&
	a.remark === b.remark &&
	a.description === b.description;

/** Nothing of it found a part that still waits. */
const isAllOver = (ledger: Ledger, index: number): boolean => {
	const { whole } = ledger.dealsOf(index);
	return whole.every(({ dealt }) => dealt.length === 0) && whole.some(({ left }) => left.gt(0));
};

/**
 * The lines, those that may be the same goods again as a question. A line that a person decided about, or whose list they
 * called another truck, stands.
 */
export function askAboutRepeats(lines: readonly ReadLine[], ledger: Ledger): readonly ReadLine[] {
	const before = new Map<string, ReadLine[]>();
	const read = lines.map((one, index): ReadLine => {
		const { match, list, quantity } = one;
		if (!match.matched || quantity.isZero()) return one;
		const goods = goodsOf(match, quantity);
		const same = before.get(goods) ?? [];
		const stands = one.decision !== null || one.count !== null || list.answers?.isAnotherTruck === true;
		const earlier = stands
			? undefined
			: same.find((other) => other.list !== list && sameCrate(other, one) && sameParts(other, one));
		before.set(goods, [...same, one]);
		// A crate comes once: its line on another list is asked about even where something is outstanding.
		if (!earlier || one.differences.length > 0) return one;
		const over = isAllOver(ledger, index);
		if (!over && !isSameLineOfCrate(earlier, one)) return one;
		const partIds = match.lots.flatMap(({ parts }) => parts.map(({ part }) => part.partId));
		const where = `line ${earlier.line.line} of ${earlier.list.name}`;
		const reason = `the same goods again? ${where} brought as many of the same${one.line.crate === null ? '' : `, crate ${one.line.crate}`}, and ${over ? 'none is outstanding' : 'a crate comes once'}`;
		const proposals: Proposal[] = [
			{
				partIds,
				reason: `the same goods as ${where}`,
				confidence: confidences.likely,
				decision: { kind: 'repeats', deliveryId: earlier.list.deliveryId, line: earlier.line.line }
			},
			{
				partIds,
				reason: over ? 'more than ordered' : 'more of what is outstanding',
				confidence: confidences.oneOfSeveral,
				decision: { kind: 'means', partIds }
			}
		];
		return notCounted(one, reason, proposals);
	});
	return read.some((one, index) => one !== lines[index]) ? read : lines;
}
