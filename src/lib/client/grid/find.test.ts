import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matches, replaced } from './find.ts';
import type { Search } from './grid-hooks.ts';

const search = (text: string, more?: Partial<Search>): Search => ({
	text,
	wholeCell: false,
	matchCase: false,
	inSelection: false,
	...more
});

describe('finding text in cells', () => {
	it('finds it anywhere, in any case', () => {
		expect(matches('Ticket HALL', search('hall'))).toBe(true);
		expect(matches('Ticket HALL', search('hall', { matchCase: true }))).toBe(false);
		expect(matches('TÜR 1', search('tür'))).toBe(true);
		expect(matches('two\nlines', search('o\nl'))).toBe(true);
	});

	it('finds whole cells only where that is asked for', () => {
		expect(matches('Hall 1', search('hall', { wholeCell: true }))).toBe(false);
		expect(matches('Hall', search('hall', { wholeCell: true }))).toBe(true);
		expect(matches('Hall\n', search('hall', { wholeCell: true }))).toBe(false);
	});

	it('takes every sign for itself, and nothing for no match', () => {
		expect(matches('a.c', search('.'))).toBe(true);
		expect(matches('abc', search('.'))).toBe(false);
		expect(matches('abc', search(''))).toBe(false);
		expect(matches('1/2" (max) [x] {y} ^$|*+?\\-', search('(max) [x] {y} ^$|*+?\\-'))).toBe(true);
	});
});

describe('replacing text in cells', () => {
	it('replaces every place', () => {
		expect(replaced('C-101, c-102', search('c-'), 'K-')).toBe('K-101, K-102');
		expect(replaced('C-101, c-102', search('c-', { matchCase: true }), 'K-')).toBe('C-101, K-102');
		expect(replaced('Hall', search('hall', { wholeCell: true }), '')).toBe('');
		expect(replaced('Hall 1', search('hall', { wholeCell: true }), '')).toBe('Hall 1');
		expect(replaced('abc', search(''), 'x')).toBe('abc');
	});

	it('takes what it is replaced by as it is', () => {
		expect(replaced('a', search('a'), '$&$1$$')).toBe('$&$1$$');
	});

	it('does what taking the text apart and joining it again does', () => {
		const text = fc.string({
			unit: fc.constantFrom('a', 'b', '.', '$', '(', '\\', '/', '-', 'ü'),
			maxLength: 12
		});
		fc.assert(
			fc.property(text, text, text, (cell, sought, by) => {
				const found = search(sought, { matchCase: true });
				expect(replaced(cell, found, by)).toBe(sought === '' ? cell : cell.split(sought).join(by));
				expect(matches(cell, found)).toBe(sought !== '' && cell.includes(sought));
			})
		);
	});
});
