import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SiteCount } from '../count.ts';
import type { PackingLine } from '../line.ts';
import { againstList, amountsWords, readAmounts } from './count-amounts.ts';
import { countedThings, keyOfLine, uncountedLines } from './counted-lines.ts';
import { damageNotes, tellBy } from './damage-notes.ts';
import { concealedWords, damageRemarks } from './damage-words.ts';
import { truckCrates } from './truck-crates.ts';

/** Invented. */
const line = (number: number, more: Partial<PackingLine> = {}): PackingLine => ({
	line: number,
	orderLine: null,
	partId: null,
	mark: 'C-101',
	description: 'Guide, left',
	quantity: 4,
	ordered: null,
	backordered: null,
	unit: 'EA',
	length: null,
	width: null,
	size: null,
	hand: null,
	finish: null,
	crate: null,
	remark: null,
	...more
});

let made = 0;
const count = (of: number | null, whole: string, more: Partial<SiteCount> = {}): SiteCount => ({
	countId: `count-${String(++made).padStart(4, '0')}`,
	deliveryId: 'truck',
	line: of,
	crate: null,
	description: '',
	amounts: { whole, damaged: '0', wrong: '0' },
	note: '',
	photoIds: [],
	by: 'Wren',
	countedAt: '2026-12-01T09:00:00.000Z',
	...more
});

const typed = (whole: string, damaged = '0', wrong = '0') => ({ whole, damaged, wrong });

describe('what is typed of a line', () => {
	it('is kept exactly, without needless zeros', () => {
		expect(readAmounts(typed(' 03 ', '1'), 'EA')).toEqual({ ok: true, amounts: typed('3', '1') });
		expect(readAmounts(typed('12.500'), 'ft')).toEqual({ ok: true, amounts: typed('12.5') });
		expect(readAmounts(typed('2,5'), 'lf')).toEqual({ ok: true, amounts: typed('2.5') });
		// Half a pair is one bracket.
		expect(readAmounts(typed('0.5'), 'PR')).toEqual({ ok: true, amounts: typed('0.5') });
	});

	it.each([
		['-1', 'EA', 'whole', 'a count is 0 or more'],
		['−2', 'EA', 'whole', 'a count is 0 or more'],
		['', 'EA', 'whole', '0 where none are'],
		['2.5', 'EA', 'whole', 'whole pieces'],
		['2.5', 'pcs.', 'whole', 'whole pieces'],
		['0.5', null, 'whole', 'whole pieces'],
		['1,000', 'EA', 'whole', 'may mean 1000 or 1.000'],
		['100001', 'EA', 'whole', 'more than any truck'],
		['999999999999', 'ft', 'whole', 'more than any truck'],
		['3e2', 'EA', 'whole', 'not a number'],
		['Infinity', 'EA', 'whole', 'not a number'],
		['0x10', 'EA', 'whole', 'not a number'],
		['three', 'EA', 'whole', 'not a number'],
		['1.2345', 'ft', 'whole', 'three decimals']
	])('%j of %j is refused with words', (text, unit, condition, words) => {
		const read = readAmounts(typed(text), unit);
		expect(read).toMatchObject({ ok: false, condition });
		expect(read.ok ? '' : read.reason).toContain(words);
	});

	it('reads what it gave to the same again, and never to NaN or below 0', () => {
		fc.assert(
			fc.property(fc.string({ maxLength: 12 }), fc.constantFrom('EA', 'ft', null), (text, unit) => {
				const read = readAmounts(typed(text), unit);
				if (!read.ok) return;
				expect(readAmounts(read.amounts, unit)).toEqual(read);
				expect(Number(read.amounts.whole)).toBeGreaterThanOrEqual(0);
			})
		);
	});

	it('is held against the list', () => {
		expect(againstList(typed('3', '1'), 4)).toBeNull();
		expect(againstList(typed('3'), 4)).toBe('1 short');
		expect(againstList(typed('3', '2', '1'), 4)).toBe('2 more than listed');
		expect(againstList(typed('3'), null)).toBeNull();
		// 0.1 + 0.2 is 0.3, as on paper.
		expect(againstList(typed('0.1', '0.2'), 0.3)).toBeNull();
		expect(amountsWords(typed('0'))).toBe('none');
		expect(amountsWords(typed('3', '1', '2'))).toBe('3 whole, 1 damaged, 2 wrong');
	});
});

describe('counts of one truck', () => {
	it('has the latest by the phone’s clock stand, whatever arrived first', () => {
		const counts = [
			count(1, '4', { countedAt: '2026-12-01T10:00:00.000Z' }),
			count(1, '3', { countedAt: '2026-12-01T11:00:00.000Z' }),
			count(1, '2', { countedAt: '2026-12-01T09:00:00.000Z' })
		];
		for (const some of [counts, counts.toReversed()]) {
			const thing = countedThings(some).get(keyOfLine(1));
			expect(thing?.latest.amounts.whole).toBe('3');
			expect(thing?.earlier.map(({ amounts }) => amounts.whole)).toEqual(['4', '2']);
		}
	});

	it('takes a count that is named twice once', () => {
		const one = count(1, '4');
		expect(countedThings([one, one]).get(keyOfLine(1))?.earlier).toEqual([]);
	});

	it('goes by crate, 2 before 10, what is in none last', () => {
		const lines = [
			line(1, { crate: '10' }),
			line(2),
			line(3, { crate: '2' }),
			line(4, { crate: '2', quantity: 0 })
		];
		const found = count(null, '1', { crate: '2', description: 'Chain hoist' });
		const crates = truckCrates(lines, [count(3, '4'), found]);
		expect(crates.map(({ name }) => name)).toEqual(['2', '10', null]);
		expect(crates[0]).toMatchObject({ toCount: 1, counted: 1 });
		expect(crates[0]?.found.map(({ latest }) => latest.description)).toEqual(['Chain hoist']);
		expect(uncountedLines(lines, countedThings([count(3, '4')])).map((one) => one.line)).toEqual([1, 2]);
	});
});

describe('damage notes', () => {
	it('name what came damaged, wrong, short, too many or on no line, and nothing else', () => {
		const lines = [1, 2, 3, 4, 5, 6].map((number) => line(number));
		const { notes, uncounted, agreeing } = damageNotes(lines, [
			count(1, '4'),
			count(2, '3', { amounts: typed('3', '1') }),
			count(3, '3'),
			count(4, '4', { amounts: typed('4', '0', '2') }),
			count(5, '3', { countedAt: '2026-12-01T09:00:00.000Z' }),
			// Found behind the others, an hour later: nothing is short any more.
			count(5, '4', { countedAt: '2026-12-01T10:00:00.000Z' }),
			count(null, '1', { description: 'Chain hoist' })
		]);
		expect(notes.map((note) => [note.line?.line ?? null, note.findings])).toEqual([
			[2, ['1 damaged']],
			[3, ['1 short']],
			[4, ['2 wrong', '2 more than listed']],
			[null, ['on no line of the list']]
		]);
		expect([uncounted, agreeing]).toEqual([1, 2]);
		expect(damageRemarks({ notes, uncounted, agreeing }, false).join(' ')).toMatch(
			/2 lines .* as listed.*1 line is not counted.*still open/u
		);
	});

	it('says the last day by the calendar', () => {
		// By hand: 28 December and five days are 2 January.
		expect(tellBy('2026-12-28', null)).toEqual({ days: 5, basis: 'usual', lastDay: '2027-01-02' });
		// 2028 has a 29 February.
		expect(tellBy('2028-02-27', 3)).toEqual({ days: 3, basis: 'writtenDown', lastDay: '2028-03-01' });
		expect(concealedWords(tellBy('2026-12-28', null))).toContain('2027-01-02');
		expect(concealedWords(null)).toContain('carrier’s terms');
	});
});
