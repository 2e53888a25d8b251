import type { EditResult } from '../../changes/answer.ts';
import { applyChanges, type Applied, type NotApplied, type SheetRow } from '../../changes/apply.ts';
import { editSchema, type Change, type Edit } from '../../changes/message.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import type { Cell, InputId } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import type { EditRecord } from '../storage/edit.repository.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import { cellProblem } from './check-cell.ts';
import { reread, touchedRows, workedOut, type Reread } from './edit-result.ts';
import { findJob, keyOf, noSuchJob } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { nameConflicts } from './name-conflicts.ts';
import { done, refuse, type Outcome, type Refused } from './outcome.ts';
import type { Services } from './services.ts';
import { tellOthers, writeHistory } from './write-history.ts';

/** More rows than this are not one job; a takeoff of all of them still takes only seconds. */
const mostRows = 20_000;
/** Openings of all marks together: each has its own list of parts. */
const mostOpenings = 20_000;

const count = (value: number): string => value.toLocaleString('en-US');

/** Applies an edit that arrives as a message. A message that arrives twice is applied once and answered twice. */
export async function applyEdit(
	actor: Actor,
	services: Services,
	jobId: string,
	message: unknown
): Promise<Outcome<EditResult>> {
	const parsed = editSchema.safeParse(message);
	if (!parsed.success) return bodyProblem(parsed.error);
	return storeEdit(actor, services, jobId, parsed.data, { duplicateMarks: 'refused' });
}

/**
 * Checks an edit and stores it with what undoes it, in one transaction; or nothing of it.
 * @param duplicateMarks refused where a person typed them, kept (with a stop on the row) where a person asked for it.
 */
export async function storeEdit(
	actor: Actor,
	services: Services,
	jobId: string,
	edit: Edit,
	{ duplicateMarks }: { readonly duplicateMarks: 'refused' | 'kept' }
): Promise<Outcome<EditResult>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { measures, technicalDigest } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const wrong = wrongCell(engine.book, edit.changes);
	if (wrong) return wrong;
	const key = keyOf(actor, jobId);
	const at = services.now();

	type Stored =
		{ ok: true; reread: Reread } | { ok: false; refused: Refused } | { ok: false; earlier: EditRecord };
	const stored = await services.storage.transaction(async (inside): Promise<Stored> => {
		const revision = await inside.jobs.nextRevision(key, at);
		if (revision === null) return { ok: false, refused: noSuchJob };
		const earlier = await inside.edits.find(key, edit.id);
		if (earlier) return { ok: false, earlier };

		const before = await rowsFor(inside, key, edit.changes);
		const applied = applyChanges(before, edit.changes, { reinstate: false });
		if (!applied.ok) return { ok: false, refused: notApplied(applied) };
		const tooManyRows = applied.reordered ? rowsProblem(applied.rows) : null;
		if (tooManyRows) return { ok: false, refused: tooManyRows };
		const ids = new Set([...applied.touched, ...applied.removed]);
		await storeRows(inside, key, applied, ids);
		const tooManyOpenings = countsChange(edit.changes) ? await openingsProblem(inside, key) : null;
		if (tooManyOpenings) return { ok: false, refused: tooManyOpenings };
		if (duplicateMarks === 'refused') {
			const duplicate = await duplicateMark(inside, key, edit.changes, applied.rows);
			if (duplicate) return { ok: false, refused: duplicate };
		}
		const { id, title, changes } = edit;
		const { inverse } = applied;
		await writeHistory(
			inside,
			key,
			actor,
			{ revision, kind: 'edit', title, changes, inverse, rowIds: [...ids] },
			at
		);
		await inside.edits.add(key, id, actor.id, revision);
		const touched = touchedRows(before, applied.rows, ids, applied.reordered);
		// What this person had undone can't be done again now.
		const titles = { undo: title, redo: null };
		return { ok: true, reread: await reread(inside, key, revision, touched, titles) };
	}, key);
	if (stored.ok) {
		tellOthers(services, key, stored.reread.result.revision);
		return done(workedOut(engine, measures, stored.reread));
	}
	if ('refused' in stored) return nameConflicts(services, key, stored.refused);
	const { earlier } = stored;
	const same =
		earlier.actorId === actor.id &&
		earlier.title === edit.title &&
		JSON.stringify(earlier.changes) === JSON.stringify(edit.changes);
	if (!same) return refuse(422, { message: 'The id of this edit belongs to another edit.' });
	return answerAgain(actor, services, key, earlier);
}

/** The answer to an edit of this person that was applied before under this id, or null. */
export async function repeatedAnswer(
	actor: Actor,
	services: Services,
	jobId: string,
	editId: string
): Promise<Outcome<EditResult> | null> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const key = keyOf(actor, jobId);
	const earlier = await services.storage.edits.find(key, editId);
	return earlier?.actorId === actor.id ? answerAgain(actor, services, key, earlier) : null;
}

/** The answer to a message that was applied before: its rows as they are now. */
async function answerAgain(
	actor: Actor,
	services: Services,
	key: JobKey,
	earlier: EditRecord
): Promise<Outcome<EditResult>> {
	const { storage, engines } = services;
	const job = await storage.jobs.find(key);
	if (!job) return noSuchJob;
	const engine = await engines.engine(actor.companyId, job.technicalDigest);
	const rows = await storage.openings.some(key, earlier.rowIds);
	const reordered = earlier.changes.some((change) => change.kind !== 'setCell');
	const touched = { before: rows, after: rows, reordered };
	const titles = await storage.edits.titles(key, actor.id);
	return done(workedOut(engine, job.measures, await reread(storage, key, job.revision, touched, titles)));
}

/** The rows that changes are applied to: all where the order counts, else only those that are named. */
export async function rowsFor(
	inside: Repositories,
	key: JobKey,
	changes: readonly Change[]
): Promise<SheetRow[]> {
	if (changes.some((change) => change.kind !== 'setCell')) return inside.openings.all(key);
	return inside.openings.some(key, [...new Set(changes.map((change) => change.row))]);
}

export async function storeRows(
	inside: Repositories,
	key: JobKey,
	{ rows, moved, reordered }: Applied,
	ids: ReadonlySet<string>
): Promise<void> {
	if (reordered) await inside.openings.arrange(key, rows, ids, new Set(moved));
	else
		await inside.openings.change(
			key,
			rows.filter((row) => ids.has(row.id))
		);
}

export function notApplied(result: NotApplied): Refused {
	if (result.conflicts === null) return refuse(422, { message: result.message, row: result.row });
	const { conflicts } = result;
	const cells = conflicts.length === 1 ? 'A cell was' : `${count(conflicts.length)} cells were`;
	return refuse(409, {
		message: `${cells} changed by someone else meanwhile. Nothing was stored.`,
		conflicts
	});
}

function wrongCell(book: TechnicalBook, changes: readonly Change[]): Refused | null {
	for (const change of changes) {
		const cells: [string, Cell][] =
			change.kind === 'setCell'
				? [[change.field, change.after]]
				: change.kind === 'addRow'
					? Object.entries(change.cells)
					: [];
		for (const [field, cell] of cells) {
			const message = cellProblem(book, field as InputId, cell);
			if (message !== null) return refuse(422, { message, row: change.row, field });
		}
	}
	return null;
}

function rowsProblem(all: readonly SheetRow[]): Refused | null {
	const rows = all.filter((row) => !row.removed).length;
	if (rows <= mostRows) return null;
	return refuse(422, {
		message: `A job holds at most ${count(mostRows)} rows; this would make ${count(rows)}.`
	});
}

/** Whether the job may hold more openings afterwards. */
const countsChange = (changes: readonly Change[]): boolean =>
	changes.some(
		(change) => change.kind !== 'setCell' || change.field === 'quantity' || change.field === 'openingNumber'
	);

async function openingsProblem(inside: Repositories, key: JobKey): Promise<Refused | null> {
	const openings = await inside.openings.countOpenings(key);
	if (openings <= mostOpenings) return null;
	return refuse(422, {
		message: `A job holds at most ${count(mostOpenings)} openings; this would make ${count(openings)}.`,
		field: 'quantity'
	});
}

/** A row that was given the mark and number of another one. */
async function duplicateMark(
	inside: Repositories,
	key: JobKey,
	changes: readonly Change[],
	rows: readonly SheetRow[]
): Promise<Refused | null> {
	const named = new Set(
		changes.flatMap((change) => {
			if (change.kind === 'addRow') return [change.row];
			return change.kind === 'setCell' && (change.field === 'mark' || change.field === 'openingNumber')
				? [change.row]
				: [];
		})
	);
	const openingOf = ({ cells }: { readonly cells: SheetRow['cells'] }): string | null =>
		typeof cells.mark !== 'string'
			? null
			: typeof cells.openingNumber === 'number'
				? `${cells.mark}.${cells.openingNumber}`
				: cells.mark;
	const candidates = rows.filter((row) => named.has(row.id) && !row.removed && openingOf(row) !== null);
	if (candidates.length === 0) return null;
	const marks = [
		...new Set(candidates.flatMap(({ cells: { mark } }) => (typeof mark === 'string' ? [mark] : [])))
	];
	const holders = new Map<string, number>();
	for (const row of await inside.openings.ofMarks(key, marks)) {
		const opening = `${typeof row.cells.openingNumber} ${openingOf(row) ?? ''}`;
		holders.set(opening, (holders.get(opening) ?? 0) + 1);
	}
	// The one that came last: where an edit brings two, the first stands.
	for (const row of candidates.reverse()) {
		const opening = openingOf(row) ?? '';
		if ((holders.get(`${typeof row.cells.openingNumber} ${opening}`) ?? 0) > 1)
			return refuse(422, {
				message: `${opening} stands in another row already. Give each mark one row, or number its openings.`,
				row: row.id,
				field: typeof row.cells.openingNumber === 'number' ? 'openingNumber' : 'mark'
			});
	}
	return null;
}
