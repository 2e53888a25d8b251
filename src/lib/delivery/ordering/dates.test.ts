/**
 * Days counted by hand with the calendar: 2026-12-01 is a Tuesday, 2024 and 2000 have a 29 February, 1900 and 2026 have
 * none.
 */
import { describe, expect, it } from 'vitest';
import { daysAfter, isDay, needBy, orderBy, workday } from './dates.ts';

describe('days of the calendar', () => {
	it.each([
		['2026-12-01', 1, '2026-12-02'],
		['2026-11-30', 1, '2026-12-01'],
		['2026-12-31', 1, '2027-01-01'],
		['2027-01-01', -1, '2026-12-31'],
		['2024-02-28', 1, '2024-02-29'],
		['2024-03-01', -1, '2024-02-29'],
		['2026-03-01', -1, '2026-02-28'],
		['2000-02-28', 2, '2000-03-01'],
		['1900-02-28', 1, '1900-03-01'],
		// A year is 365 days: 2026 has no leap day, 2028 has one.
		['2026-01-01', 365, '2027-01-01'],
		['2028-01-01', 366, '2029-01-01'],
		// Clocks change in between; days do not.
		['2026-03-07', 2, '2026-03-09'],
		['2026-10-31', 2, '2026-11-02'],
		['2026-12-01', 0, '2026-12-01']
	])('%s and %i days is %s', (day, days, then) => {
		expect(daysAfter(day, days)).toBe(then);
	});

	it.each([
		['2026-12-04', '2026-12-04'], // Friday
		['2026-12-05', '2026-12-04'], // Saturday
		['2026-12-06', '2026-12-04'], // Sunday
		['2026-12-07', '2026-12-07'], // Monday
		['2026-08-01', '2026-07-31'], // Saturday, the first of a month
		['2023-01-01', '2022-12-30'], // Sunday, the first of a year
		['1969-12-28', '1969-12-26'] // Sunday before the count begins
	])('%s is worked on %s', (day, friday) => {
		expect(workday(day)).toBe(friday);
	});

	it('knows what is no day', () => {
		for (const text of [
			'2026-02-29',
			'2026-13-01',
			'2026-00-10',
			'2026-04-31',
			'2026-1-1',
			'1 Dec 2026',
			'',
			'0099-01-01'
		])
			expect(isDay(text), text).toBe(false);
		for (const text of ['2024-02-29', '2026-04-30', '0100-01-01', '9999-12-31'])
			expect(isDay(text), text).toBe(true);
	});

	it('refuses what it cannot count', () => {
		expect(() => daysAfter('2026-02-30', 1)).toThrow('“2026-02-30” is not a day; write it as 2026-12-01');
		expect(() => daysAfter('2026-02-01', 0.5)).toThrow('0.5 is not a whole number of days');
		expect(() => daysAfter('9999-12-31', 1)).toThrow('beyond the calendar');
		expect(() => daysAfter('2026-02-01', 1e15)).toThrow('beyond the calendar');
	});
});

describe('when things are wanted', () => {
	const supplier = { daysBefore: 5, leadDays: 42 };

	it('counts back from the first start', () => {
		// Tuesday 15 December − 5 = Thursday the 10th; − 42 days (six weeks) = Thursday 29 October.
		const wanted = needBy(['2026-12-22', '2026-12-15', '2027-01-04'], supplier);
		expect(wanted).toBe('2026-12-10');
		expect(orderBy(wanted, supplier)).toBe('2026-10-29');
	});

	it('moves back from a weekend, each day of its own', () => {
		// Friday 11 December − 5 = Sunday the 6th: Friday the 4th. − 41 days = Saturday 24 October: Friday the 23rd.
		expect(needBy(['2026-12-11'], supplier)).toBe('2026-12-04');
		expect(orderBy('2026-12-04', { leadDays: 41 })).toBe('2026-10-23');
		// One day less or more is a weekday and stays: 40 days is Sunday the 25th, 42 is Friday the 23rd, 39 Monday the 26th.
		expect(orderBy('2026-12-04', { leadDays: 40 })).toBe('2026-10-23');
		expect(orderBy('2026-12-04', { leadDays: 42 })).toBe('2026-10-23');
		expect(orderBy('2026-12-04', { leadDays: 39 })).toBe('2026-10-26');
	});

	it('crosses the end of February', () => {
		// Monday 4 March 2024 − 5 is Wednesday 28 February; in 2026, Wednesday 4 March − 5 is Friday 27 February.
		expect(needBy(['2024-03-04'], supplier)).toBe('2024-02-28');
		expect(needBy(['2026-03-04'], supplier)).toBe('2026-02-27');
		// Tuesday 5 March 2024 − 5 is the leap day, a Thursday.
		expect(needBy(['2024-03-05'], supplier)).toBe('2024-02-29');
	});

	it('says nothing as long as a start is not known', () => {
		expect(needBy(['2026-12-15', null], supplier)).toBeNull();
		expect(needBy([], supplier)).toBeNull();
		expect(orderBy(null, supplier)).toBeNull();
	});

	it('is the day itself with nothing to count back', () => {
		expect(needBy(['2026-12-15'], { daysBefore: 0 })).toBe('2026-12-15');
		expect(orderBy('2026-12-15', { leadDays: 0 })).toBe('2026-12-15');
	});
});
