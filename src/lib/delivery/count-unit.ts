/** Units a packing list counts in, against the unit of the order. What doesn’t convert for certain is asked. */
import { Decimal } from 'decimal.js';
import type { PackingLine } from './line.ts';
import type { Lot } from './wanted.ts';
import { wordsOf } from './words.ts';

/** Common practice, no source. */
const meanings: Readonly<Record<string, string>> = {
	cartridge: 'tube',
	bx: 'box',
	ct: 'box',
	ctn: 'box',
	packet: 'box',
	pkt: 'box',
	pack: 'box',
	pk: 'box',
	carton: 'box',
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
	st: 'set',
	unit: 'each'
};

/** One spelling of a unit: `EA`, `pcs.` → `each`; `PR` → `pair`; a word it does not know stays as it is. */
export function plainUnit(text: string): string {
	const words = wordsOf(text);
	return meanings[words[0] ?? ''] ?? words.join(' ');
}

export type CountUnit =
	| {
			readonly ok: true;
			/** Units of the order in one unit of the line; of each lot where each is counted. */
			readonly factor: number;
			/** Pieces of all lots are counted together. */
			readonly together: boolean;
			readonly notes: readonly string[];
	  }
	| { readonly ok: false; readonly reason: string };

/** `box of 24`, `24 per box`, `24/box`. */
function inOneBox(text: string): number | null {
	const found =
		/\b(?:box(?:es)?|bx|cartons?|ctns?|packs?|packets?|pkts?|pkgs?|bags?) (?:of|à|@) ?(\d{1,6})\b/iu.exec(
			text
		) ??
		/\b(\d{1,6}) ?(?:pcs?|pieces?|ea)? ?(?:per|\/|to the|a) ?(?:box|bx|carton|ctn|packet|pack|pkt|pkg|bag)\b/iu.exec(
			text
		);
	return found ? Number(found[1]) : null;
}

/** `(4 pcs)` beside a count of one: of more it may be the sum. */
function inTheOnlyOne({ quantity, description }: PackingLine): number | null {
	const found = quantity === 1 ? /\((\d{1,6}) ?(?:pcs?|pieces?|ea)\.?\)/iu.exec(description) : null;
	return found ? Number(found[1]) : null;
}

/**
 * Reads the unit of a line against the unit its parts are ordered in. A pair is two pieces: one of each hand where the
 * parts are made by hand and both are meant. A set is what is ordered of one opening, where the count bears that out. A
 * box is what the line says is in it, or what the order comes to where the line repeats the order in boxes.
 *
 * @param pairInWords the description speaks of pairs; it counts only where no unit is written
 * @param lots the lot; or a left and a right, where the line is about both
 */
export function readCountUnit(
	line: PackingLine,
	pairInWords: boolean,
	lots: readonly [Lot, ...Lot[]]
): CountUnit {
	const [{ part, parts }, ...others] = lots;
	const { unit, hand } = part;
	const both = others.length > 0;
	const ordered = lots.reduce((sum, lot) => sum.plus(lot.ordered), new Decimal(0));
	const written = line.unit?.trim() ?? '';
	const said = plainUnit(written);
	const shipped = said !== '' ? said : pairInWords ? 'pair' : null;
	const as = (factor: number, ...notes: string[]): CountUnit => ({
		ok: true,
		factor,
		together: both && shipped !== 'pair' && shipped !== 'set',
		notes
	});
	const ask = (why: string): CountUnit => ({
		ok: false,
		reason: `counted in ${written === '' ? (shipped ?? '') : written}, ordered in ${unit}; ${why}`
	});
	if (shipped === null)
		return unit === 'each' ? as(1) : as(1, `no unit on the line; taken as ${unit}, as ordered`);
	if (shipped === unit) return as(1);
	if (shipped === 'pair' && unit === 'each') {
		if (both) return as(1);
		return hand === null ? as(2, '1 pair is 2 pieces') : ask(`these are all ${hand} hand`);
	}
	if (shipped === 'each' && unit === 'pair') return as(0.5, '2 pieces are 1 pair');
	if (shipped === 'each' && unit === 'length') return as(1, 'each is one length');
	if (shipped === 'length' && unit === 'each') return as(1, 'a length is one piece');
	if (shipped === 'each' && unit === 'tube') return as(1, 'each is one tube');
	if (shipped === 'set' && unit === 'each' && inTheOnlyOne(line) === null) {
		const openings = new Set(parts.map((one) => one.part.openingId)).size;
		if (line.quantity !== openings)
			return ask(`${line.quantity ?? 'no'} sets fit no count of ${ordered.toFixed()}`);
		if (both)
			return lots.every((lot) => lot.ordered.eq(openings))
				? as(1, '1 set is a left and a right')
				: ask('what is in a set is not said');
		const each = ordered.div(openings);
		return each.isInteger()
			? as(each.toNumber(), `1 set is the ${each.toFixed()} of one opening`)
			: ask('what is in a set is not said');
	}
	const inside = inOneBox(`${line.description}; ${line.remark ?? ''}; ${written}`) ?? inTheOnlyOne(line);
	if (inside !== null && inside > 0) return as(inside, `${inside} in one ${said}`);
	if (line.ordered !== null && line.ordered > 0 && said !== 'each') {
		const each = ordered.div(line.ordered);
		if (each.isInteger() && each.gt(1))
			return as(
				each.toNumber(),
				`the line repeats our ${ordered.toFixed()} as ${line.ordered} ${said}, ${each.toFixed()} in each`
			);
	}
	return ask(`nothing says how many are in one`);
}
