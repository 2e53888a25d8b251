/** Units a packing list counts in, against the unit of the order. What doesn't convert exactly is a difference. */
import type { Difference } from './comparison.ts';
import type { Lot } from './order.ts';
import { wordsOf } from './words.ts';

/** Common practice, no source. */
const meanings: Readonly<Record<string, string>> = {
	cartridge: 'tube',
	e: 'each',
	ea: 'each',
	feet: 'ft',
	foot: 'ft',
	lf: 'ft',
	lgth: 'length',
	lin: 'ft',
	no: 'each',
	number: 'each',
	pc: 'each',
	pce: 'each',
	piece: 'each',
	unit: 'each'
};

/** One spelling of a unit: `EA`, `pcs.` → `each`; `PR` → `pair`; a word it does not know stays as it is. */
function plainUnit(text: string): string {
	const words = wordsOf(text);
	return meanings[words[0] ?? ''] ?? words.join(' ');
}

export interface CountUnit {
	/** Units of the order in one unit of the line; of each hand where the line is about both. */
	readonly factor: number;
	/** Pieces of both hands are counted together. */
	readonly together: boolean;
	readonly differences: readonly Difference[];
	readonly notes: readonly string[];
}

/**
 * Reads the unit of a line against the unit its parts are ordered in. A pair is two pieces: one of each hand where the
 * parts are made by hand and both are meant.
 *
 * @param written as it stands on the line, or null
 * @param pairInWords the description speaks of pairs; it counts only where no unit is written
 * @param bothHands the line is about the lot and its other hand
 */
export function readCountUnit(
	written: string | null,
	pairInWords: boolean,
	lot: Lot,
	bothHands: boolean
): CountUnit {
	const { unit, hand } = lot.part;
	const said = plainUnit(written ?? '');
	const shipped = said !== '' ? said : pairInWords ? 'pair' : null;
	const as = (factor: number, ...notes: string[]): CountUnit => ({
		factor,
		together: bothHands && shipped !== 'pair',
		differences: [],
		notes
	});
	if (shipped === null)
		return unit === 'each' ? as(1) : as(1, `no unit on the line; taken as ${unit}, as ordered`);
	if (shipped === unit) return as(1);
	if (shipped === 'pair' && unit === 'each') {
		if (bothHands) return as(1);
		if (hand === null) return as(2, '1 pair is 2 pieces');
	}
	if (shipped === 'each' && unit === 'pair') return as(0.5, '2 pieces are 1 pair');
	if (shipped === 'each' && unit === 'length') return as(1, 'each is one length');
	if (shipped === 'length' && unit === 'each') return as(1, 'a length is one piece');
	if (shipped === 'each' && unit === 'tube') return as(1, 'each is one tube');
	return {
		factor: 1,
		together: bothHands,
		differences: [{ attribute: 'unit', ordered: unit, shipped: written?.trim() ?? shipped }],
		notes: []
	};
}
