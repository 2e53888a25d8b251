/** What became of a job since a revision, for the pages that show it. No price is in it, for anybody. */
import type { JobNews } from '../../changes/live.ts';
import type { TooMuch } from '../live/job-room.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Storage } from '../storage/storage.ts';

/** A page that is further behind loads again what it shows. */
const mostEntries = 200;
const mostRows = 2000;

/**
 * Rows are read after the history that names them: they are of the revision told or of a later one, which is then told
 * next, with the same rows again.
 * @returns null where there is no such job.
 */
export async function readNews(
	{ jobs, history, openings }: Storage,
	key: JobKey,
	after: number
): Promise<JobNews | TooMuch | null> {
	const known = await jobs.find(key);
	if (!known) return null;
	const entries = known.revision > after ? await history.after(key, after, mostEntries + 1) : [];
	const revision = Math.max(known.revision, entries.at(-1)?.revision ?? 0);
	const rowIds = [...new Set(entries.flatMap((entry) => entry.rowIds))];
	// Of revisions from before there was a history nothing can be told.
	const isTold = entries.length === Math.max(0, revision - after);
	if (!isTold || entries.length > mostEntries || rowIds.length > mostRows) return { tooMuch: true, revision };
	const rows = await openings.some(key, rowIds);
	const there = new Set(rows.filter(({ removed }) => !removed).map(({ id }) => id));
	const reordered = entries.some(({ changes }) => changes.some(({ kind }) => kind !== 'setCell'));
	const itself = entries.some(({ records }) => records.some(({ record }) => record === 'Job'));
	const job = itself ? await jobs.find(key) : null;
	return {
		after,
		revision,
		rows: rows.filter(({ id }) => there.has(id)).map(({ id, cells }) => ({ id, cells })),
		order: reordered ? await openings.order(key) : null,
		removed: rowIds.filter((id) => !there.has(id)),
		job: job && { name: job.name, measures: job.measures, deleted: job.deleted },
		by: entries.map(({ revision: made, actorId, actorName, kind, title }) => ({
			revision: made,
			personId: actorId,
			name: actorName,
			kind,
			title
		}))
	};
}
