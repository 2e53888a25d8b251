/** Which mark or opening a line of a packing list names. */
import type { PackingLine } from './line.ts';
import { either, noMatch, type NoMatch } from './matched.ts';
import { misreadMark, plainMark, withoutSeparators } from './spelling.ts';
import type { Place, Wanted } from './wanted.ts';

export type FoundPlace =
	| { readonly found: 'one'; readonly place: Place; readonly note: string | null }
	/** One line for several marks. */
	| { readonly found: 'several'; readonly places: readonly Place[]; readonly reason: string }
	/** None is written so; these could be misread so. */
	| { readonly found: 'alike'; readonly places: readonly Place[]; readonly reason: string }
	| { readonly found: 'none'; readonly no: NoMatch };

const none = (reason: string): FoundPlace => ({ found: 'none', no: noMatch(reason) });

/** Marks and openings that stand as whole words in a text. Marks without both a letter and a digit are words too easily. */
function placesInWords(wanted: Wanted, text: string): Place[] {
	const places = new Set<Place>();
	for (const word of text.split(/[\s,;:()&+]+/u)) {
		const plain = plainMark(word.replace(/[./]+$/u, ''));
		if (!/\p{L}/u.test(plain) || !/\d/u.test(plain)) continue;
		const here = wanted.places.get(plain) ?? placesSplit(wanted, word) ?? [];
		for (const place of here) places.add(place);
	}
	const all = [...places];
	// The opening says its mark.
	return all.filter(
		({ reach, mark }) =>
			reach === 'opening' || !all.some((one) => one.reach === 'opening' && one.mark === mark)
	);
}

/** `C-101/C-102`, `C-101 & 102`, `C-101.1, .2`: all of them, or null where one is unknown. */
function placesSplit(wanted: Wanted, written: string): Place[] | null {
	const pieces = written.split(/\s*(?:[,;&+/]|\band\b)\s*/iu).filter((piece) => piece !== '');
	if (pieces.length < 2) return null;
	const found: Place[] = [];
	let before = '';
	for (const piece of pieces) {
		const plain = plainMark(piece);
		const whole = /^\.?\d+$/u.test(plain)
			? before.slice(0, Math.max(0, before.search(/\.?\d+$/u))) + (/\d$/u.test(before) ? plain : '')
			: plain;
		const [place, ...more] = wanted.places.get(whole) ?? wanted.places.get(before + plain) ?? [];
		if (!place || more.length > 0) return null;
		if (!found.includes(place)) found.push(place);
		before = plainMark(place.name);
	}
	return found;
}

function unknownMark(wanted: Wanted, written: string, plain: string): FoundPlace {
	const split = placesSplit(wanted, written);
	if (split)
		return { found: 'several', places: split, reason: `mark ${written} is ${namesOf(split, 'and')}` };
	const bare = withoutSeparators(plain);
	if (bare === plain) {
		const [place, ...more] = wanted.placesWithoutSeparators.get(bare) ?? [];
		if (place && more.length === 0) return { found: 'one', place, note: `${written} read as ${place.name}` };
	}
	const reason = `there is no mark ${written} in the job`;
	const alike = plain.includes('?')
		? placesLike(wanted, plain)
		: (wanted.placesByMisreading.get(misreadMark(plain)) ?? []);
	if (alike.length === 0) return none(reason);
	return { found: 'alike', places: alike, reason: `${reason}; it looks like ${namesOf(alike, 'or')}` };
}

/** Marks with another sign where one could not be read: `S-20?`. */
function placesLike(wanted: Wanted, plain: string): Place[] {
	const signs = Array.from(misreadMark(plain));
	return [...wanted.placesByMisreading].flatMap(([key, places]) => {
		const others = Array.from(key);
		const fits =
			others.length === signs.length && signs.every((sign, at) => sign === '?' || sign === others[at]);
		return fits ? places.filter(({ reach }) => reach === 'mark') : [];
	});
}

const namesOf = (places: readonly Place[], word: 'and' | 'or'): string =>
	either(
		places.map(({ name }) => name),
		word
	);

/** By its mark, else by its words. Null when it names no place; a place that is not certain is none. */
export function findPlace(wanted: Wanted, line: PackingLine): FoundPlace | null {
	const written = line.mark?.trim() ?? '';
	const inWords = placesInWords(wanted, line.description);
	if (written === '') {
		const [first, ...others] = inWords;
		if (!first) return null;
		if (others.length > 0)
			return {
				found: 'several',
				places: inWords,
				reason: `its words name ${namesOf(inWords, 'or')}, and it has no mark`
			};
		return { found: 'one', place: first, note: 'mark read in its words' };
	}
	const plain = plainMark(written);
	const same = wanted.places.get(plain) ?? [];
	const exact = same.filter(({ name }) => name === written);
	const [place, ...more] = exact.length > 0 ? exact : same;
	if (!place) return unknownMark(wanted, written, plain);
	if (more.length > 0)
		return none(
			`mark ${written} may be ${either([place, ...more].map(({ reach, name }) => `${reach} ${name}`))}`
		);
	const elsewhere = inWords.filter(({ mark }) => mark !== place.mark);
	if (elsewhere.length > 0) return none(`its mark is ${written}, its words name ${namesOf(elsewhere, 'or')}`);
	if (place.reach === 'opening') {
		const other = inWords.filter(({ reach, name }) => reach === 'opening' && name !== place.name);
		if (other.length > 0) return none(`its mark is ${written}, its words name ${namesOf(other, 'or')}`);
		return { found: 'one', place, note: null };
	}
	const openings = inWords.filter(({ reach }) => reach === 'opening');
	const [narrower, ...several] = openings;
	if (several.length > 0)
		return {
			found: 'several',
			places: openings,
			reason: `its words name ${namesOf(openings, 'or')}; one line is for one of them or for the mark`
		};
	return narrower
		? { found: 'one', place: narrower, note: 'opening read in its words' }
		: { found: 'one', place, note: null };
}
