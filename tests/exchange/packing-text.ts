/** Packing lists written out in tests. */
import {
	readPackingList,
	type PackingMapping,
	type PackingReading
} from '../../src/lib/exchange/packing-list.ts';
import type { Merge, Sheet } from '../../src/lib/exchange/sheet.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import type { Measures } from '../../src/lib/takeoff/inputs.ts';

export type Read = Extract<PackingReading, { ok: true }>;

export function ok(reading: PackingReading): Read {
	if (!reading.ok) throw new Error(`${reading.place}: ${reading.message}`);
	return reading;
}

/** Reads text as the file `list.csv`. */
export async function fromText(
	text: string,
	mapping?: PackingMapping,
	measures: Measures = 'imperial'
): Promise<Read> {
	const table = await readTableFile('list.csv', new TextEncoder().encode(text));
	if (!table.ok) throw new Error(table.message);
	return ok(readPackingList(table.sheets, { measures, mapping }));
}

/** A sheet of a workbook; blank rows are left out, as its reader leaves them out. */
export const sheetOf = (
	name: string,
	rows: readonly (readonly string[])[],
	merges: readonly Merge[] = []
): Sheet => ({
	name,
	rowWord: 'row',
	rows: rows.flatMap((cells, at) =>
		cells.every((cell) => cell === '') ? [] : [{ line: at + 1, cells, hidden: false }]
	),
	merges,
	hidden: false
});

/** 1 in = 25 400 000 nm. */
export const inches = (count: number): number => Math.round(count * 25_400_000);

export const fieldsOf = (list: Read): (string | null)[] => list.columns.map(({ field }) => field);
