/** Puts what a backup holds into an empty database: all of it, or nothing. */
import { migrate, type Database } from '../database.ts';
import { migrations } from '../migrations/all.ts';
import { troubleOf } from '../trouble.ts';
import { readHead, readRows, type BackupHead } from './backup-file.ts';
import { BackupProblem } from './backup-problem.ts';
import { backupTables } from './backup-tables.ts';
import { RowLoader } from './load-rows.ts';
import { lineOf, Snapshot, TableDigest, takeTime, type TableState } from './rows.ts';

function stepOf({ program, migrations: steps, tables }: BackupHead): string {
	const unknown = steps.find((step) => !Object.hasOwn(migrations, step));
	const foreign = tables.find(({ name }) => !backupTables.some((table) => table.name === name));
	if (unknown !== undefined || foreign)
		throw new BackupProblem(
			`Coilwright ${program} wrote it, which is newer than this one; take that version.`
		);
	return [...steps].sort().at(-1) ?? '';
}

/** A backup that was read through, and is whole. */
export interface CheckedBackup {
	readonly file: string;
	/** The last step of the tables it holds. */
	readonly step: string;
	readonly tables: readonly TableState[];
}

/**
 * Reads it through, so that a damaged file is refused before anything is done.
 * @throws BackupProblem
 */
export async function checkBackup(file: string): Promise<CheckedBackup> {
	const head = await readHead(file);
	const step = stepOf(head);
	const digests = new Map(head.tables.map(({ name }) => [name, new TableDigest(name)]));
	for await (const { table, row } of readRows(file)) digests.get(table.name)?.add(lineOf(row));
	return { file, step, tables: [...digests.values()].map((digest) => digest.state()) };
}

async function load(inside: Database, file: string): Promise<void> {
	const shapes = new Map((await Snapshot.inside(inside).tables()).map((shape) => [shape.name, shape]));
	const loader = new RowLoader(inside.db);
	for await (const { table, row, line } of readRows(file)) {
		const columns = shapes.get(table.name)?.columns ?? [];
		const unknown = table.columns.find((column) => !columns.includes(column));
		if (unknown !== undefined)
			throw new BackupProblem(`Line ${line}: the table ${table.name} has no column ${unknown}.`);
		await loader.add(table, row);
	}
	await loader.flush();
}

/** @throws BackupProblem where tables differ in what they hold. */
export function compareStates(expected: readonly TableState[], found: readonly TableState[]): void {
	for (const { name, rows, sha256 } of expected) {
		const other = found.find((state) => state.name === name);
		if (other?.rows !== rows || other.sha256 !== sha256)
			throw new BackupProblem(
				`The table ${name} reads back otherwise than it was written (${other?.rows ?? 0} of ${rows} rows). Nothing was kept.`
			);
	}
}

/** A database that refuses rows has a reason in them, unless it is in trouble itself. */
export function refusedByDatabase(error: unknown): unknown {
	if (error instanceof BackupProblem) return error;
	const trouble = troubleOf(error);
	if (trouble === 'unstorable')
		return new BackupProblem('A text in it has a sign that no database can keep. Nothing was kept.');
	if (trouble !== null && trouble !== 'taken') return error;
	const { code, errcode } = error as { readonly code?: unknown; readonly errcode?: unknown };
	const constraint =
		code === 'ERR_SQLITE_ERROR' && typeof errcode === 'number' && [19, 20, 1].includes(errcode & 0xff);
	if (constraint || (typeof code === 'string' && /^(22|23|42)/u.test(code)))
		return new BackupProblem('What it holds does not fit together. Nothing was kept.', { cause: error });
	return error;
}

/**
 * @param database where nothing may be yet
 * @throws BackupProblem; then nothing is there either.
 */
export async function restoreBackup(
	database: Database,
	{ file, step, tables }: CheckedBackup
): Promise<void> {
	const { db } = database;
	if ((await db.introspection.getTables()).length > 0)
		throw new BackupProblem(
			`The database ${database.where} has tables already. A backup is restored into an empty one only.`
		);
	try {
		await db.transaction().execute(async (transaction) => {
			const inside: Database = { ...database, db: transaction };
			if (database.type === 'postgres') await takeTime(transaction);
			await migrate(inside, step);
			await load(inside, file);
			compareStates(tables, await Snapshot.inside(inside).states('everything'));
			await migrate(inside);
		});
	} catch (error) {
		throw refusedByDatabase(error);
	}
}
