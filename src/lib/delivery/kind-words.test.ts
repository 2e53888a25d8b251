import { describe, expect, it } from 'vitest';
import type { PartKind } from '../takeoff/result.ts';
import { readWords } from './kind-words.ts';

/** Words as packing lists have them and what the trade means by them. Common practice, no source. */
const readings: readonly (readonly [words: string, kinds: readonly PartKind[]])[] = [
	['curtain', ['curtain']],
	['Grille curtain', ['curtain']],
	['HEAVY GRILLE CURTAINS', ['curtain']],
	['Curtain, heavy grille, steel rods', ['curtain']],
	['bottom bar', ['bottomBar']],
	['Btm. bar', ['bottomBar']],
	['barrel', ['barrel']],
	['Pipe', ['barrel']],
	['Shaft', ['barrel']],
	['Barrel 3.5 in pipe', ['barrel']],
	['brackets', ['bracket']],
	['Brkts.', ['bracket']],
	['Guides, LH', ['guide']],
	['guide, right', ['guide']],
	['Hood', ['hoodPiece']],
	['hood sections', ['hoodPiece']],
	['Hood: Hood piece', ['hoodPiece']],
	['Support', ['hoodSupport']],
	['hood supports', ['hoodSupport']],
	['End caps', ['endCap']],
	['ENDCAP', ['endCap']],
	['End cap: Hood end caps', ['endCap']],
	['Tube motor 165 lb-ft', ['drive']],
	['Tubular motor', ['drive']],
	['Motor', ['drive', 'operator']],
	['Operator', ['operator', 'drive']],
	['Hand chain', ['operator']],
	['Anchors', ['anchor']],
	['wedge anchors 3/8 x 3 3/4', ['anchor']],
	['Anchors for guides', ['anchor']],
	['Guide anchors', ['anchor']],
	['Bracket with anchors', ['bracket']],
	['Lag bolts', ['anchor']],
	['Key switch', ['control']],
	['keyswitch', ['control']],
	['Push-button station', ['control']],
	['Sealant, tubes', ['consumable']],
	['Caulking', ['consumable']],
	['Slats', ['consumable']],
	['Toolbox talk', []],
	['', []]
];

describe('trade words', () => {
	it.each(readings)('%s', (words, kinds) => {
		const { kinds: read, mixed } = readWords(words);
		expect({ kinds: read, mixed }).toEqual({ kinds, mixed: false });
	});

	it('says when two words can’t mean one part', () => {
		expect(readWords('Hood and end caps').mixed).toBe(true);
		expect(readWords('guide & bracket').mixed).toBe(true);
		expect(readWords('Support bracket').mixed).toBe(true);
		expect(readWords('Motor with limit switch').mixed).toBe(false);
	});

	it.each([
		['Guide LH', 'left'],
		['guides, L.H.', 'left'],
		['Guide L/H', 'left'],
		['guide left-hand', 'left'],
		['Left guide', 'left'],
		['Guide (L)', 'left'],
		['GUIDE RH', 'right'],
		['guide R.H.', 'right'],
		['guide, right', 'right'],
		['Guides LH & RH', null],
		['Guides', null],
		['Right angle bracket', null],
		['length', null]
	])('hand of %s', (words, hand) => {
		expect(readWords(words).hand).toBe(hand);
	});

	it('tells parts of one kind apart', () => {
		expect(readWords('Key operated switch').names).toEqual(['key switch']);
		expect(readWords('lag bolts').names).toEqual(readWords('Lag screw').names);
		expect(readWords('anchors').names).toEqual([]);
	});

	it.each([
		['Bracket 16', ['16']],
		['16" bracket', ['16']],
		['2 brackets', []],
		['Bracket 2 of 4', []],
		['Wedge anchor 3/8" x 3 3/4"', ['3/8', '3/8', '3 3/4']],
		['Tube motor 165 lb-ft', ['165']],
		['Motor 120 V', []]
	])('sizes in %s', (words, sizes) => {
		expect(readWords(words).sizes).toEqual(sizes);
	});
});
