/** Pressures and voltages as people type them. */
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

const highestPsf = 1000;

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
	const read = readFigure(text, unit === 'kPa', `${what}, the larger where inward and outward differ`);
	if (!read.ok) return read;
	const { value, word } = read.figure;
	const from = word === '' ? unit : pressureUnits.get(word.toLowerCase());
	if (from === undefined) return { ok: false, reason: `"${word}" is not a unit of pressure; write ${what}` };
	const psf = convert(value, from, 'psf');
	if (psf <= 0) return { ok: false, reason: `it must be more than 0; write ${what}, or leave it empty` };
	if (psf > highestPsf) {
		return { ok: false, reason: `more than ${highestPsf} psf (47.88 kPa); write ${what}` };
	}
	return { ok: true, psf };
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
