/** Days as people write them: `2026-12-01`, `12/01/2026`, `1.12.26`, `1 Dec 2026`, `December 1st, 2026`. */
import { isDay } from '../delivery/ordering/dates.ts';
import type { Day } from '../delivery/ordering/purchase-order.ts';
import { shown } from './sheet.ts';

/** Which comes first where both are figures. */
export type DayOrder = 'dayFirst' | 'monthFirst';

type DayReading = { readonly ok: true; readonly day: Day } | { readonly ok: false; readonly reason: string };

const months = [
	'january',
	'february',
	'march',
	'april',
	'may',
	'june',
	'july',
	'august',
	'september',
	'october',
	'november',
	'december'
];
const weekdays = /^(?:mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun)(?:day|sday|nesday|rsday|urday)?\.?,?\s+/iu;

const two = (figure: number): string => String(figure).padStart(2, '0');
/** Two figures of a year are of this century: promises are. */
const yearOf = (text: string): number => (text.length === 2 ? 2000 + Number(text) : Number(text));
const iso = (year: number, month: number, day: number): Day =>
	`${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;

/** From 1; 0 for a word that is no month. Three letters are enough. */
const monthOf = (word: string): number =>
	word.length < 3
		? 0
		: months.findIndex((month) => month.startsWith(word.toLowerCase().replace(/\.$/u, ''))) + 1;

const figures = /^(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})$/u;

/** The two figures of a day whose order is not said. */
function figuresOf(text: string): { first: number; second: number; year: number } | null {
	const [, first, , second, year] = figures.exec(text) ?? [];
	return first === undefined || second === undefined || year === undefined
		? null
		: { first: Number(first), second: Number(second), year: yearOf(year) };
}

/** The one order in which all of some days can be read; null where they say nothing, or contradict each other. */
export function dayOrderOf(texts: readonly string[]): DayOrder | null {
	const said = new Set<DayOrder>();
	for (const text of texts) {
		const found = figuresOf(text.trim());
		if (!found || found.first > 31 || found.second > 31) continue;
		if (found.first > 12 && found.second <= 12) said.add('dayFirst');
		if (found.second > 12 && found.first <= 12) said.add('monthFirst');
	}
	const [only, other] = said;
	return only !== undefined && other === undefined ? only : null;
}

/** In words, so that nobody can mistake it: `4 March 2026`. */
function inWords(day: Day): string {
	const [year = '', month = '', date = ''] = day.split('-');
	const name = months[Number(month) - 1] ?? '';
	return `${Number(date)} ${name.charAt(0).toUpperCase()}${name.slice(1)} ${Number(year)}`;
}

function ofFigures(text: string, order: DayOrder | null): DayReading | null {
	const found = figuresOf(text);
	if (!found) return null;
	const { first, second, year } = found;
	const dayFirst = iso(year, second, first);
	const monthFirst = iso(year, first, second);
	const [a, b] = [isDay(dayFirst), isDay(monthFirst)];
	if (a && b && dayFirst !== monthFirst && order === null)
		return {
			ok: false,
			reason: `“${text}” could be ${inWords(dayFirst)} or ${inWords(monthFirst)}; write it as ${dayFirst} or ${monthFirst}`
		};
	if (a && (order === 'dayFirst' || !b)) return { ok: true, day: dayFirst };
	return b ? { ok: true, day: monthFirst } : null;
}

/** `1 Dec 2026`, `1-Dec-26`, `Dec 1, 2026`: day, month and year. */
function ofWords(text: string): Day | null {
	const before = /^(\d{1,2})(?:st|nd|rd|th)?[\s-]+(?:of\s+)?(\p{L}+)\.?,?[\s-]+(\d{4}|\d{2})$/iu.exec(text);
	const after = /^(\p{L}+)\.?[\s-]+(\d{1,2})(?:st|nd|rd|th)?,?[\s-]+(\d{4}|\d{2})$/iu.exec(text);
	const [date = '', word = '', year = ''] = before?.slice(1) ?? [
		after?.[2] ?? '',
		after?.[1] ?? '',
		after?.[3] ?? ''
	];
	return iso(yearOf(year), monthOf(word), Number(date));
}

/**
 * Reads one day. What can be read two ways is not read, and the reason says both.
 *
 * @param order where something else says which figure comes first
 */
export function readDay(written: string, order: DayOrder | null): DayReading {
	// A spreadsheet or another program adds the hour.
	const text = written
		.trim()
		.replace(weekdays, '')
		.replace(/(?<=\d)[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:?\d{2})?$/u, '');
	const [, year = '', month = '', day = ''] =
		/^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/u.exec(text) ?? /^(\d{4})(\d{2})(\d{2})$/u.exec(text) ?? [];
	const sure = year === '' ? ofWords(text) : iso(Number(year), Number(month), Number(day));
	if (sure !== null && isDay(sure)) return { ok: true, day: sure };
	return (
		ofFigures(text, order) ?? {
			ok: false,
			reason: `“${shown(written)}” is not a day of the calendar; write it as 2026-12-01`
		}
	);
}
