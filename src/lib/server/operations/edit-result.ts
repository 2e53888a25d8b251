/** The answer to an edit: the rows as stored, and the figures of every row whose mark was touched. */
import { mostFigures, type EditResult, type Figures, type UndoState } from '../../changes/answer.ts';
import type { SheetRow } from '../../changes/apply.ts';
import type { Engine } from '../../takeoff/engine.ts';
import type { Measures, OpeningRow } from '../../takeoff/inputs.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';

const markOf = (row: { readonly cells: OpeningRow['cells'] }): string =>
	typeof row.cells.mark === 'string' ? row.cells.mark : '';

function figuresOf(engine: Engine, rows: readonly OpeningRow[], measures: Measures): Record<string, Figures> {
	const figures: Record<string, Figures> = {};
	for (const opening of engine.takeoff(rows, measures).openings)
		figures[opening.row.id] = engine.quantities.map(({ id }) => opening.get(id));
	return figures;
}

export interface Touched {
	/** Before and after: every mark that a changed row has or had. */
	readonly before: readonly SheetRow[];
	readonly after: readonly SheetRow[];
	readonly reordered: boolean;
}

/** The rows before and after that belong to these ids. */
export function touchedRows(
	before: readonly SheetRow[],
	after: readonly SheetRow[],
	ids: ReadonlySet<string>,
	reordered: boolean
): Touched {
	const concerned = (rows: readonly SheetRow[]): SheetRow[] => rows.filter((row) => ids.has(row.id));
	return { before: concerned(before), after: concerned(after), reordered };
}

/** What was stored, and the rows that are to be worked out from it. */
export interface Reread {
	readonly result: Omit<EditResult, 'figures'>;
	readonly concerned: readonly OpeningRow[];
}

/** Reads back what was stored: inside its transaction, so that it is of that revision and of no later one. */
export async function reread(
	inside: Repositories,
	key: JobKey,
	revision: number,
	{ before, after, reordered }: Touched,
	titles: UndoState
): Promise<Reread> {
	const marks = new Set([...before, ...after].map(markOf).filter((mark) => mark !== ''));
	const changed = after.filter((row) => !row.removed).map(({ id, cells }) => ({ id, cells }));
	const withoutMark = changed.filter((row) => markOf(row) === '');
	const few = changed.length <= mostFigures;
	const concerned = few ? [...(await inside.openings.ofMarks(key, [...marks])), ...withoutMark] : [];
	const { undo, redo } = titles;
	return {
		result: {
			revision,
			rows: changed,
			order: reordered ? await inside.openings.order(key) : null,
			removed: after.filter((row) => row.removed).map((row) => row.id),
			undo,
			redo
		},
		concerned: concerned.length <= mostFigures ? concerned : []
	};
}

/** Works out the marks concerned: after the transaction, so that nobody waits for it. */
export const workedOut = (engine: Engine, measures: Measures, { result, concerned }: Reread): EditResult => ({
	...result,
	figures: figuresOf(engine, concerned, measures)
});
