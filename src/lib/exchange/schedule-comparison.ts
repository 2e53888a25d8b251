/**
 * A schedule that comes again: what bringing it in would add to a job, take out of it and change in it. Rows stand for
 * the same openings when mark and opening number agree, whatever the capitals; rows with the same of both are paired in
 * the order they stand in. Sizes are compared as lengths, so that 10' and 120" are the same.
 */
import { inputIds, type Cell, type Cells, type InputId, type OpeningRow } from '../takeoff/inputs.ts';
import type { SchedulePreview, ScheduleRow } from './schedule.ts';

/** One cell that differs: `null` where nothing stands. */
interface CellDifference {
	readonly field: InputId;
	readonly from: Cell;
	readonly to: Cell;
}

interface AddedRow {
	readonly kind: 'added';
	readonly id: string;
	/** Where it stands in the file. */
	readonly line: number;
	readonly part: number;
	readonly cells: Cells;
	/** Row of the job it goes after, or null for the top. Several after the same row follow in the order of the file. */
	readonly after: string | null;
}

interface RemovedRow {
	readonly kind: 'removed';
	readonly id: string;
	/** The row of the mark, and those of its openings that go with it. */
	readonly rows: readonly OpeningRow[];
}

interface ChangedRow {
	readonly kind: 'changed';
	readonly id: string;
	readonly line: number;
	readonly part: number;
	readonly row: OpeningRow;
	readonly cells: readonly CellDifference[];
	/** Rows of openings of the mark, which take a new mark along with it. */
	readonly followers: readonly OpeningRow[];
}

export type RowChange = AddedRow | RemovedRow | ChangedRow;

/** A mark that is gone and a new one with the same cells: renamed, or two different things. */
interface Rename {
	/** Key of the answer among the answers of the mapping. */
	readonly id: string;
	readonly from: string;
	readonly to: string;
	/** `null` until a person says so. */
	readonly answer: 'yes' | 'no' | null;
}

export interface ScheduleComparison {
	/** Those of the file in its order, then what the file lacks in the order of the job. */
	readonly changes: readonly RowChange[];
	readonly renames: readonly Rename[];
	/** Rows of the job that the file gives just as they are. */
	readonly unchanged: number;
}

/** What a person chooses or leaves: a row added, a row removed, one cell changed. */
export const cellChoice = (rowId: string, field: InputId): string => `cell:${rowId}:${field}`;

/** The choices of a change and whether each is taken before a person chose: removing and clearing are not. */
export function choicesOf(change: RowChange): { readonly id: string; readonly usual: boolean }[] {
	if (change.kind !== 'changed') return [{ id: change.id, usual: change.kind === 'added' }];
	return change.cells.map(({ field, to }) => ({
		id: cellChoice(change.row.id, field),
		usual: to !== null
	}));
}

/** What is taken when nobody chooses. */
export const usualChoices = ({ changes }: ScheduleComparison): string[] =>
	changes.flatMap((change) => choicesOf(change).flatMap(({ id, usual }) => (usual ? [id] : [])));

const isBlank = (cell: Cell | undefined): boolean => cell === undefined || cell === null || cell === '';

/** Two cells mean the same, however they were typed. */
function sameMeaning(a: Cell | undefined, b: Cell | undefined): boolean {
	if (isBlank(a) || isBlank(b)) return isBlank(a) && isBlank(b);
	if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
	return a.unit === b.unit && Math.abs(a.amount - b.amount) <= 1e-9 * Math.abs(a.amount);
}

const markOf = ({ mark }: Cells): string => (typeof mark === 'string' ? mark.trim().toLowerCase() : '');
const numberOf = ({ openingNumber }: Cells): number | null =>
	typeof openingNumber === 'number' ? openingNumber : null;
/** `C-101`, `C-101.3`; blank without a mark. */
export const nameOf = (cells: Cells): string => {
	const mark = typeof cells.mark === 'string' ? cells.mark : '';
	const number = numberOf(cells);
	return number === null ? mark : `${mark}.${number}`;
};
const openingOf = (cells: Cells): string => JSON.stringify([markOf(cells), numberOf(cells)]);

/** What identifies a row is not among the cells compared. */
const compared = inputIds.filter((id) => id !== 'mark' && id !== 'openingNumber');

/** Compares the rows that a schedule would bring in with those of a job. @param answers by id of a rename. */
export function compareSchedule(
	preview: SchedulePreview,
	rows: readonly OpeningRow[],
	answers: Readonly<Record<string, string>>
): ScheduleComparison {
	const file = new FileRows(preview);
	const before = match(file, rows);
	const renames: Rename[] = [];
	const newMarks = new Map<OpeningRow, Cell>();
	/** By the row of a renamed mark: those of its openings. */
	const followers = new Map<OpeningRow, readonly OpeningRow[]>();
	for (const { row, openings, to } of probablyRenamed(file, before)) {
		const id = `renamed:${row.id}`;
		const said = answers[id];
		const answer = said === 'yes' || said === 'no' ? said : null;
		renames.push({ id, from: nameOf(row.cells), to: nameOf(to.cells), answer });
		if (answer !== 'yes') continue;
		for (const one of [row, ...openings]) newMarks.set(one, to.cells.mark ?? null);
		followers.set(row, openings);
	}
	// Renamed rows are compared under their new marks.
	const standing = new Map<OpeningRow, OpeningRow>();
	const renamed = rows.map((row) => {
		const mark = newMarks.get(row);
		const now = mark === undefined ? row : { id: row.id, cells: { ...row.cells, mark } };
		standing.set(now, row);
		return now;
	});
	const stored = (row: OpeningRow): OpeningRow => standing.get(row) ?? row;
	const matched = match(file, renamed);
	const places = placesOf(file, renamed, matched);
	let unchanged = 0;
	const changes = file.rows.flatMap((line, at): RowChange[] => {
		const where = { line: line.line, part: line.part };
		const now = matched.rowOf.get(line);
		if (!now) {
			const id = `added:${line.line}.${line.part}`;
			return [{ kind: 'added', id, ...where, cells: line.cells, after: places[at] ?? null }];
		}
		const row = stored(now);
		const openings = followers.get(row);
		const from = row.cells.mark ?? null;
		const mark = openings ? [{ field: 'mark' as const, from, to: now.cells.mark ?? null }] : [];
		const cells = [...mark, ...file.differences(line, row)];
		if (cells.length === 0) {
			unchanged++;
			return [];
		}
		return [{ kind: 'changed', id: `changed:${row.id}`, ...where, row, cells, followers: openings ?? [] }];
	});
	const removed = matched.removed.map((gone): RemovedRow => {
		const all = gone.map(stored);
		return { kind: 'removed', id: `removed:${all[0]?.id ?? ''}`, rows: all };
	});
	return { changes: [...changes, ...removed], renames, unchanged };
}

/** The openings of a file, and what it says about each. */
class FileRows {
	readonly rows: readonly ScheduleRow[];
	/** Marks that have a row. */
	readonly marks: ReadonlySet<string>;
	/** Marks of which single openings have a row. */
	readonly numbered: ReadonlySet<string>;
	/** By mark: what its row says, for openings of their own that repeat it. */
	readonly #cellsOf: ReadonlyMap<string, Cells>;
	readonly #columns: ReadonlySet<InputId>;
	/** Inputs the file has a column for, or says something about elsewhere. */
	readonly #fields: readonly InputId[];

	constructor(preview: SchedulePreview) {
		this.rows = preview.rows.filter(({ status }) => status === 'opening');
		this.marks = new Set(this.rows.map(({ cells }) => markOf(cells)));
		this.numbered = new Set(
			this.rows.flatMap(({ cells }) => (numberOf(cells) === null ? [] : [markOf(cells)]))
		);
		this.#cellsOf = new Map(
			this.rows.flatMap(({ cells }) => (numberOf(cells) === null ? [[markOf(cells), cells] as const] : []))
		);
		this.#columns = new Set(
			preview.columns.flatMap(({ field, also }) => [field, also].filter((one) => one !== null))
		);
		const said = new Set(this.rows.flatMap(({ cells }) => Object.keys(cells)));
		this.#fields = compared.filter((id) => this.#columns.has(id) || said.has(id));
	}

	/** Cells that a row of the job has otherwise. A cell that could not be read says nothing. */
	differences({ cells, problems }: ScheduleRow, row: OpeningRow): CellDifference[] {
		const refused = new Set(problems.map(({ field }) => field));
		const ofMark = numberOf(cells) === null ? undefined : this.#cellsOf.get(markOf(cells));
		return this.#fields.flatMap((field) => {
			const [from, to] = [row.cells[field], cells[field]];
			if (sameMeaning(from, to) || refused.has(field)) return [];
			// A blank cell of an opening of its own takes its mark's, which the file may write out.
			if (isBlank(from) && ofMark && sameMeaning(ofMark[field], to)) return [];
			// Nothing is blank on purpose where the file has no column, and a quantity is never blank.
			if (isBlank(to) && (!this.#columns.has(field) || field === 'quantity')) return [];
			return [{ field, from: from ?? null, to: to ?? null }];
		});
	}

	/** Everything but mark and number is the same. */
	alike({ cells, problems }: ScheduleRow, row: OpeningRow): boolean {
		return this.#fields.every(
			(field) =>
				sameMeaning(row.cells[field], cells[field]) || problems.some((problem) => problem.field === field)
		);
	}
}

interface Matched {
	readonly rowOf: ReadonlyMap<ScheduleRow, OpeningRow>;
	/** What the file lacks: single rows, or a mark with the rows of its openings. */
	readonly removed: readonly (readonly OpeningRow[])[];
}

function match(file: FileRows, rows: readonly OpeningRow[]): Matched {
	const waiting = Map.groupBy(rows, ({ cells }) => openingOf(cells));
	const rowOf = new Map<ScheduleRow, OpeningRow>();
	for (const line of file.rows) {
		const alike = waiting.get(openingOf(line.cells)) ?? [];
		// Without a mark only a row that holds the very same can be meant.
		const at = markOf(line.cells) === '' ? alike.findIndex((row) => file.alike(line, row)) : 0;
		const [row] = at < 0 ? [] : alike.splice(at, 1);
		if (row) rowOf.set(line, row);
	}
	const paired = new Set(rowOf.values());
	const left = rows.filter((row) => !paired.has(row) && markOf(row.cells) !== '');
	return { rowOf, removed: removedOf(file, left) };
}

/** A file that gives a mark as a whole says nothing of its single openings. */
function removedOf(file: FileRows, left: readonly OpeningRow[]): (readonly OpeningRow[])[] {
	const isOwn = ({ cells }: OpeningRow): boolean => numberOf(cells) !== null;
	const openings = Map.groupBy(left.filter(isOwn), ({ cells }) => markOf(cells));
	/** The row of each mark that the file does not name at all. */
	const heads = new Map<string, OpeningRow>();
	for (const row of left) {
		const mark = markOf(row.cells);
		if (!isOwn(row) && !file.marks.has(mark) && !heads.has(mark)) heads.set(mark, row);
	}
	return left.flatMap((row) => {
		const mark = markOf(row.cells);
		const head = heads.get(mark);
		if (!isOwn(row)) return [[row, ...(head === row ? (openings.get(mark) ?? []) : [])]];
		const silent = head !== undefined || (file.marks.has(mark) && !file.numbered.has(mark));
		return silent ? [] : [[row]];
	});
}

/** Marks that are gone and new ones with everything else alike, paired in order. */
function probablyRenamed(
	file: FileRows,
	{ rowOf, removed }: Matched
): { row: OpeningRow; openings: readonly OpeningRow[]; to: ScheduleRow }[] {
	const waiting = file.rows.filter(
		(line) =>
			!rowOf.has(line) &&
			numberOf(line.cells) === null &&
			markOf(line.cells) !== '' &&
			!isBlank(line.cells.openingWidth) &&
			!isBlank(line.cells.openingHeight)
	);
	return removed.flatMap(([row, ...openings]) => {
		if (!row || numberOf(row.cells) !== null || file.marks.has(markOf(row.cells))) return [];
		const at = waiting.findIndex((line) => file.alike(line, row));
		const [to] = at < 0 ? [] : waiting.splice(at, 1);
		return to ? [{ row, openings, to }] : [];
	});
}

/**
 * By row of the file: the row of the job that a new one goes after. It follows the openings of the mark that stands
 * before it in the file, else precedes the first one that both have, else goes to the end. Where its own mark and number
 * stand more than once, it follows those, so that they are paired in the same order the next time.
 */
function placesOf(file: FileRows, rows: readonly OpeningRow[], { rowOf }: Matched): (string | null)[] {
	const ends = new Map(rows.map((row) => [markOf(row.cells), row.id]));
	const same = new Map<string, string | null>();
	const first = file.rows.map((line) => rowOf.get(line)).find((row) => row !== undefined);
	const firstAt = first ? rows.indexOf(first) : rows.length;
	let running = rows[firstAt - 1]?.id ?? null;
	return file.rows.map((line) => {
		const opening = openingOf(line.cells);
		const row = rowOf.get(line);
		if (row) running = (markOf(row.cells) === '' ? null : ends.get(markOf(row.cells))) ?? row.id;
		const place = row?.id ?? same.get(opening) ?? running;
		if (markOf(line.cells) !== '') same.set(opening, place);
		return place;
	});
}
