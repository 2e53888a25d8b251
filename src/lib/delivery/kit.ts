/** Kits: a carton of small parts under one line. */
import type { PartKind } from '../takeoff/result.ts';
import type { Lot, LotsByKind } from './wanted.ts';

/** Common practice, no source. Phrases as `wordsOf` gives them. */
const words = ['hardware', 'kit', 'fitting', 'fastener', 'accessory', 'accessorie', 'sundry', 'sundrie'];

/** What follows is what it is for, or comes with it. */
const turn = /(?<= )(?:for|with|incl|including|suit)(?= )/u;

/** The word that says that a line is a kit; null when it is none. */
export const kitWords = (phrase: string): string | null =>
	words.find((word) => (phrase.split(turn)[0] ?? '').includes(` ${word} `)) ?? null;

/** What comes in kits. Common practice, no source. */
const kinds: readonly PartKind[] = ['hoodSupport', 'endCap', 'control', 'anchor', 'consumable'];

export const mayBeInKit = (lots: LotsByKind): readonly Lot[] =>
	kinds.flatMap((kind) => (lots.get(kind) ?? []).filter(({ part }) => part.supply === 'maker'));
