import type { PartKind } from '../takeoff/result.ts';

/** Kinds as they stand within a sentence. */
export const kindTitles: Readonly<Record<PartKind, string>> = {
	curtain: 'curtain',
	bottomBar: 'bottom bar',
	barrel: 'barrel',
	bracket: 'bracket',
	guide: 'guide',
	hoodPiece: 'hood piece',
	hoodSupport: 'hood support',
	endCap: 'end cap',
	drive: 'drive',
	operator: 'operator',
	anchor: 'anchor',
	control: 'control',
	consumable: 'consumable'
};
