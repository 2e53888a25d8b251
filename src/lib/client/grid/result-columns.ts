/** Which results stand beside the inputs, in which groups, and which of them can be shown. */
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { isInputId } from '../../takeoff/inputs.ts';
import { summable } from '../../takeoff/totals.ts';

/** Inputs that most schedules leave blank: shown when a row holds something in them. */
const rareInputs: ReadonlySet<string> = new Set([
	'openingNumber',
	'hold',
	'floorBuildUp',
	'rightMounting',
	'rightGuide',
	'drawnFrom',
	'leftWallStrength',
	'rightWallStrength',
	'leftWallThickness',
	'rightWallThickness',
	'wallCondition',
	'finishBuildUp',
	'supplyVoltage',
	'feedLength',
	'exposure',
	'designPressure',
	'windlockPull',
	'drawingGuideDistance',
	'note'
]);

/** Results shown until a person chooses otherwise, in this order. */
const usual = [
	'guideDistance',
	'curtainWidth',
	'bracketDistance',
	'guideLength',
	'curtainRows',
	'curtainArea',
	'barrel',
	'bracketSize',
	'requiredTorque',
	'drive',
	'anchorTotal',
	'hoodPieces',
	'hoodSupports',
	'curtainWeight',
	'coilWeight',
	'shippingWeight',
	'labourHours'
];

const chapterTitles = new Map([
	[1, 'Sides as seen from the coil'],
	[2, 'Geometry'],
	[3, 'Barrel and drive'],
	[4, 'Anchors'],
	[5, 'Hood and what is used up'],
	[6, 'Weight and lifting'],
	[7, 'Labour']
]);

export const chapterTitle = (chapter: number): string => chapterTitles.get(chapter) ?? `Chapter ${chapter}`;

export const isUsual = (id: string): boolean => usual.includes(id) || (isInputId(id) && !rareInputs.has(id));

/** The results a person looks at first. */
export const usualResults: readonly string[] = usual;

const addable: ReadonlySet<string> = new Set<string>(summable);

/** Whether the sum over all openings means something. */
export const isAddable = (id: string): boolean => addable.has(id) || id.endsWith('Hours');

export interface ResultGroup {
	readonly title: string;
	readonly quantities: readonly QuantityDefinition[];
}

/** The results by chapter, the usual ones first in their own order. */
export function resultGroups(quantities: readonly QuantityDefinition[]): ResultGroup[] {
	const rank = (id: string): number => {
		const at = usual.indexOf(id);
		return at === -1 ? usual.length : at;
	};
	return [...new Set(quantities.map((quantity) => quantity.chapter))]
		.sort((a, b) => a - b)
		.map((chapter) => ({
			title: chapterTitle(chapter),
			quantities: quantities
				.filter((quantity) => quantity.chapter === chapter)
				.sort((a, b) => rank(a.id) - rank(b.id))
		}));
}
