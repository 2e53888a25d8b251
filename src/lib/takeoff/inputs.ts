/** Chapter 1: what is typed for an opening. Columns of the grid, of files and of the workbook come from this table. */
import { mountings, operations, substrates } from '../shopbook/words.ts';

/** How a cell is typed and kept. */
type InputKind = 'text' | 'count' | 'length' | 'pressure' | 'strength' | 'lineLoad' | 'voltage' | 'key';

export interface InputDefinition {
	readonly id: InputId;
	/** Heading a person reads. */
	readonly title: string;
	/** Group of columns it stands in. */
	readonly group: InputGroup;
	readonly kind: InputKind;
	/** For keys: fixed words, or the table of the shop book. */
	readonly options?: readonly string[];
	readonly table?: 'curtains' | 'guides' | 'hoods' | 'fixings' | 'finishes' | 'controls';
	/** Nothing can be computed without it (an opening of its own row inherits its mark's). */
	readonly required: boolean;
	/** Signed lengths may be negative, sizes must be greater than 0, others 0 or more. */
	readonly range?: 'positive' | 'notNegative' | 'signed';
	readonly sentence: string;
}

type InputGroup = 'Opening' | 'Size' | 'Curtain' | 'Guides' | 'Walls' | 'Operation' | 'Room' | 'Load';

export const inputIds = [
	'mark',
	'openingNumber',
	'quantity',
	'location',
	'phase',
	'openingWidth',
	'openingHeight',
	'hold',
	'sill',
	'sillHeight',
	'floorBuildUp',
	'curtain',
	'finish',
	'hood',
	'mounting',
	'guide',
	'rightMounting',
	'rightGuide',
	'drawnFrom',
	'leftSubstrate',
	'rightSubstrate',
	'headSubstrate',
	'finishBuildUp',
	'leftWallStrength',
	'rightWallStrength',
	'leftWallThickness',
	'rightWallThickness',
	'wallCondition',
	'fixing',
	'operation',
	'driveSide',
	'controls',
	'supplyVoltage',
	'feedLength',
	'headroom',
	'leftSideRoom',
	'rightSideRoom',
	'frontRoom',
	'exposure',
	'designPressure',
	'windlockPull',
	'drawingGuideDistance',
	'note'
] as const;
export type InputId = (typeof inputIds)[number];

const viewpoints = ['coilSide', 'farSide'] as const;
const sides = ['left', 'right'] as const;
const holds = ['fieldMeasure'] as const;
const conditions = ['cracked', 'uncracked'] as const;

const opening = { group: 'Opening' } as const;
const size = { group: 'Size' } as const;
const curtain = { group: 'Curtain' } as const;
const guides = { group: 'Guides' } as const;
const walls = { group: 'Walls' } as const;
const operation = { group: 'Operation' } as const;
const room = { group: 'Room' } as const;
const load = { group: 'Load' } as const;

// prettier-ignore
export const inputs: readonly InputDefinition[] = [
	{ ...opening, id: 'mark', title: 'Mark', kind: 'text', required: true, sentence: 'The type on the drawings; quantity makes openings of it.' },
	{ ...opening, id: 'openingNumber', title: 'Opening no.', kind: 'count', required: false, sentence: 'Blank for the mark. A number makes the row one opening of the mark that differs from it; blank cells take the mark’s.' },
	{ ...opening, id: 'quantity', title: 'Quantity', kind: 'count', required: true, sentence: 'Openings of this mark, 1 or more.' },
	{ ...opening, id: 'location', title: 'Location', kind: 'text', required: false, sentence: 'Where it is in the building.' },
	{ ...opening, id: 'phase', title: 'Phase', kind: 'text', required: false, sentence: 'The part of the job it belongs to.' },
	{ ...size, id: 'openingWidth', title: 'Opening width', kind: 'length', range: 'positive', required: true, sentence: 'Finished opening, jamb to jamb.' },
	{ ...size, id: 'openingHeight', title: 'Opening height', kind: 'length', range: 'positive', required: true, sentence: 'Finished sill to head; between jambs, what must stay clear below the coil.' },
	{ ...size, id: 'hold', title: 'Hold', kind: 'key', options: holds, required: false, sentence: 'Held until the opening is measured on site: its size is not final.' },
	{ ...size, id: 'sill', title: 'Sill', kind: 'key', options: ['counter', 'floor'], required: false, sentence: 'What the curtain closes onto.' },
	{ ...size, id: 'sillHeight', title: 'Sill height', kind: 'length', range: 'notNegative', required: false, sentence: 'Sill above the finished floor.' },
	{ ...size, id: 'floorBuildUp', title: 'Floor build-up', kind: 'length', range: 'notNegative', required: false, sentence: 'Floor finish still to come.' },
	{ ...curtain, id: 'curtain', title: 'Curtain', kind: 'key', table: 'curtains', required: true, sentence: 'Curtain of the shop book.' },
	{ ...curtain, id: 'finish', title: 'Finish', kind: 'key', table: 'finishes', required: false, sentence: 'Finish of curtain, guides and hood.' },
	{ ...curtain, id: 'hood', title: 'Hood', kind: 'key', table: 'hoods', required: true, sentence: 'Hood of the shop book, or none.' },
	{ ...guides, id: 'mounting', title: 'Mounting', kind: 'key', options: mountings, required: true, sentence: 'On the face of the wall or between the jambs.' },
	{ ...guides, id: 'guide', title: 'Guide', kind: 'key', table: 'guides', required: true, sentence: 'Guide of the shop book; both sides unless the right one differs.' },
	{ ...guides, id: 'rightMounting', title: 'Right mounting', kind: 'key', options: mountings, required: false, sentence: 'Where the right side differs.' },
	{ ...guides, id: 'rightGuide', title: 'Right guide', kind: 'key', table: 'guides', required: false, sentence: 'Where the right side differs.' },
	{ ...guides, id: 'drawnFrom', title: 'Left and right seen from', kind: 'key', options: viewpoints, required: false, sentence: 'The side the drawing is seen from. Left and right are turned to the coil side before anything is computed; blank means the coil side.' },
	{ ...walls, id: 'leftSubstrate', title: 'Left wall', kind: 'key', options: substrates, required: true, sentence: 'What the left guide and bracket are fixed to.' },
	{ ...walls, id: 'rightSubstrate', title: 'Right wall', kind: 'key', options: substrates, required: true, sentence: 'What the right guide and bracket are fixed to.' },
	{ ...walls, id: 'headSubstrate', title: 'Wall over the head', kind: 'key', options: substrates, required: false, sentence: 'What hood supports are fixed to.' },
	{ ...walls, id: 'finishBuildUp', title: 'Wall finish', kind: 'length', range: 'notNegative', required: false, sentence: 'Board or tile between guide and wall.' },
	{ ...walls, id: 'leftWallStrength', title: 'Left wall strength', kind: 'strength', required: false, sentence: 'f′c of concrete, f′m of masonry, Fu of steel; blank takes the shop book’s.' },
	{ ...walls, id: 'rightWallStrength', title: 'Right wall strength', kind: 'strength', required: false, sentence: 'f′c of concrete, f′m of masonry, Fu of steel; blank takes the shop book’s.' },
	{ ...walls, id: 'leftWallThickness', title: 'Left wall thickness', kind: 'length', range: 'positive', required: false, sentence: 'Of the wall, the steel, the backing or the wood that the anchors go into; blank takes the shop book’s.' },
	{ ...walls, id: 'rightWallThickness', title: 'Right wall thickness', kind: 'length', range: 'positive', required: false, sentence: 'Of the wall, the steel, the backing or the wood that the anchors go into; blank takes the shop book’s.' },
	{ ...walls, id: 'wallCondition', title: 'Concrete', kind: 'key', options: conditions, required: false, sentence: 'Whether the concrete is cracked at the anchors; blank takes the shop book’s.' },
	{ ...walls, id: 'fixing', title: 'Fixing', kind: 'key', table: 'fixings', required: true, sentence: 'Fastener family of the shop book.' },
	{ ...operation, id: 'operation', title: 'Operation', kind: 'key', options: operations, required: true, sentence: 'How the curtain is moved.' },
	{ ...operation, id: 'driveSide', title: 'Hand', kind: 'key', options: sides, required: true, sentence: 'Drive side, standing on the coil side unless the row says the drawing is seen from the far side.' },
	{ ...operation, id: 'controls', title: 'Controls', kind: 'key', table: 'controls', required: false, sentence: 'Switches and locks, with who supplies and who wires them.' },
	{ ...operation, id: 'supplyVoltage', title: 'Supply', kind: 'voltage', required: false, sentence: 'Voltage at the opening.' },
	{ ...operation, id: 'feedLength', title: 'Feed length', kind: 'length', range: 'notNegative', required: false, sentence: 'Panel to opening along the cable.' },
	{ ...room, id: 'headroom', title: 'Headroom', kind: 'length', range: 'notNegative', required: false, sentence: 'Free height above the head of the opening.' },
	{ ...room, id: 'leftSideRoom', title: 'Left side room', kind: 'length', range: 'notNegative', required: false, sentence: 'Free width from the left guide mouth outwards.' },
	{ ...room, id: 'rightSideRoom', title: 'Right side room', kind: 'length', range: 'notNegative', required: false, sentence: 'Free width from the right guide mouth outwards.' },
	{ ...room, id: 'frontRoom', title: 'Front room', kind: 'length', range: 'notNegative', required: false, sentence: 'Free depth in front of the wall at the coil.' },
	{ ...load, id: 'exposure', title: 'Exposure', kind: 'key', options: ['interior', 'exterior'], required: false, sentence: 'Whether wind reaches it; blank means interior.' },
	{ ...load, id: 'designPressure', title: 'Design pressure', kind: 'pressure', required: false, sentence: 'For exterior openings the engineer’s figure.' },
	{ ...load, id: 'windlockPull', title: 'Windlock pull', kind: 'lineLoad', required: false, sentence: 'Exterior slats with windlocks: what they pull on each guide along its length, the engineer’s figure.' },
	{ ...load, id: 'drawingGuideDistance', title: 'Guide distance on drawing', kind: 'length', range: 'positive', required: false, sentence: 'Mouth to mouth on the approved drawing, to compare.' },
	{ ...opening, id: 'note', title: 'Note', kind: 'text', required: false, sentence: 'Anything to remember; goes wherever the row goes.' }
];

const byId = new Map(inputs.map((input) => [input.id, input]));

export function inputOf(id: InputId): InputDefinition {
	const input = byId.get(id);
	if (!input) throw new Error(`${id} is not an input`);
	return input;
}

export const isInputId = (id: string): id is InputId => (inputIds as readonly string[]).includes(id);

/** A measured cell: what was typed, and the exact amount understood (whole nanometres for a length). */
export interface Measured {
	readonly amount: number;
	readonly unit: 'nm' | 'psf' | 'psi' | 'lb/ft' | 'V';
	readonly typed: string;
}

/** One stored cell. `null` is an empty cell. */
export type Cell = string | number | Measured | null;
export type Cells = Readonly<Partial<Record<InputId, Cell>>>;

/** A row of the grid: a mark, or one opening of a mark that differs. */
export interface OpeningRow {
	/** Opaque, unique in the job, never reused. */
	readonly id: string;
	readonly cells: Cells;
}

export type Measures = 'imperial' | 'metric';

/** How lengths are written in a job. */
export const lengthStyleOf = (measures: Measures): 'feetInches' | 'mm' =>
	measures === 'metric' ? 'mm' : 'feetInches';
