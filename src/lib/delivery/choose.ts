/** Which of the lots that the words can mean agrees with a line; and what a line that was found comes to. */
import { Decimal } from 'decimal.js';
import { formatLength } from '../quantity/length.ts';
import type { CandidateFinder } from './candidates.ts';
import type { Difference, Proposal } from './comparison.ts';
import { confidences } from './confidence.ts';
import { readCountUnit } from './count-unit.ts';
import {
	agreementOf,
	compareWithLot,
	differencesOf,
	isMeasured,
	type Claims,
	type Measuring,
	type Verdict
} from './differ.ts';
import { kindTitles } from './kind-titles.ts';
import { either, noMatch, proposeLots, proposeTogether, type Match, type NoMatch } from './matched.ts';
import type { Lot, LotsByKind, Place } from './wanted.ts';
import { phrasesIn } from './words.ts';

/** How a line came to its lot: by our own line or id, by mark and kind, or by a mark that was misread. */
export type Way = 'named' | 'mark' | 'misread';

/** What was found already: how, why, and what is told beside it. */
export interface Finding {
	readonly way: Way;
	readonly why: string;
	readonly told: readonly Difference[];
	readonly notes: readonly string[];
}

const meanings = { opening: 'its opening', overall: 'its opening with the guides', part: 'the part itself' };

export class Chooser {
	readonly #candidates: CandidateFinder;
	readonly #measuring: Measuring;

	constructor(candidates: CandidateFinder, measuring: Measuring) {
		this.#candidates = candidates;
		this.#measuring = measuring;
	}

	verdictOf(claims: Claims, lot: Lot): Verdict {
		return compareWithLot(claims, lot, this.#measuring);
	}

	/** The lot that agrees with the line; where none does, the nearest, with what differs. */
	choose(
		claims: Claims,
		byKind: LotsByKind,
		where: string,
		notes: readonly string[],
		way: Way = 'mark'
	): Match | NoMatch {
		const picked = this.#pick(claims, byKind, where);
		if ('matched' in picked) return picked;
		return this.settle(claims, picked, {
			way,
			why: `${where}, ${kindTitles[picked[0].lot.kind]}`,
			told: [],
			notes
		});
	}

	/** One lot, or the left and the right. */
	#pick(
		claims: Claims,
		byKind: LotsByKind,
		where: string
	): readonly [Verdict] | readonly [Verdict, Verdict] | NoMatch {
		const { description } = claims;
		const candidates = this.#candidates.find(byKind, description, where);
		if ('matched' in candidates) return candidates;
		const verdicts = candidates.lots.map((lot) => this.verdictOf(claims, lot));
		const agreeing = verdicts.filter(({ differing }) => differing.length === 0);
		const plain = agreeing.filter(({ assumed }) => assumed === null);
		const fits = plain.length > 0 ? plain : agreeing;
		const handUnsaid = claims.hand === null;
		const [first, second, ...more] =
			fits.length === 0
				? nearest(verdicts, handUnsaid)
				: this.#narrow(fits, candidates.echoes, description.phrase);
		if (!first) return noMatch(`${where} has no such part on order`);
		if (fits.length === 0 && first.lot.reach === 'job') {
			const reason = `no ${kindTitles[first.lot.kind]} of the job agrees with the line`;
			return noMatch(reason, proposeLots([first.lot], reason, confidences.alike));
		}
		if (!second) return [first];
		if (more.length === 0 && handUnsaid && areHands(first, second)) return [first, second];
		const lots = [first, second, ...more].map(({ lot }) => lot);
		const reason = `${lots.length} parts of ${where} fit: ${either(lots.slice(0, 4).map((lot) => this.#named(lot)))}`;
		return noMatch(reason, proposeLots(lots, reason));
	}

	/** One line for several marks: sure only when its quantity is what all of them have on order. */
	chooseAcross(
		claims: Claims,
		places: readonly Place[],
		reason: string,
		notes: readonly string[]
	): Match | NoMatch {
		const picks: (readonly [Verdict] | readonly [Verdict, Verdict])[] = [];
		for (const { lots, reach, name } of places) {
			const picked = this.#pick(claims, lots, `${reach} ${name}`);
			if ('matched' in picked) return noMatch(`${reason}; ${picked.reason}`, picked.proposals);
			picks.push(picked);
		}
		const verdicts = picks.flat();
		const [first, ...others] = verdicts;
		if (!first) return noMatch(reason);
		const lots: readonly [Lot, ...Lot[]] = [first.lot, ...others.map(({ lot }) => lot)];
		const proposals = [proposeTogether(lots, reason, confidences.likely)];
		if (verdicts.some(({ differing, assumed }) => differing.length > 0 || assumed !== null))
			return noMatch(`${reason}; not all of them agree with the line`, proposals);
		if (picks.some((pick) => pick.length !== picks[0]?.length)) return noMatch(reason, proposals);
		const { line, description } = claims;
		const hands: readonly [Lot, ...Lot[]] =
			picks[0]?.length === 2 ? [first.lot, picks[0][1].lot] : [first.lot];
		const counted = readCountUnit(line, description.words.pair, hands);
		if (!counted.ok) return noMatch(`${reason}; ${counted.reason}`, proposals);
		const each = hands.length === 2 && !counted.together ? 2 : 1;
		const pieces = new Decimal(finite(line.quantity)).times(counted.factor).times(each);
		const ordered = lots.reduce((sum, lot) => sum.plus(lot.ordered), new Decimal(0));
		if (!pieces.eq(ordered))
			return noMatch(
				`${reason}; ${pieces.toFixed()} listed, ${ordered.toFixed()} ordered of them together`,
				proposals
			);
		return {
			matched: true,
			lots,
			factor: counted.factor,
			split: lots.map((lot) => lot.ordered),
			differences: [],
			how: [
				reason,
				...notes,
				`${ordered.toFixed()} is what is ordered of all of them`,
				...counted.notes
			].join('; '),
			confidence: verdicts.every(isMeasured) ? confidences.measured : confidences.only,
			alias: description.alias,
			substitute: false
		};
	}

	/** Of several that fit, those the words name outright. */
	#narrow(fits: readonly Verdict[], echoes: ReadonlySet<Lot>, phrase: string): readonly Verdict[] {
		if (fits.length < 2) return fits;
		const echoed = fits.filter(({ lot }) => echoes.has(lot));
		const rest = echoed.length > 0 ? echoed : fits;
		const items = phrasesIn(
			phrase,
			rest.flatMap(({ lot }) => lot.likeness.items)
		);
		const named = rest.filter(({ lot }) => lot.likeness.items.some((item) => items.includes(item)));
		return named.length > 0 ? named : rest;
	}

	#named({ part }: Lot): string {
		const lengths = [part.length, part.width].flatMap((one) => one ?? []);
		const measures = lengths.map((nm) => formatLength(nm, this.#measuring.style));
		return [part.title, ...(part.size === '' ? [] : [part.size]), ...measures].join(' ');
	}

	/** Units, hands and the reason, for parts that were found. */
	settle(
		claims: Claims,
		verdicts: readonly [Verdict] | readonly [Verdict, Verdict],
		{ way, why, told, notes }: Finding
	): Match | NoMatch {
		const [first, second] = verdicts;
		const { lot } = first;
		const { line, description } = claims;
		const lots: readonly [Lot] | readonly [Lot, Lot] = second ? [lot, second.lot] : [lot];
		const counted = readCountUnit(line, description.words.pair, lots);
		const differences = distinct([...told, ...differencesOf(claims, first, this.#measuring)]);
		if (first.assumed !== null) return noMatch(...this.#assumed(why, claims, first, lots));
		if (!counted.ok) return noMatch(`${why}; ${counted.reason}`, [opened(lots, counted.reason)]);
		const together = second !== undefined && counted.together;
		const pieces = new Decimal(finite(line.quantity)).times(counted.factor);
		if (together && differences.length === 0 && !pieces.isZero()) {
			const ordered = lot.ordered.plus(second.lot.ordered);
			if (ordered.gt(pieces)) {
				const reason = `${why}: left or right is not said, and ${pieces.toFixed()} of ${ordered.toFixed()} may be either`;
				return noMatch(reason, proposeLots(lots, reason));
			}
		}
		const hands: string[] = [];
		if (together) hands.push('no hand on the line, so it is read as all of both hands');
		else if (second) hands.push('left and right of each pair');
		else if (lot.part.hand !== null && lot.parts.length > 1 && claims.hand === null)
			hands.push('no hand on the line to compare');
		const { agreed, notes: unmeasured } = agreementOf(claims, first, this.#measuring);
		const repeated = lots.reduce((sum, one) => sum.plus(one.ordered), new Decimal(0));
		const order =
			lot.reach === 'orderLine' &&
			line.ordered !== null &&
			!repeated.eq(new Decimal(finite(line.ordered)).times(counted.factor))
				? [`the list repeats our order as ${line.ordered}; ordered are ${repeated.toFixed()}`]
				: [];
		return {
			matched: true,
			lots,
			factor: counted.factor,
			split: together ? 'together' : 'each',
			differences,
			how: [[why, ...agreed].join(', '), ...notes, ...hands, ...counted.notes, ...unmeasured, ...order].join(
				'; '
			),
			confidence: confidenceOf(way, claims, first, differences.length > 0),
			alias: description.alias,
			substitute: false
		};
	}

	#assumed(why: string, claims: Claims, verdict: Verdict, lots: readonly Lot[]): [string, Proposal[]] {
		const { style } = this.#measuring;
		const figure = verdict.length ?? claims.line.width ?? 0;
		const reason = `${why}: ${formatLength(figure, style)} is the size of ${meanings[verdict.assumed ?? 'part']}; ordered is ${this.#named(verdict.lot)}, and the list does not say what its sizes measure`;
		return [reason, [proposeTogether(lots, reason, confidences.likely)]];
	}
}

const finite = (quantity: number | null): number =>
	quantity !== null && Number.isFinite(quantity) ? quantity : 0;

const distinct = (differences: readonly Difference[]): Difference[] =>
	differences.filter(
		({ attribute }, at) => differences.findIndex((one) => one.attribute === attribute) === at
	);

/** Where the unit is not known: as many as are ordered. */
const opened = (lots: readonly Lot[], reason: string): Proposal => ({
	partIds: lots.flatMap(({ parts }) => parts.map(({ part }) => part.partId)),
	reason,
	confidence: confidences.alike,
	decision: {
		kind: 'opens',
		contents: lots.map(({ parts, ordered }) => ({
			partIds: parts.map(({ part }) => part.partId),
			quantity: ordered.toFixed()
		}))
	}
});

function confidenceOf(way: Way, { description }: Claims, verdict: Verdict, differs: boolean): number {
	if (differs) return confidences.differs;
	if (way === 'misread') return confidences.misread;
	if (way === 'named')
		return verdict.agreeing.length > 0 || description.words.kinds.includes(verdict.lot.kind)
			? confidences.namedAndAgreed
			: confidences.named;
	if (description.alias) return confidences.alias;
	return isMeasured(verdict) ? confidences.measured : confidences.only;
}

const differsInHand = ({ differing }: Verdict): boolean =>
	differing.includes('hand') || differing.includes('side');

/** Fewest differences; then the right hand; then the nearest length; then the wanted order. */
const nearer = (a: Verdict, b: Verdict): number =>
	a.differing.length - b.differing.length ||
	Number(differsInHand(a)) - Number(differsInHand(b)) ||
	a.offLength - b.offLength ||
	a.lot.parts[0].at - b.lot.parts[0].at;

/** Of parts that all differ, the nearest; with its other hand where that differs alike and no hand is said. */
function nearest(verdicts: readonly Verdict[], handUnsaid: boolean): readonly Verdict[] {
	const [first, ...others] = verdicts;
	if (!first) return [];
	const best = others.reduce((one, other) => (nearer(other, one) < 0 ? other : one), first);
	const twin = handUnsaid
		? verdicts.find((one) => areHands(one, best) && one.differing.join() === best.differing.join())
		: undefined;
	return twin ? [best, twin] : [best];
}

/** The left and the right of one kind, of parts that are made by hand. */
const areHands = ({ lot: a }: Verdict, { lot: b }: Verdict): boolean =>
	a.kind === b.kind && a.part.hand !== null && b.part.hand !== null && a.part.hand !== b.part.hand;
