/** Lines that name a part by its id: what they mean, and where they say something else. */
import { Decimal } from 'decimal.js';
import type { Part } from '../takeoff/result.ts';
import type { Chooser } from './choose.ts';
import type { Difference } from './comparison.ts';
import { confidences } from './confidence.ts';
import { isMeasured, type Claims } from './differ.ts';
import { kindTitles } from './kind-titles.ts';
import type { Likeness } from './likeness.ts';
import { either, noMatch, proposeIds, proposeLots, type Match, type NoMatch } from './matched.ts';
import type { FoundId } from './part-id.ts';
import { plainMark } from './spelling.ts';
import { lotOf, type Lot, type OrderedPart } from './wanted.ts';

/** Nothing differs, and a measure or the count agrees. */
export function bearsOut(chooser: Chooser, claims: Claims, { differences, lots, factor }: Match): boolean {
	if (differences.length > 0) return false;
	const { quantity } = claims.line;
	const ordered = lots.reduce((sum, lot) => sum.plus(lot.ordered), new Decimal(0));
	return (
		isMeasured(chooser.verdictOf(claims, lots[0])) ||
		(quantity !== null && Number.isFinite(quantity) && ordered.eq(new Decimal(quantity).times(factor)))
	);
}

export class Identifier {
	readonly #chooser: Chooser;
	readonly #likeness: (part: Part) => Likeness;
	readonly #singles = new Map<OrderedPart, Lot>();

	constructor(chooser: Chooser, likeness: (part: Part) => Likeness) {
		this.#chooser = chooser;
		this.#likeness = likeness;
	}

	identified(
		claims: Claims,
		id: Exclude<FoundId, { found: 'alike' }>,
		notes: readonly string[]
	): Match | NoMatch {
		const { part } = id.one;
		const lot = this.#lotOf(id.one);
		const { line, description } = claims;
		const told: Difference[] = [];
		const why =
			id.found === 'current'
				? `part id ${part.partId}`
				: `part id ${id.written}, which ${part.partId} took the place of`;
		const mark = plainMark(line.mark ?? '');
		const otherMark = mark !== '' && mark !== plainMark(part.mark) && mark !== plainMark(part.openingId);
		if (id.found === 'superseded') {
			if (otherMark) {
				const reason = `${why}, is of ${part.openingId}; the mark of the line is ${line.mark ?? ''}`;
				return noMatch(reason, proposeLots([lot], reason, confidences.oneOfSeveral));
			}
			told.push({ attribute: 'revision', ordered: part.partId, shipped: id.written });
		}
		if (otherMark) told.push({ attribute: 'mark', ordered: part.mark, shipped: line.mark ?? '' });
		const { kinds, found } = description.words;
		const means =
			kinds.length === 0 || kinds.includes(part.kind) || description.phrase.includes(lot.likeness.title);
		if (!means) told.push({ attribute: 'kind', ordered: kindTitles[part.kind], shipped: found.join(', ') });
		const verdict = this.#chooser.verdictOf(claims, lot);
		return this.#chooser.settle(claims, [verdict], { way: 'named', why, told, notes });
	}

	/** Sure where it can be one only, and the line bears it out. */
	misread(claims: Claims, { all, written }: Extract<FoundId, { found: 'alike' }>): Match | NoMatch {
		const ids = all.map(({ part }) => part.partId);
		const reason = `part id ${written} is not in the material list; it looks like ${either(ids)}`;
		const [only, ...more] = all;
		if (only && more.length === 0) {
			const found = this.identified(claims, { found: 'current', one: only, written }, [reason]);
			const { kinds } = claims.description.words;
			if (found.matched && kinds.includes(only.part.kind) && bearsOut(this.#chooser, claims, found))
				return { ...found, confidence: confidences.misread };
		}
		return noMatch(
			reason,
			ids.map((id) => proposeIds([id], reason, confidences.alike))
		);
	}

	#lotOf(one: OrderedPart): Lot {
		const kept = this.#singles.get(one) ?? lotOf('part', [one], this.#likeness);
		this.#singles.set(one, kept);
		return kept;
	}
}
