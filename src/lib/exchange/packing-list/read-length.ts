/** Lengths in a packing list. What has lost a bar, a mark or a comma on its way is asked, with what it may have been. */
import { formatLength, parseLength } from '../../quantity/length.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { withUnit, type FigureUnit } from '../table-notes.ts';

/** What the figures after the dot of feet are: decimals, or inches. */
export type FeetManner = 'decimal' | 'inches';

export type LengthCellReading =
	| { readonly ok: true; readonly nm: number }
	| { readonly ok: false; readonly reason: string; readonly readings: readonly string[] };

export interface LengthManner {
	/** Of figures without a unit. */
	readonly unit: FigureUnit;
	readonly measures: Measures;
	/** Null while it is not known. */
	readonly feet: FeetManner | null;
}

/** 100 m. No part is longer. */
const longest = 100_000_000_000;
const bottoms = ['2', '4', '8', '16', '32', '64'];

const refused = (reason: string, ...readings: readonly string[]): LengthCellReading => ({
	ok: false,
	reason,
	readings
});

/** `12` as the fraction 1/2 that has lost its bar; null when it can't be one. */
function fractionOf(digits: string): string | null {
	for (const bottom of bottoms) {
		const top = digits.slice(0, -bottom.length);
		if (
			digits.endsWith(bottom) &&
			/^[1-9]\d?$/u.test(top) &&
			Number(top) < Number(bottom) &&
			Number(top) % 2 === 1
		)
			return `${top}/${bottom}`;
	}
	return null;
}

/** Where the whole number may end in `1013/16`: `10 13/16`, `101 3/16`. */
function splits(digits: string, bottom: string): string[] {
	const found: string[] = [];
	for (let at = 1; at < digits.length; at++) {
		const top = digits.slice(at);
		if (!top.startsWith('0') && Number(top) < Number(bottom) && Number(top) % 2 === 1)
			found.push(`${digits.slice(0, at)} ${top}/${bottom}`);
	}
	return found;
}

/** Decimal commas as dots; null where one may stand for thousands. */
function withDots(text: string): string | null {
	if (/^\d{1,3}(?:\.\d{3})+,\d+(?=\D|$)/u.test(text)) return text.replaceAll('.', '').replace(',', '.');
	if (/^\d{1,3}(?:,\d{3})+\.\d+(?=\D|$)/u.test(text)) return text.replaceAll(',', '');
	const [, whole, decimals] = /^(\d+),(\d+)(?=[^\d,]|$)/u.exec(text) ?? [];
	if (whole === undefined || decimals === undefined) return text;
	return decimals.length === 3 && whole.length <= 3 && !/^0+$/u.test(whole) ? null : text.replace(',', '.');
}

const feetMark = /^(\d+)\.(\d+)\s*(?:['’′]|ft\.?|feet)$/iu;

/** Figures after the dot of a length in feet, where it is one: of `9.1667'`, or of `9.1667` in feet. */
function feetDecimals(text: string, unit: FigureUnit): { whole: string; decimals: string } | null {
	const [, whole, decimals] =
		feetMark.exec(text) ?? (unit === 'ft' ? /^(\d+)\.(\d+)$/u.exec(text) : null) ?? [];
	return whole === undefined || decimals === undefined ? null : { whole, decimals };
}

/** Figures after the dot that no number of inches has prove decimal feet: three or more of them, or more than 11. */
export function provesDecimalFeet(text: string, unit: FigureUnit): boolean {
	const feet = feetDecimals(withDots(text) ?? text, unit);
	return feet !== null && (feet.decimals.length > 2 || Number(feet.decimals) > 11);
}

/** Letters that scanners take for figures, put back; null when there are none. */
function asFigures(text: string): string | null {
	const changed = text
		.replace(/(?<=[\d\s.-]|^)[oO](?=[\d\s"'./-]|$)/gu, '0')
		.replace(/(?<=[\d\s-]|^)[Il|](?=[\d\s"'./-]|$)/gu, '1');
	return changed === text ? null : changed;
}

/** @param text of the cell, on one line, not empty */
export function readLengthCell(text: string, { unit, measures, feet }: LengthManner): LengthCellReading {
	const job = measures === 'imperial' ? 'in' : 'mm';
	const told = text.replace(/\s*\b(?:long|lg|lgth)\.?$/iu, '');
	const [, whole, lost] = /^(\d+) (\d{1,4})(?:\s*(?:["”″]|in\.?))?$/iu.exec(told) ?? [];
	if (whole !== undefined && lost !== undefined && !(lost.length === 3 && unit !== 'in' && unit !== 'ft')) {
		const fraction = fractionOf(lost);
		const meant =
			fraction !== null
				? `${whole} ${fraction}"`
				: lost.length < 3 && Number(lost) < 12
					? `${whole}'-${lost}"`
					: null;
		return refused(
			`“${told}” has lost a mark between ${whole} and ${lost}${meant === null ? '; write the length with it' : `; write ${meant} if that is meant`}`,
			...(meant === null ? [] : [meant])
		);
	}
	const [, top, bottom] = /^(\d{2,})\/(\d{1,2})(?:\s*(?:["”″]|in\.?))?$/iu.exec(told) ?? [];
	if (
		top !== undefined &&
		bottom !== undefined &&
		bottoms.includes(bottom) &&
		Number(top) >= Number(bottom)
	) {
		const readings = [...splits(top, bottom).map((split) => `${split}"`), `${Number(top) / Number(bottom)}"`];
		return refused(
			`“${told}” has lost the space before its fraction, or is a division; write which is meant: ${readings.join(' or ')}`,
			...readings
		);
	}
	const dotted = withDots(told);
	if (dotted === null) {
		const [, thousands = '', rest = ''] = /^(\d+),(\d{3})/u.exec(told) ?? [];
		return refused(
			'the comma may stand for thousands or for decimals; write the length without it',
			told.replace(',', ''),
			`${thousands}.${rest}${told.slice(thousands.length + rest.length + 1)}`
		);
	}
	const inFeet = feetDecimals(dotted, unit);
	if (inFeet) return readFeet(told, inFeet, feet);
	const read = parseLength(withUnit(dotted, unit, measures).written, job);
	if (!read.ok) {
		const figures = asFigures(dotted);
		const again = figures === null ? null : parseLength(withUnit(figures, unit, measures).written, job);
		return figures !== null && again?.ok === true
			? refused(`“${told}” has letters among its figures; write ${figures} if that is meant`, figures)
			: refused(read.reason);
	}
	return inRange(read.nm);
}

function inRange(nm: number): LengthCellReading {
	if (nm < 0) return refused('a length below 0; write 0 or more');
	return nm > longest ? refused('longer than 100 m; write the length that is meant') : { ok: true, nm };
}

/** `9.2` in feet: 9.2 ft, or 9 ft 2 in. Asked while nothing in the list proves either. */
function readFeet(
	text: string,
	{ whole, decimals }: { whole: string; decimals: string },
	manner: FeetManner | null
): LengthCellReading {
	const inches = Number(decimals);
	// Five decimals of a foot are whole nanometres; the sixth is less than a hair.
	const exact = withUnit(
		`${whole}.${decimals.length > 5 ? decimals : decimals.padEnd(1, '0')}`,
		'ft',
		'imperial'
	).written;
	const decimal = parseLength(exact, 'in');
	const mayBeInches = decimals.length <= 2 && inches <= 11;
	if (mayBeInches && inches > 0 && manner === null) {
		const asDecimal = decimal.ok ? `${whole}.${decimals} ft (${formatLength(decimal.nm, 'feetInches')})` : '';
		return refused(
			`“${text}” may be decimal feet, ${asDecimal}, or ${whole}'-${inches}"; nothing else in the column tells; say which the list uses`,
			`${whole}.${decimals} ft`,
			`${whole}'-${inches}"`
		);
	}
	const read = mayBeInches && manner === 'inches' ? parseLength(`${whole}'-${inches}"`, 'in') : decimal;
	return read.ok ? inRange(read.nm) : refused(read.reason);
}
