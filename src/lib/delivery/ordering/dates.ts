/** Days of the calendar as ISO 8601 texts. A day has no hour and no time zone here: it is counted, never shifted. */
import type { Day, Supplier } from './purchase-order.ts';

const msPerDay = 86_400_000;
const pattern = /^(\d{4})-(\d{2})-(\d{2})$/u;

/** Days since 1970-01-01, or null where the text is no day of the calendar. */
function numberOf(day: Day): number | null {
	const [, year, month, date] = pattern.exec(day) ?? [];
	if (year === undefined || month === undefined || date === undefined) return null;
	// `Date.UTC` takes a year below 100 for one of the nineteen hundreds.
	if (Number(year) < 100) return null;
	const ms = Date.UTC(Number(year), Number(month) - 1, Number(date));
	return new Date(ms).toISOString().slice(0, 10) === day ? ms / msPerDay : null;
}

/** Whether the text is a day of the calendar, `2026-12-01`, of the years 100 to 9999: `2026-02-29` is none. */
export const isDay = (text: string): boolean => numberOf(text) !== null;

function countOf(day: Day): number {
	const count = numberOf(day);
	if (count === null) throw new RangeError(`“${day}” is not a day; write it as 2026-12-01`);
	return count;
}

/**
 * The day so many days of the calendar later; earlier where the number is below 0.
 * @param days whole
 * @throws RangeError when `day` is no day, `days` is not whole, or the result is beyond the years 100 to 9999
 */
export function daysAfter(day: Day, days: number): Day {
	if (!Number.isSafeInteger(days)) throw new RangeError(`${days} is not a whole number of days`);
	const moved = new Date((countOf(day) + days) * msPerDay);
	const text = Number.isNaN(moved.getTime()) ? '' : moved.toISOString().slice(0, 10);
	if (!isDay(text)) throw new RangeError(`${days} days after ${day} is beyond the calendar`);
	return text;
}

/** The day itself from Monday to Friday; the Friday before where it is a Saturday or a Sunday. @throws RangeError as above */
export function workday(day: Day): Day {
	// 1970-01-01 was a Thursday: Saturdays leave 2, Sundays leave 3.
	const rest = (((countOf(day) % 7) + 7) % 7) - 2;
	return rest === 0 || rest === 1 ? daysAfter(day, -1 - rest) : day;
}

/**
 * When things for some openings are wanted on site: so many days before the first of them starts, on a weekday.
 * Null as long as one of them has no start, or there is none.
 *
 * @throws RangeError when a start is no day
 */
export function needBy(
	starts: readonly (Day | null)[],
	{ daysBefore }: Pick<Supplier, 'daysBefore'>
): Day | null {
	const known = starts.filter((day) => day !== null);
	const [first] = known.toSorted();
	if (first === undefined || known.length < starts.length) return null;
	return workday(daysAfter(first, -daysBefore));
}

/** When the order has to be sent for that, on a weekday; null as long as that is not known. @throws RangeError as above */
export const orderBy = (wanted: Day | null, { leadDays }: Pick<Supplier, 'leadDays'>): Day | null =>
	wanted === null ? null : workday(daysAfter(wanted, -leadDays));
