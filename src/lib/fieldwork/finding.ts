/** What a measure says of one thing. */

export type MeasuredThing =
	| 'width'
	| 'heightLeft'
	| 'heightRight'
	| 'skew'
	| 'plumbInLeft'
	| 'plumbInRight'
	| 'plumbOutLeft'
	| 'plumbOutRight'
	| 'sill'
	| 'anchorLeft'
	| 'anchorRight'
	| 'headroom'
	| 'sideRoomLeft'
	| 'sideRoomRight'
	| 'wallLeft'
	| 'wallRight'
	| 'readings';

export interface Finding {
	readonly thing: MeasuredThing;
	/** Heading a person reads. */
	readonly title: string;
	/** `notMeasured`: something it needs is missing; the text says what. */
	readonly state: 'within' | 'stop' | 'notMeasured';
	/** Whole nm, or the key of a wall. */
	readonly measured: number | string | null;
	/** What the drawing has, or for rooms and anchors what is needed or allowed. */
	readonly drawn: number | string | null;
	/** Measured less drawn, whole nm. */
	readonly difference: number | null;
	/** What the difference may be, nm. */
	readonly tolerance: number | null;
	/** One sentence with the numbers. */
	readonly text: string;
	/** What would clear it; empty where nothing has to be. */
	readonly clears: string;
}

/** Something to know that stops nothing. */
export interface Caution {
	readonly text: string;
	readonly clears: string;
}

export const notMeasured = (
	thing: MeasuredThing,
	title: string,
	text: string,
	clears: string,
	drawn: number | string | null = null
): Finding => ({
	thing,
	title,
	state: 'notMeasured',
	measured: null,
	drawn,
	difference: null,
	tolerance: null,
	text,
	clears
});
