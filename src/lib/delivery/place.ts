/** Which mark or opening a line of a packing list names. */
import { canMean, type Description } from './differ.ts';
import type { PackingLine } from './line.ts';
import { either, noMatch, proposeLots, type NoMatch } from './no-match.ts';
import { lookalike, plainMark, withoutSeparators, type Order, type Place } from './order.ts';

export type FoundPlace = { readonly place: Place; readonly note: string | null } | NoMatch;

/** Marks and openings that stand as whole words in a text. Marks without both a letter and a digit are words too easily. */
function placesInWords(order: Order, text: string): Place[] {
	const places = new Set<Place>();
	for (const word of text.split(/[\s,;:()]+/u)) {
		const plain = plainMark(word.replace(/[./]+$/u, ''));
		if (!/\p{L}/u.test(plain) || !/\d/u.test(plain)) continue;
		for (const place of order.places.get(plain) ?? []) places.add(place);
	}
	const all = [...places];
	// The opening says its mark.
	return all.filter(
		({ reach, mark }) =>
			reach === 'opening' || !all.some((one) => one.reach === 'opening' && one.mark === mark)
	);
}

function unknownMark(order: Order, written: string, plain: string, description: Description): FoundPlace {
	const bare = withoutSeparators(plain);
	if (bare === plain) {
		const [place, ...more] = order.placesWithoutSeparators.get(bare) ?? [];
		if (place && more.length === 0) return { place, note: `${written} read as ${place.name}` };
	}
	const none = `there is no mark ${written} in the job`;
	const alike = order.placesByLookalike.get(lookalike(bare)) ?? [];
	if (alike.length === 0) return noMatch(none);
	const reason = `${none}; it looks like ${either(alike.map(({ name }) => name))}`;
	const lots = alike.flatMap((place) =>
		description.words.kinds.flatMap((kind) => place.lots.get(kind) ?? [])
	);
	return noMatch(
		reason,
		proposeLots(
			lots.filter((lot) => canMean(lot, description)),
			reason
		)
	);
}

/** By its mark, else by its words. Null when it names no place; a place that is not certain is none. */
export function findPlace(order: Order, line: PackingLine, description: Description): FoundPlace | null {
	const written = line.mark?.trim() ?? '';
	const inWords = placesInWords(order, line.description);
	if (written === '') {
		const [first, ...others] = inWords;
		if (!first) return null;
		if (others.length > 0)
			return noMatch(`its words name ${either(inWords.map(({ name }) => name))}, and it has no mark`);
		return { place: first, note: 'mark read in its words' };
	}
	const plain = plainMark(written);
	const same = order.places.get(plain) ?? [];
	const exact = same.filter(({ name }) => name === written);
	const [place, ...more] = exact.length > 0 ? exact : same;
	if (!place) return unknownMark(order, written, plain, description);
	if (more.length > 0)
		return noMatch(
			`mark ${written} may be ${either([place, ...more].map(({ reach, name }) => `${reach} ${name}`))}`
		);
	const elsewhere = inWords.filter(({ mark }) => mark !== place.mark);
	if (elsewhere.length > 0)
		return noMatch(`its mark is ${written}, its words name ${either(elsewhere.map(({ name }) => name))}`);
	if (place.reach === 'opening') {
		const other = inWords.filter(({ reach, name }) => reach === 'opening' && name !== place.name);
		if (other.length > 0)
			return noMatch(`its mark is ${written}, its words name ${either(other.map(({ name }) => name))}`);
		return { place, note: null };
	}
	const openings = inWords.filter(({ reach }) => reach === 'opening');
	const [narrower, ...several] = openings;
	if (several.length > 0)
		return noMatch(
			`its words name ${either(openings.map(({ name }) => name))}; one line is for one of them or for the mark`
		);
	return narrower ? { place: narrower, note: 'opening read in its words' } : { place, note: null };
}
