/** How a person looks at the sheet: which columns, in what order and width, which rows. Never what is stored of the job. */
import { z } from 'zod';

const columnId = z.string().min(1).max(80);

/** Only some of the rows are shown; the others are still there. */
const rowFilterSchema = z.strictObject({
	/** Rows in which some cell shown has this text inside, in any case; blank for all. */
	text: z.string().max(200),
	/** Rows with a check of this severity, or with an entry that was not read. */
	checks: z.enum(['all', 'stop', 'caution', 'refused']),
	/** By column: only rows that show one of these texts there. */
	values: z.record(columnId, z.array(z.string().max(2000)).min(1).max(2000))
});
export type RowFilter = z.infer<typeof rowFilterSchema>;

export const sheetViewSchema = z.strictObject({
	/** Both, or only what is typed, or only what is worked out. */
	side: z.enum(['both', 'typed', 'worked']),
	/** Columns switched on (true) or off (false) against the usual choice. */
	choice: z.record(columnId, z.boolean()),
	/** Columns in the order a person gave them; those not named follow in their usual order. */
	order: z.array(columnId).max(2000),
	/** In pixels, of columns that were resized. */
	widths: z.record(columnId, z.number().int().min(24).max(1200)),
	/** Titles of column groups folded to their first column. */
	folded: z.array(z.string().max(80)).max(100),
	/** Columns that stay in place beside the mark. */
	frozen: z.array(columnId).max(20),
	rowHeight: z.enum(['compact', 'comfortable']),
	/** The order of the rows on the screen only. */
	sort: z.strictObject({ column: columnId, direction: z.enum(['up', 'down']) }).nullable(),
	filter: rowFilterSchema
});
export type SheetView = z.infer<typeof sheetViewSchema>;

export const everyRow: RowFilter = { text: '', checks: 'all', values: {} };

export const usualView: SheetView = {
	side: 'both',
	choice: {},
	order: [],
	widths: {},
	folded: [],
	frozen: ['checks'],
	rowHeight: 'compact',
	sort: null,
	filter: everyRow
};

/** A view a person gave a name. */
export interface SavedView {
	readonly name: string;
	readonly view: SheetView;
	/** ISO 8601, UTC. */
	readonly savedAt: string;
}

/** Whether rows are left out. */
export const isFiltered = ({ text, checks, values }: RowFilter): boolean =>
	text.trim() !== '' || checks !== 'all' || Object.keys(values).length > 0;
