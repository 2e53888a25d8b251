/** The answer to an edit: the rows as stored, and the figures of every row whose mark was touched. */
import { mostFigures, type EditResult, type Figures } from '../../changes/answer.ts';
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
		figures[opening.row.id] = Object.fromEntries(engine.quantities.map(({ id }) => [id, opening.get(id)]));
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

/** Reads back what was stored and works out the marks concerned. */
export async function editResult(
	inside: Repositories,
	key: JobKey,
	actorId: string,
	job: { readonly revision: number; readonly measures: Measures },
	engine: Engine,
	touched: Touched
): Promise<EditResult> {
	const marks = new Set([...touched.before, ...touched.after].map(markOf).filter((mark) => mark !== ''));
	const changed = touched.after.filter((row) => !row.removed).map(({ id, cells }) => ({ id, cells }));
	const withoutMark = changed.filter((row) => markOf(row) === '');
	const few = changed.length <= mostFigures;
	const concerned = few ? [...(await inside.openings.ofMarks(key, [...marks])), ...withoutMark] : [];
	return {
		revision: job.revision,
		rows: changed,
		order: touched.reordered ? await inside.openings.order(key) : null,
		removed: touched.after.filter((row) => row.removed).map((row) => row.id),
		figures: concerned.length <= mostFigures ? figuresOf(engine, concerned, job.measures) : {},
		...(await inside.edits.titles(key, actorId))
	};
}
