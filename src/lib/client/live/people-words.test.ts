import { describe, expect, it } from 'vitest';
import type { PersonThere } from '../../changes/live.ts';
import { hereWords, initialsOf } from './people-words.ts';

const there = (name: string, editing = false): PersonThere => ({
	tabId: name,
	personId: name.toLowerCase(),
	name,
	place: 'openings',
	row: 'c1',
	field: 'location',
	editing
});

describe('people in words', () => {
	it.each([
		['Ada Lisle', 'AL'],
		['Ben', 'B'],
		['Ånna van der Ørn', 'ÅØ'],
		['  maria  k. ', 'MK'],
		['𝒜da', '𝒜'],
		['7', '?'],
		['', '?']
	])('%s has the initials %s', (name, initials) => {
		expect(initialsOf(name)).toBe(initials);
	});

	it('are said to be at a cell, or typing in it', () => {
		expect(hereWords([there('Ada Lisle')], 'me')).toBe('Ada Lisle is here');
		expect(hereWords([there('Ada Lisle', true), there('Ben Vance')], 'me')).toBe(
			'Ada Lisle is typing here, Ben Vance is here'
		);
		expect(hereWords([there('Ada'), there('Ben'), there('Cleo')], 'me')).toBe('Ada, Ben and Cleo are here');
		expect(hereWords([there('Me')], 'me')).toBe('You, on another page are here');
		expect(hereWords([], 'me')).toBe('');
	});
});
