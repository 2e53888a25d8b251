import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matcherOf, type Matcher } from './find.ts';
import type { Search } from './grid-hooks.ts';

const search = (text: string, more?: Partial<Search>): Matcher =>
	matcherOf({ text, wholeCell: false, matchCase: false, ...more });

describe('finding text in cells', () => {
	it('finds it anywhere, in any case', () => {
		expect(search('hall').matches('Ticket HALL')).toBe(true);
		expect(search('hall', { matchCase: true }).matches('Ticket HALL')).toBe(false);
		expect(search('tür').matches('TÜR 1')).toBe(true);
		expect(search('o\nl').matches('two\nlines')).toBe(true);
	});

	it('finds whole cells only where that is asked for', () => {
		expect(search('hall', { wholeCell: true }).matches('Hall 1')).toBe(false);
		expect(search('hall', { wholeCell: true }).matches('Hall')).toBe(true);
		expect(search('hall', { wholeCell: true }).matches('Hall\n')).toBe(false);
	});

	it('finds a text in one cell as in the next: a matcher keeps nothing from cell to cell', () => {
		const hall = search('hall');
		const cells = ['Ticket hall', 'hall', 'halls and hall', 'Ticket hall'];
		expect(cells.map((cell) => hall.matches(cell))).toEqual([true, true, true, true]);
		expect(hall.replaced('hall hall', 'x')).toBe('x x');
		expect(hall.matches('hall')).toBe(true);
	});

	it('takes every sign for itself, and nothing for no match', () => {
		expect(search('.').matches('a.c')).toBe(true);
		expect(search('.').matches('abc')).toBe(false);
		expect(search('').matches('abc')).toBe(false);
		expect(search('(max) [x] {y} ^$|*+?\\-').matches('1/2" (max) [x] {y} ^$|*+?\\-')).toBe(true);
	});
});

describe('replacing text in cells', () => {
	it('replaces every place', () => {
		expect(search('c-').replaced('C-101, c-102', 'K-')).toBe('K-101, K-102');
		expect(search('c-', { matchCase: true }).replaced('C-101, c-102', 'K-')).toBe('C-101, K-102');
		expect(search('hall', { wholeCell: true }).replaced('Hall', '')).toBe('');
		expect(search('hall', { wholeCell: true }).replaced('Hall 1', '')).toBe('Hall 1');
		expect(search('').replaced('abc', 'x')).toBe('abc');
	});

	it('takes what it is replaced by as it is', () => {
		expect(search('a').replaced('a', '$&$1$$')).toBe('$&$1$$');
	});

	it('does what taking the text apart and joining it again does', () => {
		const text = fc.string({
			unit: fc.constantFrom('a', 'b', '.', '$', '(', '\\', '/', '-', 'ü'),
			maxLength: 12
		});
		fc.assert(
			fc.property(text, text, text, (cell, sought, by) => {
				const found = search(sought, { matchCase: true });
				expect(found.replaced(cell, by)).toBe(sought === '' ? cell : cell.split(sought).join(by));
				expect(found.matches(cell)).toBe(sought !== '' && cell.includes(sought));
			})
		);
	});
});
