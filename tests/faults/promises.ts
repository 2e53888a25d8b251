/** What must be so whatever went wrong: looked up in the database itself, beside the server. */
import { isDeepStrictEqual } from 'node:util';
import { applyChanges, type SheetRow } from '../../src/lib/changes/apply.ts';
import type { Edit } from '../../src/lib/changes/message.ts';
import type { HistoryEntry } from '../../src/lib/server/storage/history.repository.ts';
import type { JobKey } from '../../src/lib/server/storage/keys.ts';
import { openStorage, type Storage } from '../../src/lib/server/storage/storage.ts';
import type { Person } from './person.ts';

export interface Kept {
	/** Edits that were answered as stored. */
	readonly answered: number;
	/** Of them, those that were sent again before they were. */
	readonly sentAgain: number;
	/** Revisions of the job. */
	readonly revisions: number;
	/** Broken promises, in words. */
	readonly broken: readonly string[];
}

async function historyOf({ history }: Storage, key: JobKey): Promise<HistoryEntry[]> {
	const all: HistoryEntry[] = [];
	for (;;) {
		const more = await history.after(key, all.at(-1)?.revision ?? 0, 500);
		if (more.length === 0) return all;
		all.push(...more);
	}
}

const text = (value: unknown): string => JSON.stringify(value);

/**
 * Every answered edit is there once and whole, none is there that nobody was answered about, and edits, history and rows
 * tell the same. To be asked when everybody has finished.
 */
export async function promisesKept(place: string, key: JobKey, people: readonly Person[]): Promise<Kept> {
	const broken = people.flatMap((person) => person.broken);
	const storage = await openStorage(place);
	try {
		const job = await storage.jobs.find(key);
		const entries = await historyOf(storage, key);
		const edits = await storage.accountsDatabase.db
			.selectFrom('edit')
			.select(['edit_id', 'sequence'])
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.execute();
		const rows = await storage.openings.all(key);

		entries.forEach(({ revision }, i) => {
			if (revision !== i + 1) broken.push(`history: entry ${i + 1} is of revision ${revision}`);
		});
		if (job?.revision !== entries.length)
			broken.push(`the job is at revision ${job?.revision}, its history has ${entries.length} entries`);

		const answered = new Map<string, Edit>(
			people.flatMap(({ stored }) => stored.map((edit) => [edit.id, edit]))
		);
		const byRevision = new Map(entries.map((entry) => [entry.revision, entry]));
		const sequences = new Map(edits.map(({ edit_id, sequence }) => [edit_id, sequence]));
		for (const [id, { changes }] of answered) {
			const entry = byRevision.get(sequences.get(id) ?? -1);
			if (!entry) broken.push(`${id} was answered as stored, and is not there`);
			else if (!isDeepStrictEqual(entry.changes, JSON.parse(text(changes))))
				broken.push(`${id} is there otherwise than it was sent`);
		}
		for (const { edit_id } of edits)
			if (!answered.has(edit_id)) broken.push(`${edit_id} is there, and nobody was answered about it`);
		const madeByEdits = entries.filter(({ kind }) => kind === 'edit').length;
		if (madeByEdits !== edits.length)
			broken.push(`${edits.length} edits have ${madeByEdits} entries in the history`);

		const replayed = replay(entries);
		const stored = rows.map(({ id, cells, removed }) => ({ id, cells, removed }));
		if (typeof replayed === 'string') broken.push(replayed);
		else if (!isDeepStrictEqual(JSON.parse(text(replayed)), stored))
			broken.push('the history, gone through again, gives other rows than are stored');

		const expected = new Map(people.flatMap(({ notes }) => [...notes]));
		for (const { id, cells } of rows)
			if (expected.get(id) !== cells.note) broken.push(`${id} does not hold what was last answered`);
		if (rows.length !== expected.size) broken.push(`${rows.length} rows are there, not ${expected.size}`);
		return {
			answered: answered.size,
			sentAgain: people.reduce((sum, person) => sum + person.sentAgain, 0),
			revisions: entries.length,
			broken
		};
	} finally {
		await storage.close();
	}
}

/** The rows that a history makes from nothing, or why it makes none. */
function replay(entries: readonly HistoryEntry[]): readonly SheetRow[] | string {
	let rows: readonly SheetRow[] = [];
	for (const { revision, kind, changes } of entries) {
		const applied = applyChanges(rows, changes, { reinstate: kind !== 'edit' });
		if (!applied.ok) return `revision ${revision} can't be applied again`;
		({ rows } = applied);
	}
	return rows;
}
