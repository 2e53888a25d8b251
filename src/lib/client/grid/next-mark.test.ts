import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nextMark } from './next-mark.ts';

const next = (mark: string, ...taken: string[]): string => nextMark(mark, new Set(taken));

describe('the next free mark', () => {
	it('counts on the number at the end', () => {
		expect(next('C-101')).toBe('C-102');
		expect(next('C-101', 'c-102', 'c-103')).toBe('C-104');
		expect(next('Stall 9')).toBe('Stall 10');
		expect(next('G-009')).toBe('G-010');
		expect(next('G-099')).toBe('G-100');
		expect(next('7')).toBe('8');
	});

	it('counts on the letter behind a number', () => {
		expect(next('C-101A')).toBe('C-101B');
		expect(next('c-101a', 'c-101b')).toBe('c-101c');
		expect(next('C-101Z')).toBe('C-101AA');
		expect(next('Type-A', 'type-b')).toBe('Type-C');
	});

	it('puts a number behind a name', () => {
		expect(next('W')).toBe('W-2');
		expect(next('W', 'w-2')).toBe('W-3');
		expect(next('West')).toBe('West-2');
		expect(next('West-2', 'west')).toBe('West-3');
		expect(next('C-101 (old)')).toBe('C-101 (old)-2');
	});

	it('stays within the 40 characters of a mark, and leaves a blank mark blank', () => {
		expect(next('W'.repeat(40))).toBe(`${'W'.repeat(38)}-2`);
		expect(next(`${'W'.repeat(38)}99`)).toBe(`${'W'.repeat(37)}100`);
		expect(next('9'.repeat(40))).toHaveLength(40);
		expect(next('😀'.repeat(20)).isWellFormed()).toBe(true);
		// 40 characters of code; the sign that begins at the 38th goes as a whole.
		expect(next(`${'W'.repeat(37)}😀W`)).toBe(`${'W'.repeat(37)}-2`);
		expect(next('  ')).toBe('');
	});

	it('is never one that is taken, nor the same twice', () => {
		const mark = fc
			.oneof(
				fc.stringMatching(/^[A-Ca-c]{0,2}-?[0-9]{0,2}[A-Ca-cZ]?$/u),
				fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 })
			)
			.filter((text) => text.trim() !== '' && text.length <= 40);
		fc.assert(
			fc.property(fc.array(mark, { minLength: 1, maxLength: 20 }), (marks) => {
				const taken = new Set(marks.map((each) => each.toLowerCase()));
				let last = marks.at(-1) ?? '';
				for (let i = 0; i < 10; i++) {
					last = nextMark(last, taken);
					expect(taken).not.toContain(last.toLowerCase());
					expect(last.length).toBeLessThanOrEqual(40);
					taken.add(last.toLowerCase());
				}
			}),
			{ numRuns: 2000 }
		);
	});
});
