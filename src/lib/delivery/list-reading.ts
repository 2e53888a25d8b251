/** How a packing list is to be read: from which side its hands are seen, what its sizes measure, whose words it uses. */
import { readAliases } from './alias.ts';
import type { DeliveryList, ListQuestion } from './comparison.ts';
import type { PackingLine } from './line.ts';
import type { Alias } from './line-decision.ts';
import type { ListReading, Matcher } from './match.ts';
import type { Match, NoMatch } from './matched.ts';

/** A person goes before the list, the list before what is usual with its supplier. */
export function readingOf(list: DeliveryList, aliases: readonly Alias[]): ListReading {
	const { facts, answers, supplierId } = list;
	const hands = answers?.handsFrom ?? facts?.handsFrom ?? list.handsFrom ?? 'coilSide';
	const sizes = answers?.sizes ?? facts?.sizes ?? null;
	return {
		mirrored: hands === 'farSide',
		sizes: { meaning: sizes ?? list.sizes ?? 'part', said: sizes !== null },
		orderNumber: facts?.orderNumber ?? null,
		ownNumbers: false,
		aliases: readAliases(
			aliases.filter((alias) => (supplierId ?? null) !== null && alias.supplierId === supplierId)
		)
	};
}

/** Lines that are looked at. */
const sampled = 60;
const fewestOwn = 3;

/**
 * Whether the numbers of the lines are the list’s own (10, 20, 30 …), though its heading may be that of our order’s: three
 * lines or more are clear without them and contradict the line of our order of that number, and next to none agrees with it.
 */
export function numbersAreOwn(
	lines: readonly PackingLine[],
	reading: ListReading,
	matcher: Matcher
): boolean {
	let [agree, contradict] = [0, 0];
	for (const line of lines.filter((one) => matcher.namesOrderLine(one, reading)).slice(0, sampled)) {
		if (matcher.match(line, reading).matched) agree++;
		else {
			const found = matcher.match(line, { ...reading, ownNumbers: true });
			if (found.matched && found.differences.length === 0) contradict++;
		}
	}
	return contradict >= fewestOwn && contradict > fewestOwn * agree;
}

const differsInHand = ({ differences }: Match): boolean =>
	differences.some(({ attribute }) => attribute === 'hand' || attribute === 'side');

/** Of one wrong hand it can’t be told whether the side or the part is wrong; of two that are both the other way round it can. */
const fewestTurned = 2;

/**
 * Whether left and right of a list seem to be seen from the other side: nothing says from where they are seen, two hands or
 * more are the other way round, and none is right as it stands.
 */
export function handsQuestion(
	list: DeliveryList,
	lines: readonly PackingLine[],
	reading: ListReading,
	matcher: Matcher
): ListQuestion | null {
	const said = list.answers?.handsFrom ?? list.facts?.handsFrom ?? list.handsFrom ?? null;
	if (said !== null) return null;
	const turned: number[] = [];
	const agrees = (found: Match | NoMatch): boolean => found.matched && !differsInHand(found);
	for (const line of lines) {
		if (matcher.claims(line, reading).hand === null) continue;
		const straight = agrees(matcher.match(line, reading));
		const mirrored = agrees(matcher.match(line, { ...reading, mirrored: !reading.mirrored }));
		if (straight && !mirrored) return null;
		if (mirrored && !straight) turned.push(line.line);
	}
	if (turned.length < fewestTurned) return null;
	return {
		kind: 'handsFrom',
		reason: `the list does not say from which side its left and right are seen; from the coil side ${turned.length} hands are wrong (lines ${turned.join(', ')}), from the other side none is`
	};
}
