/** What a takeoff hands over. */
import type { Source } from '../rulebook/definition.ts';
import type { Cell, InputId, OpeningRow } from './inputs.ts';

export type Severity = 'stop' | 'caution' | 'note';

/** Something to know about an opening. It says what was checked; it never approves. */
export interface Check {
	readonly severity: Severity;
	/** Stable identifier, e.g. `headroomTooLittle`. */
	readonly code: string;
	/** One sentence with the numbers in it. */
	readonly text: string;
	/** Id of the quantity it is about, for the working. */
	readonly rule: string | null;
	readonly source: Source;
	/** What would clear it. */
	readonly clears: string;
}

/** One row of the takeoff: a mark, or one opening of it that differs. All quantities are for ONE opening. */
export interface OpeningTakeoff {
	readonly row: OpeningRow;
	readonly mark: string;
	/** `C-101.3` when the row is one opening of its own, else null. */
	readonly openingId: string | null;
	/** Ids of the openings this row stands for, in order: `C-101.1`, `C-101.2` … */
	readonly openingIds: readonly string[];
	/** Openings this row stands for (those with rows of their own not counted). */
	readonly quantity: number;
	readonly phase: string;
	readonly location: string;
	/** False when inputs are missing or nothing passed the search: then only checks are there. */
	readonly computed: boolean;
	readonly checks: readonly Check[];
	/**
	 * A quantity in base units (`quantity/units`: nm, lbf, min), a key as its word, or null where it was not computed
	 * or is not known (never NaN). @throws Error for an unknown id.
	 */
	get(id: string): number | string | null;
	/** A cell of the row, or of its mark where the row is one opening of its own and the cell is blank. */
	cell(id: InputId): Cell;
}

/** One physical part (or a lot of loose ones) for one opening. */
export interface Part {
	/** Opaque, one per opening, kind and side; never reused. */
	readonly partId: string;
	readonly openingId: string;
	readonly mark: string;
	readonly kind: PartKind;
	/** Heading a person reads: `Guide, left`. */
	readonly title: string;
	readonly side: 'left' | 'right' | null;
	/** Shop-book key of what it is: `store-face`, `4.5`, `standard.concrete`. */
	readonly item: string;
	/** Sizes in whole nanometres. */
	readonly length: number | null;
	readonly width: number | null;
	/** Nominal size where the trade uses one (a bracket 16, an anchor 3/8 x 3), as text. */
	readonly size: string;
	readonly hand: 'left' | 'right' | null;
	readonly finish: string;
	/** Whole or decimal number as text, in `unit`. */
	readonly quantity: string;
	/** each, pair, set, length; tubes and feet for what is used up. */
	readonly unit: 'each' | 'pair' | 'set' | 'length' | 'tube' | 'ft';
	/** `maker`: comes on the maker's truck. `stock`: the shop's own stock, which holds nothing up unless a list names it. */
	readonly supply: 'maker' | 'stock';
	/** Parts with the same key may stand in for one another. */
	readonly interchangeKey: string;
	/** Task of the shop book that needs it: `guides`, `coil`, `hood`, `power` … */
	readonly task: TaskGroup;
	/** Part that this one took the place of. */
	readonly supersedes: string | null;
}

/** Stages of hanging that a missing part holds up. */
export type TaskGroup = 'guides' | 'brackets' | 'coil' | 'hood' | 'power';

export const partKinds = [
	'curtain',
	'bottomBar',
	'barrel',
	'bracket',
	'guide',
	'hoodPiece',
	'hoodSupport',
	'endCap',
	'drive',
	'operator',
	'anchor',
	'control',
	'consumable'
] as const;
export type PartKind = (typeof partKinds)[number];
