/** What notes around a table say of all its figures, and figures that take a unit from there. */
import { Decimal } from 'decimal.js';
import type { Measures } from '../takeoff/inputs.ts';

/** Unit of figures written without one. */
export type FigureUnit = 'in' | 'ft' | 'mm' | 'cm' | 'm';

/** The same with their names, to choose from. */
export const figureUnits: readonly { readonly value: FigureUnit; readonly title: string }[] = [
	{ value: 'in', title: 'inches' },
	{ value: 'ft', title: 'feet' },
	{ value: 'mm', title: 'millimetres' },
	{ value: 'cm', title: 'centimetres' },
	{ value: 'm', title: 'metres' }
];

export const isFigureUnit = (text: string | null | undefined): text is FigureUnit =>
	figureUnits.some(({ value }) => value === text);

export const titleOfUnit = (unit: FigureUnit): string =>
	figureUnits.find(({ value }) => value === unit)?.title ?? unit;

/** Letters of a note that are looked at. */
const longest = 2000;

const speaksOfSizes =
	/\b(?:dim(?:ension)?s?|dimns?|sizes?|lengths?|widths?|heights?|measure(?:ment)?s?|figures|units?)\b|\b(?:below|following|from here|hereafter)\b.*\bin\b/iu;

const unitWords: readonly (readonly [RegExp, FigureUnit])[] = [
	[/\b(?:feet|ft)\b\.?\s*(?:and|&|\+|-|–|\/)?\s*\b(?:inches|inch|in)\b/iu, 'in'],
	[/\bmm\b|\bmillimet(?:re|er)s?\b/iu, 'mm'],
	[/\bcm\b|\bcentimet(?:re|er)s?\b/iu, 'cm'],
	[/\binch(?:es)?\b/iu, 'in'],
	[/\bmet(?:re|er)s?\b/iu, 'm'],
	[/\bfeet\b|\bft\b/iu, 'ft']
];

/** `All dimensions in mm`, `Lengths in feet and inches` (a bare figure is then inches); null for any other text. */
export function unitInNote(text: string): FigureUnit | null {
	const read = text.slice(0, longest);
	if (!speaksOfSizes.test(read)) return null;
	return unitWords.find(([pattern]) => pattern.test(read))?.[1] ?? null;
}

/** `Left and right seen from the coil side`; null for any other text. */
export function viewpointInNote(text: string): 'coilSide' | 'farSide' | null {
	if (!/\b(?:left|right|hands?|handing|l\/r)\b/iu.test(text)) return null;
	if (/\b(?:far side|opposite (?:the )?(?:coil|side)|away from the coil)\b/iu.test(text)) return 'farSide';
	return /\bcoil side\b/iu.test(text) ? 'coilSide' : null;
}

/** A figure alone: `120`, `48.25`, `150 1/2`, `6½`. */
const bare = /^[+-]?\d+(?:[.,]\d+)?(?:[ -]\d+\/\d+|\s?[½⅓⅔¼¾⅕-⅞])?$|^\d+\/\d+$/u;

/**
 * A length as it has to be written to mean what it means in the file: a bare figure gets its unit where that is not the
 * job's. A computed figure with more than five decimals is rounded to five (at most 0.00001 of its unit off), since
 * finer ones are no whole nanometres; the note says so.
 */
export function withUnit(
	text: string,
	unit: FigureUnit,
	measures: Measures
): { written: string; note: string | null } {
	if (!bare.test(text)) return { written: text, note: null };
	const fine = /^([+-]?\d+)\.(\d{6,})$/u.test(text);
	const rounded = fine ? new Decimal(text).toDecimalPlaces(5).toFixed() : text;
	const written = unit === (measures === 'imperial' ? 'in' : 'mm') ? rounded : `${rounded} ${unit}`;
	return { written, note: fine ? `${text} rounded to ${rounded}` : null };
}
