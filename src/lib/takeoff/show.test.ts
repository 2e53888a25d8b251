import { describe, expect, it } from 'vitest';
import { demoTechnicalBook } from '../shopbook/demo/demo-book.ts';
import { showKey, spaced } from './show.ts';

describe('keys as a person reads them', () => {
	it('sets the fixed words apart', () => {
		expect(['faceOfWall', 'studWithBacking', 'counter-slat'].map(spaced)).toEqual([
			'face of wall',
			'stud with backing',
			'counter-slat'
		]);
	});

	it('gives a barrel that is called by its diameter its unit', () => {
		expect(showKey(demoTechnicalBook, 'barrel', '3.5')).toBe('3.5 in');
		expect(showKey(demoTechnicalBook, 'drive', 'tube-20')).toBe('tube-20');
		expect(showKey(demoTechnicalBook, 'leftFixing', 'studWithBacking')).toBe('stud with backing');
	});
});
