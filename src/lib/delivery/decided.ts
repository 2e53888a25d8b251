/** What a person decided about a line, carried out. */
import { Decimal } from 'decimal.js';
import type { Difference } from './comparison.ts';
import { confidences } from './confidence.ts';
import { readCountUnit, type CountUnit } from './count-unit.ts';
import { differencesOf, type Claims, type Measuring, type Verdict } from './differ.ts';
import type { Likeness } from './likeness.ts';
import type { PackingLine } from './line.ts';
import type { LineDecision } from './line-decision.ts';
import type { ListReading, Matcher } from './match.ts';
import { either, leftOut, noMatch, type Match, type NoMatch } from './matched.ts';
import { plainMark } from './spelling.ts';
import { amountOf, lotOf, type Lot, type OrderedPart, type Wanted } from './wanted.ts';
import type { Part } from '../takeoff/result.ts';

export interface Deciding {
	readonly wanted: Wanted;
	readonly matcher: Matcher;
	readonly measuring: Measuring;
	readonly likeness: (part: Part) => Likeness;
	/** Name of a list, for a line that repeats one of it. */
	readonly nameOf: (deliveryId: string) => string;
}

/** The line with what a person corrected in it. */
export const corrected = (line: PackingLine, decision: LineDecision | null): PackingLine =>
	decision?.kind === 'reads' ? { ...line, ...decision.fields } : line;

/** Parts by id, also where an id has been superseded since; and the ids that are gone. */
function partsOf(partIds: readonly string[], wanted: Wanted): { found: OrderedPart[]; gone: string[] } {
	const found = new Set<OrderedPart>();
	const gone: string[] = [];
	for (const id of partIds) {
		const one = wanted.byId.get(id) ?? wanted.bySuperseded.get(plainMark(id));
		if (one) found.add(one);
		else gone.push(id);
	}
	return { found: [...found].sort((a, b) => a.at - b.at), gone };
}

/** Parts that may stand in for one another, in a lot each. */
function lotsOf(parts: readonly OrderedPart[], likeness: (part: Part) => Likeness): Lot[] {
	const byKey = new Map<string, [OrderedPart, ...OrderedPart[]]>();
	for (const one of parts) {
		const alike = byKey.get(one.part.interchangeKey);
		if (alike) alike.push(one);
		else byKey.set(one.part.interchangeKey, [one]);
	}
	return [...byKey.values()].map((some) => lotOf(some.length === 1 ? 'part' : 'decided', some, likeness));
}

const goneReason = (gone: readonly string[]): string =>
	`${either(gone, 'and')} ${gone.length > 1 ? 'are' : 'is'} no longer in the material list; decide again`;

/** Pairs and sets of more lots than a left and a right are counted in pieces of all of them. */
function unitOf(claims: Claims, lots: readonly [Lot, ...Lot[]]): CountUnit {
	const [first, second, third] = lots;
	const { line, description } = claims;
	if (third === undefined)
		return readCountUnit(line, description.words.pair, second ? [first, second] : [first]);
	const other = lots.find(({ part }) => part.hand !== null && part.hand !== first.part.hand);
	const unit = readCountUnit(line, description.words.pair, other ? [first, other] : [first]);
	if (!unit.ok) return unit;
	return { ...unit, factor: unit.factor * (other && !unit.together ? 2 : 1), together: true };
}

/** Attributes in which the line disagrees with every one of the lots: a person said what it means, not that it is right. */
function differencesWithAll(
	claims: Claims,
	verdicts: readonly Verdict[],
	measuring: Measuring
): Difference[] {
	const [first, ...others] = verdicts;
	if (!first) return [];
	const shared = first.differing.filter((one) => others.every(({ differing }) => differing.includes(one)));
	return differencesOf(claims, { ...first, differing: shared }, measuring);
}

function meant(
	claims: Claims,
	partIds: readonly string[],
	substitute: string | null,
	{ wanted, matcher, measuring, likeness }: Deciding
): Match | NoMatch {
	const { found, gone } = partsOf(partIds, wanted);
	const [first, ...others] = lotsOf(found, likeness);
	if (!first || gone.length > 0) return noMatch(goneReason(gone));
	const lots: readonly [Lot, ...Lot[]] = [first, ...others];
	const unit = unitOf(claims, lots);
	if (!unit.ok && substitute === null) return noMatch(`it means ${first.part.title}, but is ${unit.reason}`);
	const verdicts = lots.map((lot) => matcher.chooser.verdictOf(claims, lot));
	const differences = substitute === null ? differencesWithAll(claims, verdicts, measuring) : [];
	return {
		matched: true,
		lots,
		factor: unit.ok ? unit.factor : 1,
		split: lots.length > 1 && (!unit.ok || unit.together) ? 'together' : 'each',
		differences,
		how: [
			substitute === null
				? 'a person said what it means'
				: `taken in place of what was ordered: ${substitute}`,
			...(unit.ok ? unit.notes : [])
		].join('; '),
		confidence: confidences.decided,
		alias: null,
		substitute: substitute !== null
	};
}

function opened(
	line: PackingLine,
	contents: Extract<LineDecision, { kind: 'opens' }>['contents'],
	{ wanted, likeness }: Deciding
): Match | NoMatch {
	const lots: Lot[] = [];
	const amounts: Decimal[] = [];
	for (const { partIds, quantity } of contents) {
		const { found, gone } = partsOf(partIds, wanted);
		const [first, ...others] = found;
		if (!first || gone.length > 0) return noMatch(goneReason(gone));
		lots.push(lotOf(others.length === 0 ? 'part' : 'decided', [first, ...others], likeness));
		amounts.push(amountOf(quantity, `contents of line ${line.line}`));
	}
	const [first, ...others] = lots;
	if (!first) return leftOut('a person opened it, and nothing of it is ordered');
	return {
		matched: true,
		lots: [first, ...others],
		factor: 1,
		split: { contents: amounts },
		differences: [],
		how: 'a person said what is in it',
		confidence: confidences.decided,
		alias: null,
		substitute: false
	};
}

/** What a line means by the decision that stands; by its own words where there is none, or where it was only misread. */
export function decide(
	line: PackingLine,
	reading: ListReading,
	decision: LineDecision | null,
	deciding: Deciding
): Match | NoMatch {
	const { matcher, nameOf } = deciding;
	switch (decision?.kind) {
		case undefined:
		case 'reads':
			return matcher.match(line, reading);
		case 'means':
			return meant(matcher.claims(line, reading), decision.partIds, null, deciding);
		case 'substitutes':
			return meant(matcher.claims(line, reading), decision.partIds, decision.reason, deciding);
		case 'opens':
			return opened(line, decision.contents, deciding);
		case 'notOurs':
			return leftOut(`not ours, as a person decided: ${decision.reason}`);
		case 'repeats':
			return leftOut(
				`the same goods as line ${decision.line} of ${nameOf(decision.deliveryId)}, as a person decided; not counted again`
			);
	}
}

/** What the fields said before a person corrected them: `mark C-1O1 read as C-101`. */
export function correctionText(line: PackingLine, decision: LineDecision | null): string | null {
	if (decision?.kind !== 'reads') return null;
	const said = Object.entries(decision.fields).map(([name, now]) => {
		const before = line[name as keyof typeof decision.fields];
		return `${name} “${before ?? ''}” read as “${now ?? ''}”`;
	});
	return said.length === 0 ? null : `by correction: ${said.join(', ')}`;
}
