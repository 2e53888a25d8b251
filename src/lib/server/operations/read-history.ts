import { z } from 'zod';
import {
	historyKinds,
	type HistoryAnswer,
	type HistoryLine,
	type HistoryLinesAnswer,
	type HistoryListing
} from '../../changes/history.ts';
import type { OpeningRow } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import type { FoundEntry } from '../storage/history.repository.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import { findJob, keyOf } from './find-job.ts';
import { changesOfRows, linesOf, rowNames } from './history-lines.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Lines of an entry that come with the list. */
const linesListed = 12;
/** Changes written in more characters than this are not read for the list: a large import is megabytes. */
const largestListed = 50_000;
/** Lines of an entry that are read apart, at once. */
const linesRead = 100;

/** Revisions are counted in a column of 32 bits. */
const latest = 2_147_483_647;

const id = z.string().min(1).max(200);
const searchSchema = z.strictObject({
	/** Row id: only what concerns it and the rows of its openings. */
	row: id.optional(),
	before: z.coerce.number().int().min(0).max(latest).optional(),
	most: z.coerce.number().int().min(1).max(100).default(40),
	actor: id.optional(),
	kind: z.enum(historyKinds).optional(),
	until: z.iso.datetime({ offset: true, error: 'A moment is a date and a time in ISO 8601.' }).optional()
});

/**
 * What became of a job, the latest first: who, when, and from what to what.
 * @param search what is looked for, as in the address of a page: texts.
 */
export async function readHistory(
	actor: Actor,
	services: Services,
	jobId: string,
	search: unknown = {}
): Promise<Outcome<HistoryAnswer>> {
	const parsed = searchSchema.safeParse(search);
	if (!parsed.success) return bodyProblem(parsed.error);
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const key = keyOf(actor, jobId);
	const { history } = services.storage;
	const { row, before, most, actor: actorId, kind, until } = parsed.data;
	const subject = row === undefined ? null : await findSubject(services, key, row);
	if (subject && !subject.ok) return subject;
	const rowIds = subject?.value.rowIds ?? null;

	const entries = await history.search(key, {
		before: before ?? null,
		until: until === undefined ? null : new Date(until).toISOString(),
		rowIds,
		actorId: actorId ?? null,
		kind: kind ?? null,
		most,
		// The few lines of one opening are looked for in large entries too.
		largest: rowIds === null ? largestListed : null
	});
	const last = entries.at(-1);
	const concerned = rowIds === null ? entries : entries.filter((entry) => concerns(entry, rowIds));
	return done({
		entries: await listingsOf(services.storage, key, concerned, rowIds),
		earlier: last && entries.length === most && last.revision > 0 ? last.revision : null,
		wholeFrom: found.value.historyFrom,
		row: subject?.value.row ?? null,
		people: await history.people(key)
	});
}

/** All lines of one entry, a page at a time. */
export async function readHistoryLines(
	actor: Actor,
	services: Services,
	jobId: string,
	revision: string,
	search: unknown = {}
): Promise<Outcome<HistoryLinesAnswer>> {
	const parsed = z
		.strictObject({ from: z.coerce.number().int().min(0).default(0), row: id.optional() })
		.safeParse(search);
	if (!parsed.success) return bodyProblem(parsed.error);
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const key = keyOf(actor, jobId);
	const number = /^\d{1,10}$/u.test(revision) ? Number(revision) : latest + 1;
	const entry = number <= latest ? await services.storage.history.find(key, number) : null;
	if (!entry) return refuse(404, { message: 'There is no such change in the history of this job.' });
	const { row, from } = parsed.data;
	const subject = row === undefined ? null : await findSubject(services, key, row);
	if (subject && !subject.ok) return subject;
	const all = changesOfRows(entry.changes, subject?.value.rowIds ?? null);
	const changes = all.slice(from, from + linesRead);
	const names = await rowNames(services.storage, key, changes);
	return done({ lines: linesOf(changes, names), lineCount: all.length });
}

interface Subject {
	readonly row: { readonly id: string; readonly name: string };
	/** The row, and, where it is a mark, the rows of its openings. */
	readonly rowIds: readonly string[];
}

async function findSubject(services: Services, key: JobKey, rowId: string): Promise<Outcome<Subject>> {
	const { openings } = services.storage;
	const [row] = await openings.some(key, [rowId]);
	if (!row) return refuse(404, { message: 'This job has no such opening.' });
	const name = (await rowNames(services.storage, key, [], [rowId])).get(rowId) ?? 'A row that was removed';
	const { mark } = row.cells;
	const isMark = typeof mark === 'string' && typeof row.cells.openingNumber !== 'number';
	const own: readonly OpeningRow[] = isMark ? await openings.ofMarks(key, [mark]) : [];
	return done({ row: { id: rowId, name }, rowIds: [...new Set([rowId, ...own.map((one) => one.id)])] });
}

const concerns = (entry: FoundEntry, rowIds: readonly string[]): boolean =>
	entry.rowIds.some((one) => rowIds.includes(one));

async function listingsOf(
	storage: Repositories,
	key: JobKey,
	entries: readonly FoundEntry[],
	rowIds: readonly string[] | null
): Promise<HistoryListing[]> {
	const listed = entries.map((entry) => ({
		entry,
		changes: entry.changes === null ? null : changesOfRows(entry.changes, rowIds)
	}));
	const shown = listed.flatMap(({ changes }) => changes?.slice(0, linesListed) ?? []);
	// Rows that were removed are called by what the entries listed here say of them, as far as these do.
	const told = listed.flatMap(({ entry }) => entry.changes ?? []);
	const names = await rowNames(storage, key, shown, [], told);
	return listed.map(({ entry, changes }): HistoryListing => {
		const { revision, kind, actorId, actorName, title, madeAt, records } = entry;
		const lines: HistoryLine[] = changes === null ? [] : linesOf(changes.slice(0, linesListed), names);
		return {
			revision,
			kind,
			actorId,
			actorName,
			title,
			madeAt,
			lines,
			lineCount: changes?.length ?? null,
			rowCount: entry.rowIds.length,
			records
		};
	});
}
