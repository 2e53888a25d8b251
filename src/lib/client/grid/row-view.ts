/** Which rows stand on the screen, and in what order. The stored order is only read here. */
import type { RowFilter, SheetView } from '../../changes/sheet-view.ts';

/** The rows as the grid shows them. */
export interface RowReader {
	/** Ids of all rows as they are stored. */
	readonly order: readonly string[];
	/** Ids of the columns shown. */
	readonly columns: readonly string[];
	text(row: string, column: string): string;
	/** A figure in base units or words, to sort by; null for an empty cell. */
	value(row: string, column: string): number | string | null;
	severities(row: string): ReadonlySet<'stop' | 'caution' | 'note'>;
	/** Whether an entry of the row was not read. */
	hasRefused(row: string): boolean;
	/** The row of the mark, for a row that is one opening of it; else null. */
	ownerOf(row: string): string | null;
}

/** Words as people count: C-2 before C-10, whatever the case. */
const natural = new Intl.Collator('en', { numeric: true });

type SortValue = number | string | null;

const isBlank = (value: SortValue): boolean => value === null || value === '' || Number.isNaN(value);

/** Figures before words. */
function compare(a: SortValue, b: SortValue): number {
	if (typeof a === 'number' && typeof b === 'number') return a - b;
	if (typeof a === 'number') return -1;
	if (typeof b === 'number') return 1;
	return natural.compare(a ?? '', b ?? '');
}

/**
 * Ids of the rows that the filter lets through, in the order of the sort; in stored order without one.
 *
 * Rows that compare alike keep their stored order and blank cells stand last, in both directions. The rows of a mark’s
 * own openings stay under it, sorted among themselves. A mark stays when one of its own rows does.
 */
export function shownRows(reader: RowReader, filter: RowFilter, sort: SheetView['sort']): string[] {
	const { order } = reader;
	const passes = passOf(reader, filter);
	const shown = new Set<string>();
	for (const row of order) {
		if (!passes(row)) continue;
		shown.add(row);
		const owner = reader.ownerOf(row);
		if (owner !== null) shown.add(owner);
	}
	const rows = order.filter((row) => shown.has(row));
	if (!sort) return rows;

	const { column, direction } = sort;
	const values = new Map(rows.map((row) => [row, reader.value(row, column)]));
	const sign = direction === 'up' ? 1 : -1;
	const sorted = (some: readonly string[]): string[] =>
		some.toSorted((a, b) => {
			const [left, right] = [values.get(a) ?? null, values.get(b) ?? null];
			const [noLeft, noRight] = [isBlank(left), isBlank(right)];
			if (noLeft || noRight) return Number(noLeft) - Number(noRight);
			return sign * compare(left, right);
		});

	const ownRows = new Map<string, string[]>();
	const heads: string[] = [];
	for (const row of rows) {
		const owner = reader.ownerOf(row);
		if (owner === null || owner === row || !values.has(owner) || reader.ownerOf(owner) !== null)
			heads.push(row);
		else ownRows.set(owner, [...(ownRows.get(owner) ?? []), row]);
	}
	return sorted(heads).flatMap((head) => [head, ...sorted(ownRows.get(head) ?? [])]);
}

/** Whether a row passes by itself. What takes least to ask is asked first. */
function passOf(reader: RowReader, { text, checks, values }: RowFilter): (row: string) => boolean {
	const sought = text.trim().toLowerCase();
	const wanted = Object.entries(values).map(([column, texts]) => ({ column, texts: new Set(texts) }));
	return (row) => {
		if (checks === 'refused' && !reader.hasRefused(row)) return false;
		if ((checks === 'stop' || checks === 'caution') && !reader.severities(row).has(checks)) return false;
		if (!wanted.every(({ column, texts }) => texts.has(reader.text(row, column)))) return false;
		return (
			sought === '' ||
			reader.columns.some((column) => reader.text(row, column).toLowerCase().includes(sought))
		);
	};
}

/** The texts that a column shows over all rows, with how many rows show each; the blank one last. */
export function distinctTexts(reader: RowReader, column: string): { text: string; count: number }[] {
	const counts = new Map<string, number>();
	for (const row of reader.order) {
		const text = reader.text(row, column);
		counts.set(text, (counts.get(text) ?? 0) + 1);
	}
	return [...counts]
		.map(([text, count]) => ({ text, count }))
		.sort((a, b) => Number(a.text === '') - Number(b.text === '') || natural.compare(a.text, b.text));
}
