/** What people write on schedules: over the columns, and in the cells where a key is meant. Common practice, no source. */
import { inputs, type InputDefinition, type InputId } from '../takeoff/inputs.ts';
import type { HeadingField } from './headings.ts';
import { twoSizes } from './schedule/size-text.ts';

const otherFields = ['roughWidth', 'roughHeight', 'sizes', 'roughSizes'] as const;
/**
 * A column of a schedule: an input; a rough size, which is none until a person says so; width and height in one cell,
 * finished or rough.
 */
export type ScheduleField = InputId | (typeof otherFields)[number];

const substrateNames = (side: 'left' | 'right'): string[] =>
	[
		'jamb',
		'wall',
		'substrate',
		'jamb material',
		'wall material',
		'jamb type',
		'wall type',
		'jamb construction'
	].map((name) => `${side} ${name}`);

const strengthNames = (wall: string): string[] =>
	['strength', 'fc', 'fm', 'fc fm', 'compressive strength', 'comp strength'].map((name) => `${wall} ${name}`);

const thicknessNames = (wall: string): string[] =>
	['wall thickness', 'jamb thickness', 'substrate thickness', 'wall depth'].map((name) => `${wall} ${name}`);

/** Names without a side stand for both sides. */
const bothWalls = [
	'jamb',
	'jambs',
	'wall',
	'substrate',
	'jamb material',
	'wall material',
	'jamb type',
	'wall type',
	'wall construction',
	'jamb construction'
];

type Names = Pick<HeadingField<ScheduleField>, 'names' | 'alone' | 'perhaps' | 'lastly'>;

// prettier-ignore
const names: Readonly<Record<ScheduleField, Names>> = {
	mark: { names: ['mark', 'type mark', 'opening mark', 'door mark', 'mark number', 'tag', 'opening tag', 'door tag'], perhaps: ['type', 'door', 'opening', 'number', 'door number', 'reference', 'door type', 'opening type'], lastly: ['item', 'item number', 'id', 'line', 'line number', 'serial number'] },
	openingNumber: { names: ['opening number'] },
	quantity: { names: ['quantity', 'number off', 'count', 'number required', 'quantity required', 'total quantity', 'number of openings', 'each'], perhaps: ['openings', 'off', 'total', 'required'], lastly: ['number'] },
	location: { names: ['location', 'place', 'room', 'room name', 'space', 'where', 'stall', 'unit'], perhaps: ['area', 'zone', 'level'] },
	phase: { names: ['phase', 'stage', 'release', 'work phase', 'job phase'], perhaps: ['section', 'area', 'zone'] },
	openingWidth: { names: ['opening width', 'door width', 'jamb to jamb', 'finish opening width', 'width of opening'], alone: ['width', 'finish width'] },
	openingHeight: { names: ['opening height', 'door height', 'sill to head', 'finish opening height', 'height of opening'], alone: ['height', 'finish height'] },
	roughWidth: { names: ['rough width', 'rough opening width', 'structural width', 'structural opening width', 'masonry width', 'masonry opening width', 'mo width', 'so width'] },
	roughHeight: { names: ['rough height', 'rough opening height', 'structural height', 'structural opening height', 'masonry height', 'masonry opening height', 'mo height', 'so height'] },
	sizes: { names: ['width height', 'fo width height', 'opening width height', 'door width height', 'grille width height', 'shutter width height'], perhaps: ['size', 'opening', 'opening size', 'door', 'door size', 'grille size', 'shutter size', 'overall size', 'nominal', 'nominal size', 'fo'] },
	roughSizes: { names: ['rough width height', 'rough opening width height', 'masonry opening width height', 'mo width height'], perhaps: ['rough', 'rough opening', 'structural opening', 'masonry opening', 'mo', 'so'] },
	hold: { names: ['hold', 'held', 'hold for', 'on hold'] },
	sill: { names: ['sill', 'sill type', 'closes on', 'closes onto', 'sill condition'] },
	sillHeight: { names: ['sill height', 'sill height aff', 'sill aff', 'sill level', 'counter height', 'counter height aff', 'sill elevation'] },
	floorBuildUp: { names: ['floor build up', 'floor buildup', 'floor finish', 'floor finish thickness', 'floor finish to come', 'floor topping', 'topping'] },
	curtain: { names: ['curtain', 'curtain type', 'slat', 'slat type', 'grille type', 'curtain or grille'], perhaps: ['type', 'model', 'door type', 'style', 'grille', 'shutter', 'pattern'] },
	finish: { names: ['finish', 'finish type', 'colour', 'color', 'curtain finish', 'finish colour', 'finish color'] },
	hood: { names: ['hood', 'hood type', 'hood material', 'hood gauge'] },
	mounting: { names: ['mounting', 'mounting type', 'mounting position', 'fixed to', 'face or between', 'face between', 'mounting left', 'face or between jambs', 'mounting condition'] },
	guide: { names: ['guide', 'guide type', 'guide left', 'guide profile'] },
	rightMounting: { names: ['mounting right', 'right mounting type'] },
	rightGuide: { names: ['guide right', 'right guide type'] },
	drawnFrom: { names: ['hand seen from', 'seen from', 'drawn from', 'viewed from', 'hand viewed from', 'viewpoint', 'drawing seen from', 'view from', 'left right seen from', 'left right viewed from'] },
	leftSubstrate: { names: [...substrateNames('left'), ...bothWalls] },
	rightSubstrate: { names: substrateNames('right') },
	headSubstrate: { names: ['head wall', 'wall over head', 'head substrate', 'head material', 'head construction', 'lintel', 'header', 'wall above'], perhaps: ['head'] },
	finishBuildUp: { names: ['wall finish', 'wall lining', 'wall finish thickness', 'finish build up', 'finish buildup', 'wall build up', 'lining'] },
	leftWallStrength: { names: [...strengthNames('left'), ...strengthNames('left wall'), ...strengthNames('left jamb'), ...strengthNames('wall'), ...strengthNames('jamb'), ...strengthNames('concrete'), ...strengthNames('masonry'), 'fc', 'fm', 'fc fm', 'compressive strength'], perhaps: ['strength', 'fu', 'wall fu', 'steel fu', 'steel strength'] },
	rightWallStrength: { names: [...strengthNames('right'), ...strengthNames('right wall'), ...strengthNames('right jamb')] },
	leftWallThickness: { names: [...thicknessNames('left'), ...thicknessNames(''), 'masonry thickness', 'concrete thickness'] },
	rightWallThickness: { names: thicknessNames('right') },
	wallCondition: { names: ['concrete condition', 'wall condition', 'cracked or uncracked', 'cracked concrete', 'cracking', 'cracked'], perhaps: ['condition'] },
	fixing: { names: ['fixing', 'fixing type', 'fastener', 'fasteners', 'fastener type', 'anchor', 'anchors', 'anchor type', 'fastening', 'anchorage'] },
	operation: { names: ['operation', 'operation type', 'method of operation', 'operating method'], perhaps: ['drive', 'drive type'] },
	driveSide: { names: ['hand', 'handing', 'drive side', 'drive hand', 'hand of operation', 'operator side', 'motor side', 'operator hand'], perhaps: ['drive', 'side'] },
	controls: { names: ['control', 'control type', 'control station', 'switch', 'switches', 'switch type'] },
	supplyVoltage: { names: ['volts', 'voltage', 'supply', 'supply voltage', 'power', 'power supply'] },
	feedLength: { names: ['feed', 'feed length', 'cable run', 'cable length', 'run', 'circuit length', 'distance to panel'] },
	headroom: { names: ['headroom', 'head room', 'head clearance', 'clearance above', 'headroom available', 'available headroom', 'clearance overhead'] },
	leftSideRoom: { names: ['side room left', 'sideroom left', 'left clearance', 'left side clearance', 'left room', 'side room', 'sideroom', 'side clearance'] },
	rightSideRoom: { names: ['side room right', 'sideroom right', 'right clearance', 'right side clearance', 'right room'] },
	frontRoom: { names: ['front room', 'front clearance', 'clearance in front', 'room in front'] },
	exposure: { names: ['exposure', 'interior exterior', 'inside outside', 'interior or exterior', 'inside or outside'] },
	designPressure: { names: ['design pressure', 'wind pressure', 'wind load', 'design wind pressure', 'design wind load', 'pressure'] },
	windlockPull: { names: ['windlock pull', 'wind lock pull', 'windlock load', 'wind lock load', 'windlock force', 'wind lock force', 'windlock tension', 'wind lock tension', 'windlock reaction', 'pull on guide'], perhaps: ['windlock', 'wind lock'] },
	drawingGuideDistance: { names: ['guide distance', 'drawing guide distance', 'approved guide distance', 'distance between guides', 'guide to guide'] },
	note: { names: ['note', 'remark', 'comment', 'special note'] }
};

/** The fields of a schedule with their headings; each input also by its own title and id. */
export function scheduleFields(
	fits: (input: InputDefinition) => ((text: string) => boolean) | undefined
): HeadingField<ScheduleField>[] {
	const isTwo = (text: string): boolean => twoSizes(text) !== null;
	return [
		...otherFields.map((field) => ({
			field,
			...names[field],
			...(field.endsWith('izes') ? { fits: isTwo } : {})
		})),
		...inputs.map((input) => {
			const test = fits(input);
			const own = names[input.id];
			return {
				field: input.id,
				...own,
				names: [input.title, input.id, ...own.names],
				...(test ? { fits: test } : {})
			};
		})
	];
}

/** Letters and figures only, in lower case; `w/` is with. */
const plain = (text: string): string =>
	text
		.toLowerCase()
		.replace(/\bw\//gu, 'with ')
		.replace(/\bc\.?m\.?u\b\.?/gu, 'cmu')
		.replace(/[^a-z0-9]/gu, '');

// prettier-ignore
const words: Readonly<Partial<Record<string, string>>> = {
	faceOfWall: 'face, face of wall, on face, on the face, wall face, face mount, face mounted, face mtd, surface, surface mounted, fow, f.o.w.',
	betweenJambs: 'between, between jambs, between jamb, jamb mounted, inside jambs, in opening, btwn jambs, bj, b.j.',
	groutedBlock: 'grouted block, grouted cmu, cmu grouted, block grouted, solid grouted cmu, fully grouted cmu, grouted masonry',
	hollowBlock: 'hollow block, hollow cmu, cmu hollow, block hollow, ungrouted cmu, ungrouted block',
	concrete: 'concrete, conc, conc., cast concrete, reinforced concrete, r.c.',
	brick: 'brick, brickwork',
	structuralSteel: 'structural steel, steel, steel column, steel tube, tube steel, hss, stl, struct steel, steel angle',
	studWithBacking: 'stud with backing, studs with backing, metal stud with backing, steel stud with backing, stud and backing, backed stud',
	wood: 'wood, timber, wood stud, wood post, lumber',
	counter: 'counter, countertop, counter top, on counter, ctr',
	floor: 'floor, finished floor, slab, fin floor, on floor',
	tubeMotor: 'tube motor, tubular motor, motor, motorised, motorized, electric, motor operated, mtr',
	chain: 'chain, hand chain, chain hoist, chain operated, manual chain',
	crank: 'crank, hand crank, crank operated, manual crank',
	pushUp: 'push up, push-up, manual push up, lift by hand, hand lift',
	left: 'left, l, lh, l.h., left hand, left-hand',
	right: 'right, r, rh, r.h., right hand, right-hand',
	interior: 'interior, int, int., inside, indoor, indoors',
	exterior: 'exterior, ext, ext., outside, outdoor, outdoors',
	cracked: 'cracked, cracked concrete, crk',
	uncracked: 'uncracked, non-cracked, not cracked, uncracked concrete',
	coilSide: 'coil side, coil, from coil side, the coil side',
	farSide: 'far side, far, from far side, opposite, opposite side, opposite the coil, away from coil'
};

const keyOfWord: ReadonlyMap<string, string> = new Map(
	Object.entries(words).flatMap(([key, list = '']) =>
		list.split(', ').map((word) => [plain(word), key] as const)
	)
);

/** Words that can mean several things, and what to write instead. */
const unclear: Readonly<Partial<Record<InputId, readonly (readonly [string, string])[]>>> = (() => {
	const wall = [
		[
			'block, cmu, masonry, concrete block, conc block',
			'grouted or hollow? Write grouted block or hollow block'
		],
		[
			'stud, studs, metal stud, steel stud, drywall, gwb, gypsum',
			'with backing? Write stud with backing, or what it is fixed to'
		]
	] as const;
	return {
		leftSubstrate: wall,
		rightSubstrate: wall,
		headSubstrate: wall,
		operation: [['manual, hand, hand operated, manually', 'by what? Write push up, crank or chain']] as const
	};
})();

/** A dash, or words for nothing. */
const nothing = new Set(['', '-', '--', '–', '—', 'n/a', 'na', 'n.a.', 'nil']);
const noneWords = new Set(['none', 'no', 'without', 'no hood', 'not required']);

/** Spellings of one word. */
const sameWord: ReadonlyMap<string, string> = new Map(
	Object.entries({
		anodised: 'anodized anod',
		galvanised: 'galvanized galv',
		aluminium: 'aluminum alum',
		colour: 'color',
		grey: 'gray',
		ga: 'gauge gage',
		grille: 'grill'
	}).flatMap(([word, others]) => others.split(' ').map((other) => [other, word] as const))
);
/** Words that say nothing which the column does not. */
const fillers = new Set('finish finished coat coated coating paint painted type the and of a'.split(' '));

/** The words of a key or of what was written for one, in one spelling and order: `24 ga. steel` and `steel-24ga` agree. */
const wordsOf = (text: string): string =>
	Array.from(
		new Set(
			text
				.replace(/([a-z])([A-Z])/gu, '$1 $2')
				.toLowerCase()
				.replace(/(\d)([a-z])|([a-z])(\d)/gu, '$1$3 $2$4')
				.split(/[^a-z0-9]+/u)
				.map((word) => (word.length > 3 ? word.replace(/s$/u, '') : word))
				.map((word) => sameWord.get(word) ?? word)
				.filter((word) => word !== '' && !fillers.has(word))
		)
	)
		.sort()
		.join(' ');

export const saysNothing = (text: string): boolean => nothing.has(text.toLowerCase());

export type WordReading = { key: string } | { reason: string } | null;

/**
 * The key that a word of the trade stands for in this column, or why it stands for none; null when it is no such word.
 * A dash in a column where `none` can be chosen means none.
 */
export function keyFromWord(input: InputDefinition, text: string, keys: readonly string[]): WordReading {
	if (input.kind !== 'key') return null;
	if (keys.includes('none') && (saysNothing(text) || noneWords.has(text.toLowerCase())))
		return { key: 'none' };
	const word = plain(text);
	const doubtful = unclear[input.id]?.find(([list]) =>
		list.split(', ').some((other) => plain(other) === word)
	);
	if (doubtful) return { reason: `“${text}”: ${doubtful[1]}` };
	const key = keyOfWord.get(word);
	if (key !== undefined && keys.includes(key)) return { key };
	const spelled = keys.filter((other) => plain(other) === word);
	if (spelled.length === 1 && spelled[0] !== undefined) return { key: spelled[0] };
	const told = wordsOf(text);
	const alike = told === '' ? [] : keys.filter((other) => wordsOf(other) === told);
	return alike.length === 1 && alike[0] !== undefined ? { key: alike[0] } : null;
}
