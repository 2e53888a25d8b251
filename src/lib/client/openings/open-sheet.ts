/** Loaded after the first paint: the engine, and with it the sheet of a job. */
import type { JobHeading, UndoState } from '../../changes/answer.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { buildEngine } from '../../takeoff/engine.ts';
import type { OpeningRow } from '../../takeoff/inputs.ts';
import { JobSheet } from '../job-sheet.svelte.ts';
import type { Notices } from '../notices.svelte.ts';
import type { Outbox } from '../outbox.svelte.ts';

/** @throws Error naming what is wrong with the rules of the job's shop book. */
export function openSheet(
	job: JobHeading,
	book: TechnicalBook,
	rows: readonly OpeningRow[],
	revision: number,
	undo: UndoState,
	outbox: Outbox,
	notices: Notices
): JobSheet {
	const built = buildEngine(book);
	if (!built.ok) throw new Error(built.problems.map(({ rule, problem }) => `${rule}: ${problem}.`).join(' '));
	return new JobSheet(job.id, built.engine, job.measures, outbox, notices, rows, revision, undo);
}
