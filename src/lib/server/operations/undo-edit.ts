import type { EditResult } from '../../changes/answer.ts';
import { applyChanges } from '../../changes/apply.ts';
import type { Actor } from '../identity/actor.ts';
import { notApplied, rowsFor, storeRows } from './apply-edit.ts';
import { reread, touchedRows, workedOut, type Reread } from './edit-result.ts';
import { findJob, keyOf, noSuchJob } from './find-job.ts';
import { nameConflicts } from './name-conflicts.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { tellOthers, writeHistory } from './write-history.ts';

/** Undoes the person's own last edit of a job that is not undone yet. */
export const undoEdit = (actor: Actor, services: Services, jobId: string): Promise<Outcome<EditResult>> =>
	moveOnStack(actor, services, jobId, 'undo');

/** Does again what the person undid last. */
export const redoEdit = (actor: Actor, services: Services, jobId: string): Promise<Outcome<EditResult>> =>
	moveOnStack(actor, services, jobId, 'redo');

async function moveOnStack(
	actor: Actor,
	services: Services,
	jobId: string,
	way: 'undo' | 'redo'
): Promise<Outcome<EditResult>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { measures, technicalDigest } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const key = keyOf(actor, jobId);
	const at = services.now();
	const outcome = await services.storage.transaction(async (inside): Promise<Outcome<Reread>> => {
		const revision = await inside.jobs.nextRevision(key, at);
		if (revision === null) return noSuchJob;
		const edit = await inside.edits.next(key, actor.id, way);
		if (!edit) return refuse(409, { message: `There is nothing to ${way}.`, conflicts: [] });
		const changes = way === 'undo' ? edit.inverse : edit.changes;
		const before = await rowsFor(inside, key, changes);
		const applied = applyChanges(before, changes, { reinstate: true });
		if (!applied.ok) return notApplied(applied);
		const ids = new Set([...applied.touched, ...applied.removed]);
		await storeRows(inside, key, applied, ids);
		await inside.edits.mark(key, edit.id, way === 'undo' ? 'undone' : 'done');
		const { title } = edit;
		const { inverse } = applied;
		await writeHistory(
			inside,
			key,
			actor,
			{ revision, kind: way, title, changes, inverse, rowIds: [...ids] },
			at
		);
		const touched = touchedRows(before, applied.rows, ids, applied.reordered);
		const titles = await inside.edits.titles(key, actor.id);
		return done(await reread(inside, key, revision, touched, titles));
	}, key);
	if (!outcome.ok) return nameConflicts(services, key, outcome);
	tellOthers(services, key, outcome.value.result.revision);
	return done(workedOut(engine, measures, outcome.value));
}
