/**
 * Which ordered parts a line of a packing list means: by our order line, by part id, by mark and kind, by a word of the
 * supplier that a person explained. What is not certain is not matched: it is proposed, with the reason.
 */
import type { Part } from '../takeoff/result.ts';
import { aliasFor, type ReadAlias } from './alias.ts';
import { CandidateFinder } from './candidates.ts';
import { Chooser, type Way } from './choose.ts';
import { confidences } from './confidence.ts';
import { bearsOut, Identifier } from './identify.ts';
import { descriptionReader, type Description, type DescriptionReader } from './description.ts';
import { claimsOf, type Claims, type ListView, type Measuring } from './differ.ts';
import { kindTitles } from './kind-titles.ts';
import { kitWords, mayBeInKit } from './kit.ts';
import type { Likeness } from './likeness.ts';
import type { PackingLine } from './line.ts';
import {
	either,
	leftOut,
	noMatch,
	proposeLots,
	proposeTogether,
	type Match,
	type NoMatch
} from './matched.ts';
import type { OrderLine, OrderLines } from './order-lines.ts';
import { findPartId, type FoundId } from './part-id.ts';
import { findPlace, type FoundPlace } from './place.ts';
import { likeLots } from './like-lots.ts';
import { plainMark } from './spelling.ts';
import type { Lot, LotsByKind, OrderedPart, Place, Wanted } from './wanted.ts';

/** What the lines of a list are read with. */
export interface ListReading extends ListView {
	/** The order the list names. */
	readonly orderNumber: string | null;
	/** Numbers of its lines are its own, and not those of our order. */
	readonly ownNumbers: boolean;
	/** Of its supplier. */
	readonly aliases: readonly ReadAlias[];
}

const inStock = (lot: Lot): boolean =>
	lot.part.supply === 'stock' || lot.kind === 'anchor' || lot.kind === 'consumable';

/** Matches lines with what is wanted. */
export class Matcher {
	readonly #wanted: Wanted;
	readonly #orderLines: OrderLines;
	readonly #identifier: Identifier;
	readonly #describe: DescriptionReader;
	readonly #chooser: Chooser;
	readonly #jobStock: LotsByKind;

	constructor(
		wanted: Wanted,
		orderLines: OrderLines,
		measuring: Measuring,
		likeness: (part: Part) => Likeness
	) {
		this.#wanted = wanted;
		this.#orderLines = orderLines;
		this.#describe = descriptionReader(wanted);
		this.#chooser = new Chooser(new CandidateFinder(this.#describe), measuring);
		this.#identifier = new Identifier(this.#chooser, likeness);
		this.#jobStock = new Map([...wanted.job].map(([kind, lots]) => [kind, lots.filter(inStock)]));
	}

	claims(line: PackingLine, reading: ListReading): Claims {
		return claimsOf(line, this.#descriptionOf(line.description, reading.aliases), reading);
	}

	get chooser(): Chooser {
		return this.#chooser;
	}

	match(line: PackingLine, reading: ListReading): Match | NoMatch {
		const claims = this.claims(line, reading);
		const { description } = claims;
		const said = description.words.hand;
		if (line.hand !== null && said !== null && line.hand !== said)
			return noMatch(`the hand column says ${line.hand}, its words say ${said}`);
		const id = findPartId(this.#wanted, line.partId);
		const place = findPlace(this.#wanted, line);
		if (id?.found !== 'current' && description.alias === null && kitWords(description.phrase) !== null)
			return this.#kit(description, place);
		const notes: string[] = [];
		const written = reading.ownNumbers ? '' : (line.orderLine?.trim() ?? '');
		if (written !== '' && !this.#orderLines.isEmpty) {
			const { lines, note } = this.#orderLines.find(written, reading.orderNumber);
			if (note !== null) notes.push(note);
			const byLine = this.#byOrderLine(claims, lines, id, place, notes);
			if (byLine) return byLine;
		}
		if (reading.ownNumbers && line.orderLine !== null)
			notes.push(`its number ${line.orderLine} is the list’s own, no line of our order`);
		if (id && id.found !== 'alike') return this.#identifier.identified(claims, id, notes);
		if (id) return this.#identifier.misread(claims, id);
		const unknown = line.partId?.trim() ?? '';
		if (unknown !== '') notes.push(`"${unknown}" is no part id of this job`);
		return this.#byPlace(claims, place, notes);
	}

	/** Whether a line names a line of an order that is known. */
	namesOrderLine({ orderLine }: PackingLine, { orderNumber }: ListReading): boolean {
		return orderLine !== null && this.#orderLines.find(orderLine.trim(), orderNumber).lines.length > 0;
	}

	#descriptionOf(text: string, aliases: readonly ReadAlias[]): Description {
		const own = this.#describe(text);
		const alias = aliasFor(own, aliases);
		return alias ? this.#describe(text, alias) : own;
	}

	/** Null when there is no such line. Several where the list names no order: the one that agrees. */
	#byOrderLine(
		claims: Claims,
		lines: readonly OrderLine[],
		id: FoundId | null,
		place: FoundPlace | null,
		notes: readonly string[]
	): Match | NoMatch | null {
		const [first, ...others] = lines.map((line) => this.#inOrderLine(claims, line, id, place, notes));
		if (!first || others.length === 0) return first ?? null;
		const [fit, ...more] = [first, ...others].filter(
			(found): found is Match => found.matched && found.differences.length === 0
		);
		if (fit && more.length === 0) return fit;
		const reason = `it may be ${either(lines.map(({ name }) => name))}`;
		return noMatch(
			reason,
			lines.map((line) =>
				proposeTogether([...line.lotsAt(null).values()].flat(), reason, confidences.oneOfSeveral)
			)
		);
	}

	#inOrderLine(
		claims: Claims,
		orderLine: OrderLine,
		id: FoundId | null,
		place: FoundPlace | null,
		notes: readonly string[]
	): Match | NoMatch {
		const { name } = orderLine;
		const { line, description } = claims;
		const everything = [...orderLine.lotsAt(null).values()].flat();
		/** The line says something else than the order line it names. */
		const contradiction = (what: string, other: Match | NoMatch | null): NoMatch => {
			const reason = `${name} is ${orderLine.title}; ${what}`;
			const meant = proposeLots(everything, reason, confidences.oneOfSeveral);
			if (!other) return noMatch(reason, meant);
			const rest = other.matched
				? proposeLots(other.lots, reason, confidences.oneOfSeveral)
				: other.proposals;
			return noMatch(reason, [...meant, ...rest]);
		};
		if (id && id.found !== 'alike') {
			if (!orderLine.has(id.one))
				return contradiction(
					`part id ${id.written} is ${this.#partName(id.one)}`,
					this.#identifier.identified(claims, id, notes)
				);
			if (id.found === 'superseded') return this.#identifier.identified(claims, id, [name, ...notes]);
			if (line.quantity !== null && id.one.ordered.gte(finite(line.quantity)))
				return this.#identifier.identified(claims, id, [name, ...notes]);
		}
		const places = placesOf(place);
		const within = places === null ? null : places.filter((one) => orderLine.lotsAt([one]).size > 0);
		const elsewhere = (): Match | NoMatch => this.#byPlace(claims, place, notes);
		if (place?.found === 'none') return contradiction(place.no.reason, null);
		// Of marks that a mark may be misread for, one is meant; of several that are named, all.
		const clear = place?.found === 'alike' ? 1 : places?.length;
		if (places !== null && within?.length !== clear)
			return contradiction(
				`the line is for ${either(
					places.map((one) => one.name),
					'and'
				)}`,
				elsewhere()
			);
		const all = place?.found === 'alike' ? [...notes, place.reason] : notes;
		const lots = orderLine.lotsAt(within);
		const kinds = description.words.kinds;
		const some = [...lots.values()].flat();
		const echoes = some.some(({ likeness }) => description.phrase.includes(likeness.title));
		if (kinds.length > 0 && !echoes && !kinds.some((kind) => lots.has(kind)))
			return contradiction(`its words say ${description.words.found.join(', ')}`, elsewhere());
		if (description.words.belongs && !description.alias)
			return contradiction('its words name a thing that belongs to a part', null);
		const sides = new Set(some.flatMap(({ hands }) => [...hands]));
		if (description.words.both && sides.size === 1)
			return contradiction('its words say left and right', elsewhere());
		const [only, ...more] = some;
		if (!only) return leftOut(`${name} covers no part of the material list: it only fills up a box`);
		if (orderLine.purchases.every(({ scope }) => scope === 'unit') && kinds.length === 0 && !echoes)
			return this.#wholeUnit(claims, orderLine, some);
		if (more.length > 0) return this.#chooser.choose(claims, lots, name, all, 'named');
		const found = this.#chooser.settle(claims, [this.#chooser.verdictOf(claims, only)], {
			way: 'named',
			why: `${name}, ${kindTitles[only.kind]}`,
			told: [],
			notes: all
		});
		const twin = found.matched && isOnlyHand(found) ? this.#otherHand(claims, only) : null;
		if (twin === null) return found;
		const reason = `its hand is that of ${twin.part.title} for ${twin.part.mark}`;
		return contradiction(
			reason,
			noMatch(
				reason,
				proposeLots([twin], `${name} is ${orderLine.title}; ${reason}`, confidences.oneOfSeveral)
			)
		);
	}

	/** What a line agrees with at the mark of a lot, where it differs from that only in its hand. */
	#otherHand(claims: Claims, { kind, part }: Lot): Lot | null {
		const [place] = this.#wanted.places.get(plainMark(part.mark)) ?? [];
		return (
			(place?.lots.get(kind) ?? []).find(
				(lot) => lot.part.hand !== part.hand && this.#chooser.verdictOf(claims, lot).differing.length === 0
			) ?? null
		);
	}

	/** Openings complete, each with everything that is ordered of it. */
	#wholeUnit(
		{ line, description }: Claims,
		{ name, purchases }: OrderLine,
		lots: readonly Lot[]
	): Match | NoMatch {
		const [first, ...others] = lots;
		const openings = purchases.flatMap(({ openingIds }) => openingIds).length;
		const units = finite(line.quantity);
		if (!first || openings === 0 || !Number.isInteger(units))
			return noMatch(
				`${name} is for whole openings; ${line.quantity ?? 'no number'} of them can’t be counted`
			);
		return {
			matched: true,
			lots: [first, ...others],
			factor: 1,
			split: lots.map(({ ordered }) => ordered.div(openings).times(units)),
			differences: [],
			how: `${name}, openings complete`,
			confidence: confidences.named,
			alias: description.alias,
			substitute: false
		};
	}

	#byPlace(claims: Claims, place: FoundPlace | null, notes: readonly string[]): Match | NoMatch {
		if (place === null) return this.#withoutMark(claims, notes);
		switch (place.found) {
			case 'none':
				return place.no;
			case 'one': {
				const { reach, name, lots } = place.place;
				const all = place.note === null ? notes : [...notes, place.note];
				return this.#chooseOrLike(claims, lots, `${reach} ${name}`, all, 'mark');
			}
			case 'several':
				return this.#chooser.chooseAcross(claims, place.places, place.reason, notes);
			case 'alike':
				return this.#misreadPlace(claims, place.places, place.reason, notes);
		}
	}

	#misreadPlace(
		claims: Claims,
		places: readonly Place[],
		reason: string,
		notes: readonly string[]
	): Match | NoMatch {
		const found = places.map(({ reach, name, lots }) =>
			this.#chooseOrLike(claims, lots, `${reach} ${name}`, [...notes, reason], 'misread')
		);
		const [fit, ...more] = found.filter(
			(one): one is Match => one.matched && bearsOut(this.#chooser, claims, one)
		);
		if (fit && more.length === 0) return fit;
		return noMatch(
			reason,
			found.flatMap((one) =>
				one.matched
					? [
							proposeTogether(
								one.lots,
								reason,
								found.length > 1 ? confidences.oneOfSeveral : confidences.likely
							)
						]
					: one.proposals
			)
		);
	}

	/** What can’t be read from the words may still be proposed by its measures. */
	#chooseOrLike(
		claims: Claims,
		lots: LotsByKind,
		where: string,
		notes: readonly string[],
		way: Way
	): Match | NoMatch {
		const found = this.#chooser.choose(claims, lots, where, notes, way);
		if (found.matched || found.proposals.length > 0 || claims.description.words.kinds.length > 0)
			return found;
		return noMatch([...notes, found.reason].join('; '), likeLots(claims, lots, where, this.#chooser));
	}

	/** Loose goods come for the whole job; anything else needs its mark. */
	#withoutMark(claims: Claims, notes: readonly string[]): Match | NoMatch {
		const loose = this.#chooser.choose(claims, this.#jobStock, 'the job', notes);
		if (loose.matched || loose.proposals.length > 0) return loose;
		return noMatch(
			[...notes, 'no mark on the line'].join('; '),
			likeLots(claims, this.#wanted.job, 'the job', this.#chooser)
		);
	}

	#kit(description: Description, place: FoundPlace | null): NoMatch {
		const places = placesOf(place) ?? [];
		const lots = places.length === 0 ? [this.#wanted.job] : places.map((one) => one.lots);
		const reason = `it is a kit (${kitWords(description.phrase) ?? ''}), and what is in it is not said`;
		return { ...noMatch(reason), kit: lots.flatMap(mayBeInKit) };
	}

	#partName({ part }: OrderedPart): string {
		return `${part.title} of ${part.openingId}`;
	}
}

const isOnlyHand = ({ differences }: Match): boolean =>
	differences.length > 0 &&
	differences.every(({ attribute }) => attribute === 'hand' || attribute === 'side');

const placesOf = (place: FoundPlace | null): readonly Place[] | null => {
	if (place === null || place.found === 'none') return null;
	return place.found === 'one' ? [place.place] : place.places;
};

const finite = (quantity: number | null): number =>
	quantity !== null && Number.isFinite(quantity) && quantity >= 0 ? quantity : 0;
