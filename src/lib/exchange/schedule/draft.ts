/** A row on its way into the job. */
import type { Cell, InputId } from '../../takeoff/inputs.ts';
import { placeOf } from '../headings.ts';
import { shown, type Sheet } from '../sheet.ts';
import type { Line } from './lines.ts';
import type { CellProblem, LeftOutReason, ScheduleColumn } from './preview.ts';

export type MutableCells = Partial<Record<InputId, Cell>>;

export interface Draft {
	readonly line: Line;
	readonly cells: MutableCells;
	readonly problems: CellProblem[];
	/** What was taken for granted. */
	readonly notes: string[];
	/** Null for a row that comes in. */
	out: { readonly reason: LeftOutReason; readonly why: string } | null;
	/** All marks that the mark cell names. */
	readonly marks: readonly string[];
	/** A count that stands in the mark cell. */
	readonly count: number | null;
	/** Nothing is known of the quantity until a question is answered. */
	quantityOpen: boolean;
	/** What only a person can say of its sizes, for the questions about them. */
	readonly asks: SizeDoubts;
}

interface SizeDoubts {
	/** It says that a size is a rough opening. */
	rough: boolean;
	/** Both sizes in one cell, and nothing says which is first. */
	order: boolean;
	/** Columns with a date where a size is meant, and what it probably was. */
	readonly dates: { readonly column: ScheduleColumn; readonly offers: string }[];
}

/** A cell that is refused, with its place. */
export const refusal = (
	sheet: Sheet,
	{ source }: Line,
	column: ScheduleColumn | null,
	field: InputId | null,
	text: string,
	reason: string,
	offers: string | null = null
): CellProblem => ({
	column: column?.letter ?? null,
	field,
	text: shown(text),
	reason,
	place: placeOf(sheet, source.line, column),
	offers
});

/** The mark of a row; '' without one. */
export const markOf = ({ cells }: Draft): string => (typeof cells.mark === 'string' ? cells.mark : '');

/** Rows that come in. */
export const staying = (drafts: readonly Draft[]): Draft[] => drafts.filter(({ out }) => out === null);

export const lineOf = ({ line }: Draft): number => line.source.line;
