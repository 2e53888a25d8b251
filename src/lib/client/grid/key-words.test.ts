import { describe, expect, it } from 'vitest';
import { demoTechnicalBook } from '../../shopbook/demo/demo-book.ts';
import { inputOf } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import { keyOptions, matching } from './key-words.ts';

const optionsOf = (id: 'curtain' | 'leftSubstrate') =>
	keyOptions(demoTechnicalBook, inputOf(id), keysFor(demoTechnicalBook, inputOf(id)));

describe('keys as a person types them', () => {
	it('finds by the beginning first, then by a word, then anywhere', () => {
		expect(matching(optionsOf('curtain'), 'co').map(({ key }) => key)).toEqual(['counter-slat']);
		expect(matching(optionsOf('curtain'), 'slat').map(({ key }) => key)).toEqual([
			'counter-slat',
			'service-slat'
		]);
		expect(matching(optionsOf('leftSubstrate'), 'block').map(({ word }) => word)).toEqual([
			'grouted block',
			'hollow block'
		]);
		expect(matching(optionsOf('leftSubstrate'), 'Grouted Block').map(({ key }) => key)).toEqual([
			'groutedBlock'
		]);
		expect(matching(optionsOf('curtain'), 'plywood')).toEqual([]);
		expect(matching(optionsOf('curtain'), ' ')).toHaveLength(demoTechnicalBook.curtains.length);
	});
});
