/** Takes one company with its people from one database into another. */
import { sql } from 'kysely';
import { migrate, type Database } from '../database.ts';
import { BackupProblem } from './backup-problem.ts';
import { compareStates, refusedByDatabase } from './restore-backup.ts';
import { RowLoader } from './load-rows.ts';
import { Snapshot, TableDigest, takeTime, type Scope, type TableShape, type TableState } from './rows.ts';

/** Finds a company by its id, or by its name where only one is called so. */
async function companyOf(
	{ db }: Snapshot,
	where: string,
	idOrName: string
): Promise<{ id: string; name: string }> {
	const companies = await db.selectFrom('company').select(['company_id', 'name']).orderBy('name').execute();
	const byId = companies.find(({ company_id }) => company_id === idOrName);
	const named = companies.filter(({ name }) => name === idOrName);
	const found = byId ?? (named.length === 1 ? named[0] : undefined);
	if (found) return { id: found.company_id, name: found.name };
	if (named.length > 1)
		throw new BackupProblem(
			`More than one company is called ${idOrName}. Name it by its id: ${named.map(({ company_id }) => company_id).join(', ')}.`
		);
	const known =
		companies.length === 0
			? 'None has accounts yet; coilwright account makes the first one.'
			: `There: ${companies.map(({ company_id, name }) => `${name} (${company_id})`).join(', ')}.`;
	throw new BackupProblem(`The database ${where} has no company ${idOrName}. ${known}`);
}

/** @throws BackupProblem where the company or one of its people is in the other database already. */
async function refuseWhatIsThere(
	source: Snapshot,
	tables: readonly TableShape[],
	target: Database,
	company: { readonly id: string; readonly name: string }
): Promise<void> {
	const scope = { companyId: company.id };
	const inside = Snapshot.inside(target);
	for (const table of tables)
		if (table.company === 'company_id' && (await inside.count(table, scope)) > 0)
			throw new BackupProblem(
				`The database ${target.where} holds something of ${company.name} already (in the table ${table.name}). Nothing was moved.`
			);
	const people = tables.find(({ name }) => name === 'person');
	if (!people) return;
	const [id, email] = [people.columns.indexOf('id'), people.columns.indexOf('email')];
	for await (const row of source.rows(people, scope)) {
		const taken = await target.db
			.selectFrom('person')
			.select('email')
			.where((eb) =>
				eb.or([
					eb('id', '=', String(row[id])),
					eb(sql<string>`lower(email)`, '=', String(row[email]).toLowerCase())
				])
			)
			.executeTakeFirst();
		if (taken)
			throw new BackupProblem(
				`${String(row[email])} has an account in the database ${target.where} already. Nothing was moved.`
			);
	}
}

async function copy(
	source: Snapshot,
	table: TableShape,
	scope: Scope,
	target: Database
): Promise<TableState> {
	const digest = new TableDigest(table.name);
	const loader = new RowLoader(target.db);
	for await (const row of source.rows(table, scope)) digest.add(await loader.add(table, row));
	await loader.flush();
	return digest.state();
}

export interface MovedCompany {
	readonly id: string;
	readonly name: string;
	/** Read alike from both databases. */
	readonly tables: readonly TableState[];
}

/**
 * Everything of a company but who is signed in. The source stays as it is.
 * @throws BackupProblem; then nothing was moved.
 */
export async function moveCompany(
	source: Database,
	idOrName: string,
	target: Database
): Promise<MovedCompany> {
	await migrate(target);
	return Snapshot.read(source, async (snapshot) => {
		const steps = await snapshot.migrations();
		if (steps.join() !== (await Snapshot.inside(target).migrations()).join())
			throw new BackupProblem(
				`The database ${source.where} is of another version. Start Coilwright on it once, which brings it up to date.`
			);
		const company = await companyOf(snapshot, source.where, idOrName);
		const scope = { companyId: company.id };
		const tables = await snapshot.tables();
		try {
			return await target.db.transaction().execute(async (transaction) => {
				const inside: Database = { ...target, db: transaction };
				if (target.type === 'postgres') await takeTime(transaction);
				await refuseWhatIsThere(snapshot, tables, inside, company);
				const moved: TableState[] = [];
				for (const table of tables) moved.push(await copy(snapshot, table, scope, inside));
				compareStates(moved, await Snapshot.inside(inside).states(scope));
				return { ...company, tables: moved };
			});
		} catch (error) {
			throw refusedByDatabase(error);
		}
	});
}
