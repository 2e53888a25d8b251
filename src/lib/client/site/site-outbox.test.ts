import { describe, expect, it } from 'vitest';
import type { Kept } from './kept-on-phone.ts';
import { momentAfter } from './phone-moment.ts';
import { shrunkSize } from './shrink-photo.ts';
import { nextToSend } from './site-outbox.svelte.ts';
import { officeWords } from './site-words.ts';

const of = (number: number, job = 'pier', refused: string | null = null) => ({
	number,
	person: 'wren',
	job,
	refused,
	deliveryId: 'truck'
});
const count = (number: number, job?: string, refused?: string | null): Kept => ({
	...of(number, job, refused),
	kind: 'count',
	count: {
		countId: `count-${number}`,
		deliveryId: 'truck',
		line: number,
		crate: null,
		description: '',
		amounts: { whole: '1', damaged: '0', wrong: '0' },
		note: '',
		photoIds: [],
		countedAt: '2026-12-01T09:00:00.000Z'
	}
});
const photo = (number: number): Kept => ({
	...of(number),
	kind: 'photo',
	picture: { photoId: `photo-${number}`, bytes: new ArrayBuffer(1), type: 'image/jpeg' }
});
const finish = (number: number): Kept => ({
	...of(number),
	kind: 'finish',
	finished: true,
	at: '2026-12-01T10:00:00.000Z'
});

const next = (waiting: readonly Kept[], together = 100): number[] =>
	nextToSend(waiting, together).map(({ number }) => number);

describe('what goes to the office next', () => {
	it('is counts before photos, and those of one job at once', () => {
		expect(next([count(1), photo(2), count(3), count(4, 'ferry'), count(5)])).toEqual([1, 3]);
		expect(next([photo(2), photo(3)])).toEqual([2]);
		expect(next([])).toEqual([]);
	});

	it('is never “counted” before the counts it speaks of', () => {
		expect(next([count(1), finish(2), count(3)])).toEqual([1]);
		expect(next([finish(2), count(3)])).toEqual([2]);
	});

	it('is one by one after a refusal, without what was refused', () => {
		expect(next([count(1, 'pier', 'no such line'), count(2), count(3)], 1)).toEqual([2]);
		expect(next([count(1, 'pier', 'no such line')])).toEqual([]);
	});
});

it('says what is on the phone only', () => {
	expect(officeWords([], 'noConnection')).toBe('Everything is in the office.');
	expect(officeWords([count(1), count(2), photo(3)], 'noConnection')).toBe(
		'2 counts and 1 photo are on this phone only; they go to the office when there is signal.'
	);
	expect(officeWords([photo(3)], 'signedOut')).toBe(
		'1 photo is on this phone only; sign in again, then it goes to the office.'
	);
});

it('makes photos at most 2000 pixels long, and no larger than they are', () => {
	expect(shrunkSize(8000, 6000)).toEqual({ width: 2000, height: 1500 });
	expect(shrunkSize(3000, 4000)).toEqual({ width: 1500, height: 2000 });
	expect(shrunkSize(640, 480)).toEqual({ width: 640, height: 480 });
	expect(shrunkSize(100_000, 3)).toEqual({ width: 2000, height: 1 });
});

it('counts later than the count whose place it takes, whatever the other clock said', () => {
	expect(momentAfter('2099-01-01T00:00:00.000Z')).toBe('2099-01-01T00:00:00.001Z');
	expect(Date.parse(momentAfter('2020-01-01T00:00:00.000Z'))).toBeGreaterThan(Date.parse('2025-01-01'));
});
