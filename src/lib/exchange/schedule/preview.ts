/** What reading a schedule gives, and what a person can decide about it. */
import { z } from 'zod';
import {
	inputIds,
	type Cells,
	type InputDefinition,
	type InputId,
	type Measures
} from '../../takeoff/inputs.ts';

/** What a person decided about a file; all of it optional. Sent with the file. */
export const scheduleMappingSchema = z.strictObject({
	/** Name of the sheet to read. */
	sheet: z.string().max(200).optional(),
	/** Row (line) of the headings, from 1. */
	headerRow: z.number().int().min(1).max(1_048_576).optional(),
	/** By column from 0: the input it holds, or null to leave it out. */
	columns: z.record(z.string().regex(/^\d{1,3}$/u), z.enum(inputIds).nullable()).optional(),
	/** By id of the question. */
	answers: z.record(z.string().max(200), z.string().max(200)).optional()
});
export type ScheduleMapping = z.infer<typeof scheduleMappingSchema>;

export interface ScheduleOptions {
	readonly measures: Measures;
	/** Keys of the shop book for an input, as `takeoff/keys.ts` gives them. */
	readonly keysFor: (input: InputDefinition) => readonly string[];
	readonly mapping?: ScheduleMapping | undefined;
}

export interface ScheduleColumn {
	/** From 0. */
	readonly index: number;
	readonly letter: string;
	readonly heading: string;
	readonly field: InputId | null;
	/** A second input that takes the same cells: one wall column for both jambs, one size column for width and height. */
	readonly also: InputId | null;
	/** Unit of figures without one, where the heading names it. */
	readonly unit: string | null;
	/** Why this input, or why none. */
	readonly how: string;
}

/** A cell that could not be read. It stays empty. */
export interface CellProblem {
	/** `F`; null when the whole row is meant. */
	readonly column: string | null;
	readonly field: InputId | null;
	/** As it stands in the file. */
	readonly text: string;
	readonly reason: string;
	/** `Schedule, row 12, F “Clear Width”` */
	readonly place: string;
	/** What was probably meant, to be offered and never taken in silence; null when nothing is probable. */
	readonly offers: string | null;
}

/** Why a line of the file is no opening of the job. */
export type LeftOutReason =
	/** The headings repeated, as on every printed page. */
	| 'headings'
	/** A total or subtotal. */
	| 'total'
	/** The heading of a phase, an area or an alternate. */
	| 'heading'
	/** A note, a legend, a signature. */
	| 'remark'
	/** More fields than headings: its cells have moved. */
	| 'ragged'
	/** Headings of another table in the sheet, and what stands below them. */
	| 'otherTable'
	| 'hidden'
	| 'filtered'
	| 'struck'
	/** Replaced by, or counted in, another row of the same mark. */
	| 'duplicate'
	| 'alternate';

export interface ScheduleRow {
	/** Row of the sheet or line of the text, from 1. */
	readonly line: number;
	/** 0 for the only or first row that a line gives; 1, 2 … for the further marks of a range and for openings that differ. */
	readonly part: number;
	readonly cells: Cells;
	readonly problems: readonly CellProblem[];
	/** What was taken for granted. */
	readonly notes: readonly string[];
	readonly status: 'opening' | 'skipped';
	/** Why it was skipped, for people and for programs. */
	readonly why: string | null;
	readonly reason: LeftOutReason | null;
}

export interface Question {
	/** `unit`, `viewpoint`, `rough`, `duplicate:C-101` */
	readonly id: string;
	readonly text: string;
	/** Rows it is about. */
	readonly lines: readonly number[];
	readonly choices: readonly Choice[];
	/** What holds for now; null when nothing can go in before a person answers. */
	readonly answer: string | null;
}

export interface Choice {
	readonly value: string;
	readonly title: string;
}

export interface SchedulePreview {
	readonly sheet: string;
	/** All sheets of the file, to choose from. */
	readonly sheets: readonly string[];
	/** Row of the headings, the last one where there are several; 0 when none was found. */
	readonly headerRow: number;
	/** The kind of file, by its headings and whatever the sheet or its rows: a mapping once confirmed is remembered by it. */
	readonly signature: string;
	readonly columns: readonly ScheduleColumn[];
	readonly rows: readonly ScheduleRow[];
	readonly questions: readonly Question[];
	/** What is wrong with the file as a whole. */
	readonly problems: readonly { readonly place: string; readonly reason: string }[];
	/** What was understood from notes around the table. */
	readonly notes: readonly string[];
}

/** `3, 4 and 7` */
export const listed = (items: readonly (number | string)[]): string =>
	items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${String(items.at(-1))}`;

const mostListed = 8;

/** `3, 4 and 7`; of many only the first ones. */
export const listedLines = (lines: readonly number[]): string =>
	lines.length > mostListed
		? `${lines.slice(0, mostListed).join(', ')} and ${lines.length - mostListed} more`
		: listed(lines);
