/** Which ordered parts a line of a packing list means. What is not certain is not matched: it is proposed, with the reason. */
import { formatLength } from '../quantity/length.ts';
import type { Part } from '../takeoff/result.ts';
import type { Difference } from './comparison.ts';
import { readCountUnit } from './count-unit.ts';
import {
	agreementOf,
	canMean,
	claimsOf,
	compareWithLot,
	descriptionReader,
	differencesOf,
	isMeasured,
	type Claims,
	type Description,
	type Measuring,
	type Verdict
} from './differ.ts';
import { kindTitles } from './kind-titles.ts';
import type { PackingLine } from './line.ts';
import { either, noMatch, proposeIds, proposeLots, type NoMatch } from './no-match.ts';
import {
	lookalike,
	lotOf,
	plainMark,
	type Likeness,
	type Lot,
	type LotsByKind,
	type Order,
	type OrderedPart
} from './order.ts';
import { findPlace } from './place.ts';
import { phrasesIn } from './words.ts';

export interface Match {
	readonly matched: true;
	/** One lot; or two, the left and the right hand, where the line is about both. */
	readonly lots: readonly [Lot] | readonly [Lot, Lot];
	/** Units of the order in one unit of the line; of each hand where it is about both. */
	readonly factor: number;
	/** The line counts pieces of both hands together. */
	readonly together: boolean;
	readonly differences: readonly Difference[];
	readonly how: string;
}

/** What the words of a line can mean at one place. */
interface Candidates {
	readonly lots: readonly Lot[];
	/** Those of them whose own title stands in the words. */
	readonly echoes: ReadonlySet<Lot>;
}

const inStock = (lot: Lot): boolean =>
	lot.part.supply === 'stock' || lot.kind === 'anchor' || lot.kind === 'consumable';

/** Matches lines with one order. */
export class Matcher {
	readonly #order: Order;
	readonly #measuring: Measuring;
	readonly #likeness: (part: Part) => Likeness;
	readonly #describe: (text: string) => Description;
	readonly #singles = new Map<OrderedPart, Lot>();
	readonly #jobStock: LotsByKind;
	readonly #candidates = new Map<LotsByKind, Map<Description, Candidates | NoMatch>>();

	constructor(order: Order, measuring: Measuring, likeness: (part: Part) => Likeness) {
		this.#order = order;
		this.#measuring = measuring;
		this.#likeness = likeness;
		this.#describe = descriptionReader(order);
		this.#jobStock = new Map([...order.job].map(([kind, lots]) => [kind, lots.filter(inStock)]));
	}

	match(line: PackingLine): Match | NoMatch {
		const description = this.#describe(line.description);
		const claims = claimsOf(line, description);
		if (line.hand !== null && description.words.hand !== null && line.hand !== description.words.hand)
			return noMatch(`the hand column says ${line.hand}, its words say ${description.words.hand}`);
		const id = line.partId?.trim() ?? '';
		if (id !== '') {
			const byId = this.#byId(id, claims);
			if (byId) return byId;
		}
		const notes = id === '' ? [] : [`"${id}" is no part id of this job`];

		const found = findPlace(this.#order, line, description);
		if (found === null) return this.#withoutMark(claims, notes);
		if ('matched' in found) return found;
		const { place, note } = found;
		if (note !== null) notes.push(note);
		return this.#choose(claims, place.lots, `${place.reach} ${place.name}`, notes);
	}

	/** Null when the id says nothing. */
	#byId(id: string, claims: Claims): Match | NoMatch | null {
		const plain = plainMark(id);
		const capitals = this.#order.byCapitals.get(plain) ?? [];
		const one = this.#order.byId.get(id) ?? (capitals.length === 1 ? capitals[0] : undefined);
		if (one) return this.#identified(one, claims, `part id ${one.part.partId}`, []);
		const newer = this.#order.bySuperseded.get(plain);
		if (newer)
			return this.#identified(newer, claims, `part id ${id}, which ${newer.part.partId} took the place of`, [
				{ attribute: 'revision', ordered: newer.part.partId, shipped: id }
			]);
		const alike = this.#order.byLookalike.get(lookalike(plain)) ?? [];
		if (alike.length === 0) return null;
		const ids = alike.map(({ part }) => part.partId);
		const reason = `part id ${id} is not in the material list; it looks like ${either(ids)}`;
		return noMatch(reason, proposeIds(ids, reason));
	}

	#identified(
		one: OrderedPart,
		claims: Claims,
		why: string,
		differences: readonly Difference[]
	): Match | NoMatch {
		const { part } = one;
		const lot = this.#lotOfOne(one);
		const { line, description } = claims;
		const told: Difference[] = [...differences];
		const mark = plainMark(line.mark ?? '');
		if (mark !== '' && mark !== plainMark(part.mark) && mark !== plainMark(part.openingId))
			told.push({ attribute: 'mark', ordered: part.mark, shipped: line.mark ?? '' });
		const { kinds, found } = description.words;
		const means =
			kinds.length === 0 || kinds.includes(part.kind) || description.phrase.includes(lot.likeness.title);
		if (!means) told.push({ attribute: 'kind', ordered: kindTitles[part.kind], shipped: found.join(', ') });
		return this.#settle(claims, [compareWithLot(claims, lot, this.#measuring)], why, told, []);
	}

	#lotOfOne(one: OrderedPart): Lot {
		const kept = this.#singles.get(one) ?? lotOf('part', [one], this.#likeness);
		this.#singles.set(one, kept);
		return kept;
	}

	/** Loose goods come for the whole job; anything else needs its mark. */
	#withoutMark(claims: Claims, notes: readonly string[]): Match | NoMatch {
		const { description } = claims;
		const loose = this.#choose(claims, this.#jobStock, 'the job', notes);
		if (loose.matched || loose.proposal) return loose;
		const others = this.#candidatesAt(this.#order.job, description, 'the job');
		if ('matched' in others) return noMatch([...notes, others.reason].join('; '));
		const fitting = others.lots.filter((lot) => {
			const verdict = compareWithLot(claims, lot, this.#measuring);
			return verdict.differing.length === 0 && isMeasured(verdict);
		});
		const reason = 'no mark on the line; kind and size would fit';
		return noMatch([...notes, 'no mark on the line'].join('; '), proposeLots(fitting, reason));
	}

	/** Lots whose own title stands in the words, where no other word says another kind. */
	#echoes(byKind: LotsByKind, { phrase }: Description): Set<Lot> {
		const lots = [...byKind.values()].flat();
		const titles = phrasesIn(
			phrase,
			lots.map(({ likeness }) => likeness.title)
		);
		return new Set(
			lots.filter(({ kind, likeness: { title } }) => {
				if (!titles.includes(title)) return false;
				const { kinds } = this.#describe(phrase.replaceAll(title, ' ')).words;
				return kinds.length === 0 || kinds.includes(kind);
			})
		);
	}

	#candidatesAt(byKind: LotsByKind, description: Description, where: string): Candidates | NoMatch {
		const here = this.#candidates.get(byKind) ?? new Map<Description, Candidates | NoMatch>();
		this.#candidates.set(byKind, here);
		const kept = here.get(description) ?? this.#findCandidates(byKind, description, where);
		here.set(description, kept);
		return kept;
	}

	#findCandidates(byKind: LotsByKind, description: Description, where: string): Candidates | NoMatch {
		const { words } = description;
		const echoes = this.#echoes(byKind, description);
		const kinds = [...new Set(echoes.size > 0 ? [...echoes].map(({ kind }) => kind) : words.kinds)];
		const lots = kinds.flatMap((kind) => byKind.get(kind) ?? []);
		if (echoes.size === 0 && words.mixed) {
			const reason = `its words say ${words.found.join(' and ')}; one line can’t be both`;
			return noMatch(reason, proposeLots(lots, reason));
		}
		if (kinds.length === 0) return noMatch('no word of it says what it is');
		const able = lots.filter((lot) => canMean(lot, description));
		if (able.length === 0)
			return noMatch(`${where} has no such ${either(kinds.map((kind) => kindTitles[kind]))} on order`);
		return { lots: able, echoes };
	}

	/** The lot that agrees with the line; where none does, the nearest, with what differs. */
	#choose(claims: Claims, byKind: LotsByKind, where: string, notes: readonly string[]): Match | NoMatch {
		const { description } = claims;
		const candidates = this.#candidatesAt(byKind, description, where);
		if ('matched' in candidates) return candidates;
		const verdicts = candidates.lots.map((lot) => compareWithLot(claims, lot, this.#measuring));
		const fits = verdicts.filter(({ differing }) => differing.length === 0);
		const why = ({ lot }: Verdict): string => `${where}, ${kindTitles[lot.kind]}`;
		const handUnsaid = claims.hand === null;
		const [first, second, ...more] =
			fits.length === 0 ? nearest(verdicts, handUnsaid) : this.#narrow(fits, candidates.echoes, description);
		if (!first) return noMatch(`${where} has no such part on order`);
		if (fits.length === 0 && first.lot.reach === 'job') {
			const reason = `no ${kindTitles[first.lot.kind]} of the job agrees with the line`;
			return noMatch(reason, proposeLots([first.lot], reason));
		}
		if (!second) return this.#settle(claims, [first], why(first), [], notes);
		if (more.length === 0 && handUnsaid && areHands(first, second))
			return this.#settle(claims, [first, second], why(first), [], notes);
		const lots = [first, second, ...more].map(({ lot }) => lot);
		const named = lots.slice(0, 4).map((lot) => this.#named(lot));
		const reason = `${lots.length} parts of ${where} fit: ${either(named)}`;
		return noMatch(reason, proposeLots(lots, reason));
	}

	/** Of several that fit, those the words name outright. */
	#narrow(fits: readonly Verdict[], echoes: ReadonlySet<Lot>, { phrase }: Description): readonly Verdict[] {
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
	#settle(
		claims: Claims,
		verdicts: readonly [Verdict] | readonly [Verdict, Verdict],
		why: string,
		told: readonly Difference[],
		notes: readonly string[]
	): Match | NoMatch {
		const [{ lot, ...first }, second] = verdicts;
		const { line, description } = claims;
		const counted = readCountUnit(line.unit, description.words.pair, lot, second !== undefined);
		const differences = [
			...told,
			...differencesOf(claims, { lot, ...first }, this.#measuring),
			...counted.differences
		];
		const together = second !== undefined && counted.together;
		if (together && differences.length === 0 && line.quantity !== null && line.quantity !== 0) {
			const ordered = lot.ordered.plus(second.lot.ordered);
			if (ordered.gt(line.quantity)) {
				const reason = `${why}: left or right is not said, and ${line.quantity} of ${ordered.toFixed()} may be either`;
				return noMatch(reason, proposeLots([lot, second.lot], reason));
			}
		}
		const hands: string[] = [];
		if (together) hands.push('no hand on the line, so it is read as all of both hands');
		else if (second) hands.push('left and right of each pair');
		else if (lot.part.hand !== null && lot.reach !== 'part' && claims.hand === null)
			hands.push('no hand on the line to compare');
		const { agreed, notes: unmeasured } = agreementOf(claims, { lot, ...first }, this.#measuring);
		return {
			matched: true,
			lots: second ? [lot, second.lot] : [lot],
			factor: counted.factor,
			together,
			differences,
			how: [[why, ...agreed].join(', '), ...notes, ...hands, ...counted.notes, ...unmeasured].join('; ')
		};
	}
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
