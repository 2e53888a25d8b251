import type { UndoState } from '../../changes/answer.ts';
import type { SheetView } from '../../changes/sheet-view.ts';
import type { OpeningRow } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** The rows of a job in order, what the person can undo and do again, and how they last left the sheet. */
export async function readOpenings(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ revision: number; rows: OpeningRow[]; lastView: SheetView | null } & UndoState>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const key = keyOf(actor, jobId);
	const { openings, edits, views } = services.storage;
	return done({
		/** The rows are of this revision or of a later one. */
		revision: found.value.revision,
		rows: await openings.live(key),
		lastView: await views.last(key, actor.id),
		...(await edits.titles(key, actor.id))
	});
}
