/** Pressures, strengths, loads along a line and voltages as people type them. */
import { readDecimal } from './decimal-text.ts';
import { convert } from './units.ts';

const longestText = 60;

interface Figure {
	readonly value: number;
	readonly word: string;
}

/** A number and the word after it. `what` is an example of what to write. */
function readFigure(
	text: string,
	commaIsDecimal: boolean,
	what: string
): { ok: true; figure: Figure } | { ok: false; reason: string } {
	if (text.length > longestText) {
		return { ok: false, reason: `longer than ${longestText} characters; write ${what}` };
	}
	const plain = text.replace(/[\s\p{Cc}]+/gu, ' ').trim();
	if (plain === '') return { ok: false, reason: `nothing is there; write ${what}` };
	const match = /^([\d.,]*\d) ?([^\d.,+\-±].*)?$/u.exec(plain);
	if (!match) {
		return { ok: false, reason: `"${plain}" is not one plain figure; write ${what}` };
	}
	const number = readDecimal(match[1] ?? '', commaIsDecimal ? 'decimal' : 'refused');
	if (!number.ok) return number;
	const { digits, places } = number.value;
	return { ok: true, figure: { value: Number(`${digits}e-${places}`), word: match[2] ?? '' } };
}

/** What is asked for, and how it may be written. */
interface Asked {
	/** `pressure` */
	readonly noun: string;
	/** Unit of the answer. */
	readonly base: string;
	/** Unit of a figure without one. */
	readonly bare: string;
	/** Words for units, in lower case. */
	readonly units: ReadonlyMap<string, string>;
	/** In metric jobs. */
	readonly commaIsDecimal: boolean;
	/** Most, in `base`, and as it is said. */
	readonly most: number;
	readonly mostText: string;
	/** An example of what to write. */
	readonly what: string;
	/** What to write where several figures stand. */
	readonly whatOfSeveral?: string;
}

/** More than 0 and at most `most`; the reason of a refusal says, after a semicolon, what to write. */
function readMeasure(
	text: string,
	{ noun, base, bare, units, commaIsDecimal, most, mostText, what, whatOfSeveral = what }: Asked
): { ok: true; amount: number } | { ok: false; reason: string } {
	const read = readFigure(text, commaIsDecimal, whatOfSeveral);
	if (!read.ok) return read;
	const { value, word } = read.figure;
	const from = word === '' ? bare : units.get(word.toLowerCase());
	if (from === undefined) return { ok: false, reason: `"${word}" is not a unit of ${noun}; write ${what}` };
	const amount = convert(value, from, base);
	if (amount <= 0) return { ok: false, reason: `it must be more than 0; write ${what}, or leave it empty` };
	if (amount > most) return { ok: false, reason: `more than ${mostText}; write ${what}` };
	return { ok: true, amount };
}

const pressureUnits = new Map<string, string>([
	['psf', 'psf'],
	['lb/ft2', 'psf'],
	['lb/ft²', 'psf'],
	['lbf/ft2', 'psf'],
	['lbf/ft²', 'psf'],
	['lb/sq ft', 'psf'],
	['psi', 'psi'],
	['pa', 'Pa'],
	['kpa', 'kPa'],
	['kn/m2', 'kPa'],
	['kn/m²', 'kPa']
]);

/**
 * Reads a design pressure: `30`, `30 psf`, `1.44 kPa`, `1440 Pa`, `30 lb/ft²`, `0.2 psi`, `1.44 kN/m²`. A bare number
 * takes `unit`; in `kPa` a comma is a decimal mark too (`1,44`). It is a size without a sign, more than 0 and at most
 * 1000 psf. Anything else is refused; the reason says, after a semicolon, what to write.
 */
export function parsePressure(
	text: string,
	unit: 'psf' | 'kPa'
): { ok: true; psf: number } | { ok: false; reason: string } {
	const what = unit === 'psf' ? 'one pressure such as 30 psf' : 'one pressure such as 1.44 kPa';
	const read = readMeasure(text, {
		noun: 'pressure',
		base: 'psf',
		bare: unit,
		units: pressureUnits,
		commaIsDecimal: unit === 'kPa',
		most: 1000,
		mostText: '1000 psf (47.88 kPa)',
		what,
		whatOfSeveral: `${what}, the larger where inward and outward differ`
	});
	return read.ok ? { ok: true, psf: read.amount } : read;
}

const strengthUnits = new Map<string, string>([
	['psi', 'psi'],
	['lb/in2', 'psi'],
	['lb/in²', 'psi'],
	['lbf/in2', 'psi'],
	['lbf/in²', 'psi'],
	['lb/sq in', 'psi'],
	['ksi', 'ksi'],
	['mpa', 'MPa'],
	['n/mm2', 'MPa'],
	['n/mm²', 'MPa'],
	['kpa', 'kPa']
]);

/**
 * Reads the strength of a material, f′c of concrete, f′m of masonry or Fu of steel: `3000`, `3000 psi`, `4 ksi`,
 * `20.7 MPa`, `20.7 N/mm²`, `20700 kPa`. A bare number takes `unit`; in `MPa` a comma is a decimal mark too (`20,7`).
 * More than 0 and at most 200 000 psi. Anything else is refused; the reason says, after a semicolon, what to write.
 */
export function parseStrength(
	text: string,
	unit: 'psi' | 'MPa'
): { ok: true; psi: number } | { ok: false; reason: string } {
	const read = readMeasure(text, {
		noun: 'strength',
		base: 'psi',
		bare: unit,
		units: strengthUnits,
		commaIsDecimal: unit === 'MPa',
		most: 200_000,
		mostText: '200000 psi (1379 MPa)',
		what: unit === 'psi' ? 'one strength such as 3000 psi' : 'one strength such as 20.7 MPa'
	});
	return read.ok ? { ok: true, psi: read.amount } : read;
}

const lineLoadUnits = new Map<string, string>([
	['plf', 'lb/ft'],
	['lb/ft', 'lb/ft'],
	['lbs/ft', 'lb/ft'],
	['lbf/ft', 'lb/ft'],
	['lb/in', 'lb/in'],
	['lbf/in', 'lb/in'],
	['n/m', 'N/m'],
	['n/mm', 'kN/m'],
	['kn/m', 'kN/m'],
	['kg/m', 'kg/m'],
	['kgf/m', 'kg/m']
]);

/**
 * Reads a load along a line: `120`, `120 lb/ft`, `120 plf`, `10 lb/in`, `1750 N/m`, `1.75 kN/m`, `180 kg/m` (the weight
 * of a kilogram at standard gravity). A bare number takes `unit`; in `kN/m` a comma is a decimal mark too (`1,75`).
 * More than 0 and at most 100 000 lb/ft. Anything else is refused; the reason says, after a semicolon, what to write.
 */
export function parseLineLoad(
	text: string,
	unit: 'lb/ft' | 'kN/m'
): { ok: true; poundsPerFoot: number } | { ok: false; reason: string } {
	const read = readMeasure(text, {
		noun: 'load along a line',
		base: 'lb/ft',
		bare: unit,
		units: lineLoadUnits,
		commaIsDecimal: unit === 'kN/m',
		most: 100_000,
		mostText: '100000 lb/ft (1459 kN/m)',
		what: unit === 'lb/ft' ? 'one load such as 120 lb/ft' : 'one load such as 1.75 kN/m'
	});
	return read.ok ? { ok: true, poundsPerFoot: read.amount } : read;
}

const voltWords: ReadonlySet<string> = new Set(['', 'v', 'vac', 'vdc', 'v ac', 'v dc', 'volt', 'volts']);
const highestVolts = 1000;

/**
 * Reads a supply voltage: `480`, `480 V`, `24 V DC`, `120 VAC`; more than 0 and at most 1000 V. Two voltages or a
 * voltage with phase and frequency (`120/208`, `208/3/60`) are refused: the one at the opening is asked for.
 */
export function parseVoltage(text: string): { ok: true; volts: number } | { ok: false; reason: string } {
	const what = 'the voltage at the opening, such as 120 V';
	const read = readFigure(text, false, what);
	if (!read.ok) return read;
	const { value, word } = read.figure;
	if (!voltWords.has(word.toLowerCase())) {
		return { ok: false, reason: `"${word}" after the figure is not a unit of voltage; write ${what}` };
	}
	if (value <= 0) return { ok: false, reason: `it must be more than 0; write ${what}, or leave it empty` };
	if (value > highestVolts) return { ok: false, reason: `more than ${highestVolts} V; write ${what}` };
	return { ok: true, volts: value };
}
