/** What goes into the reader of packing lists, and what comes out. */
import { z } from 'zod';
import type { PackingFacts, PackingLine } from '../../delivery/line.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import type { ColumnReading } from '../headings.ts';
import { packingFields, type PackingField } from './fields.ts';

/** What a person decided about a file. */
export const packingMappingSchema = z.strictObject({
	/** Name of the sheet to read. */
	sheet: z.string().max(200).optional(),
	/** Row (line) of the headings, from 1. */
	headerRow: z.number().int().min(1).max(1_048_576).optional(),
	/** By column from 0: the field it holds, or null to leave it out. */
	columns: z
		.record(z.string().regex(/^\d{1,4}$/u), z.enum(packingFields.map(({ value }) => value)).nullable())
		.optional(),
	/** Unit of figures without one. */
	unit: z.enum(['in', 'ft', 'mm', 'cm', 'm']).optional(),
	/** What the figures after the dot of feet are: decimals, or inches. */
	feet: z.enum(['decimal', 'inches']).optional()
});
export type PackingMapping = z.infer<typeof packingMappingSchema>;

/** A cell that could not be read (it is null in its line), or what was taken for granted. */
export interface PackingQuestion {
	/** From 1. */
	readonly line: number;
	/** `Packing list, row 12, I “Length”` */
	readonly place: string;
	/** Null where the row, the column or the whole list is meant. */
	readonly field: PackingField | null;
	readonly text: string;
	readonly reason: string;
	/** What the cell may say; empty where nothing can be proposed. */
	readonly readings: readonly string[];
}

export interface PackingOptions {
	readonly measures: Measures;
	readonly mapping?: PackingMapping | undefined;
}

/** Crates and pages that the list counts and does not name. */
export interface Missing {
	readonly crates: readonly string[];
	readonly pages: readonly number[];
}

export type PackingReading =
	| {
			ok: true;
			sheet: string;
			headerRow: number;
			lines: PackingLine[];
			facts: PackingFacts;
			missing: Missing;
			columns: readonly ColumnReading<PackingField>[];
			/** Lines that hold no part, with why. */
			skipped: readonly { readonly line: number; readonly why: string }[];
			questions: readonly PackingQuestion[];
	  }
	| { ok: false; message: string; place: string };

/** Which crates and pages are missing; none where the list does not say how many there are. */
export function missingFrom({ crates, pages }: PackingFacts): Missing {
	const upTo = (all: number | null): number[] =>
		Array.from({ length: Math.min(all ?? 0, 999) }, (_, at) => at + 1);
	return {
		crates: upTo(crates.all)
			.map(String)
			.filter((crate) => !crates.named.includes(crate)),
		pages: upTo(pages.all).filter((page) => !pages.named.includes(page))
	};
}
