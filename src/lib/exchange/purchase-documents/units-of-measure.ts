/**
 * Codes of units: what we write, and what we read.
 *
 * Sources: UN/ECE Recommendation 20, *Codes for Units of Measure Used in International Trade* (revision 17, 2021), and
 * Recommendation 21, *Codes for … Packages and Packaging Materials*, whose codes stand with an X before them where a
 * unit is wanted, as the invoice standard EN 16931 and the ordering rules of OpenPeppol use them. Codes of packages were
 * taken out of Recommendation 20 when that was agreed; old programs still write them (`withdrawn`).
 */
import type { Part } from '../../takeoff/result.ts';

type List = 'rec20' | 'rec21' | 'withdrawn';

export interface UnitOfMeasure {
	readonly code: string;
	/** The word of the trade for it, as a packing list would write it. */
	readonly word: string;
	readonly list: List;
	/** One of it in nanometres, as a whole number; null where it is no length. */
	readonly nm: number | null;
}

const unitOf = (code: string, word: string, list: List, nm: number | null = null): UnitOfMeasure => ({
	code,
	word,
	list,
	nm
});

// prettier-ignore
const units: readonly UnitOfMeasure[] = [
	unitOf('EA', 'each', 'rec20'), // each
	unitOf('C62', 'each', 'rec20'), // one
	unitOf('H87', 'each', 'rec20'), // piece
	unitOf('PR', 'pair', 'rec20'), // pair
	unitOf('SET', 'set', 'rec20'), // set
	unitOf('LN', 'length', 'rec20'), // length: bars and tubes counted by the piece, however long
	unitOf('KT', 'kit', 'rec20'), // kit
	unitOf('AS', 'assortment', 'rec20'), // assortment
	unitOf('DZN', 'dozen', 'rec20'), // dozen
	unitOf('DPR', 'dozen pairs', 'rec20'), // dozen pair
	unitOf('CEN', 'hundred', 'rec20'), // hundred
	unitOf('MIL', 'thousand', 'rec20'), // thousand
	unitOf('FOT', 'ft', 'rec20', 304_800_000), // foot
	unitOf('LF', 'ft', 'rec20', 304_800_000), // linear foot
	unitOf('INH', 'in', 'rec20', 25_400_000), // inch
	unitOf('YRD', 'yd', 'rec20', 914_400_000), // yard
	unitOf('MMT', 'mm', 'rec20', 1_000_000), // millimetre
	unitOf('CMT', 'cm', 'rec20', 10_000_000), // centimetre
	unitOf('DMT', 'dm', 'rec20', 100_000_000), // decimetre
	unitOf('MTR', 'm', 'rec20', 1_000_000_000), // metre
	unitOf('LM', 'm', 'rec20', 1_000_000_000), // linear metre
	unitOf('XTU', 'tube', 'rec21'), // Tube
	unitOf('XBX', 'box', 'rec21'), // Box
	unitOf('XCT', 'carton', 'rec21'), // Carton
	unitOf('XCS', 'case', 'rec21'), // Case
	unitOf('XCR', 'crate', 'rec21'), // Crate
	unitOf('XPX', 'pallet', 'rec21'), // Pallet
	unitOf('XBE', 'bundle', 'rec21'), // Bundle
	unitOf('XBG', 'bag', 'rec21'), // Bag
	unitOf('XPK', 'package', 'rec21'), // Package
	unitOf('XPA', 'packet', 'rec21'), // Packet
	unitOf('XRO', 'roll', 'rec21'), // Roll
	unitOf('NPR', 'pair', 'withdrawn'), // number of pairs
	unitOf('TU', 'tube', 'withdrawn'), // tube
	unitOf('BX', 'box', 'withdrawn'), // box
	unitOf('CT', 'carton', 'withdrawn'), // carton
	unitOf('CS', 'case', 'withdrawn'), // case
	unitOf('BG', 'bag', 'withdrawn'), // bag
	unitOf('PK', 'pack', 'withdrawn'), // pack
	unitOf('RO', 'roll', 'withdrawn') // roll
];

const byCode: ReadonlyMap<string, UnitOfMeasure> = new Map(units.map((unit) => [unit.code, unit]));

/** The unit of a code as written, or null for a code that is not in the table. Codes are capitals; small ones are taken too. */
export const readUnitCode = (code: string): UnitOfMeasure | null =>
	byCode.get(code.trim().toUpperCase()) ?? null;

/** A bar or a barrel ordered by the piece is a length (LN); a tube of sealant is a package, so it takes the X of Recommendation 21. */
export const unitCodes: Readonly<Record<Part['unit'], string>> = {
	each: 'EA',
	pair: 'PR',
	set: 'SET',
	length: 'LN',
	tube: 'XTU',
	ft: 'FOT'
};

/** Codes of the two units that sizes are written in. */
export const lengthCodes = { inch: 'INH', millimetre: 'MMT' } as const;
