/** What there may be only one of, asked for several times at once: one has it, the others are told so and change nothing. */
import { sql, type Kysely } from 'kysely';
import { describe, expect, it, onTestFinished } from 'vitest';
import { usualView } from '../../src/lib/changes/sheet-view.ts';
import { localActor, nobody } from '../../src/lib/server/identity/actor.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Outcome } from '../../src/lib/server/operations/outcome.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { postgresPool } from '../../src/lib/server/storage/postgres-database.ts';
import { troubleOf } from '../../src/lib/server/storage/trouble.ts';
import { databases, postgres } from './databases.ts';
import { foundCompany, visitOf } from './office.ts';
import { postgresIsThere } from './postgres-cluster.ts';
import { refusal, temporaryServices, value } from './services.ts';

const email = 'ivo@reed.example';
const statuses = (outcomes: readonly Outcome<unknown>[]): number[] =>
	outcomes.map((outcome) => (outcome.ok ? 200 : outcome.status)).sort();
const oneOf = (count: number): number[] => [200, ...Array<number>(count - 1).fill(409)];

async function saved(services: Services, ...names: readonly string[]): Promise<void> {
	for (const name of names) value(await operations.saveView(localActor, services, { name, view: usualView }));
}
const savedNames = async (services: Services): Promise<string[]> =>
	value(await operations.readViews(localActor, services)).map(({ name }) => name);
const rename = (services: Services, from: string, name: string) =>
	operations.renameView(localActor, services, from, { name });

/** The same address, invited by a company more each time. @returns the secrets of the links */
async function invitedBy(services: Services, companies: number): Promise<string[]> {
	const tokens: string[] = [];
	for (let i = 0; i < companies; i++) {
		const { owner } = await foundCompany(services);
		const asked = { name: 'Ivo Reed', email, roles: ['installer'] };
		const { path } = value(await operations.invite(owner.actor, services, asked));
		tokens.push(path.slice(path.lastIndexOf('/') + 1));
	}
	return tokens;
}
const accept = (services: Services, token: string) =>
	operations.acceptInvitation(nobody, services, visitOf(), token, {
		name: 'Ivo Reed',
		password: 'slate gull forty pier'
	});

describe.each(databases)('$name', ({ place }) => {
	it('gives a name to one of eight views, and keeps the others', async () => {
		const services = await temporaryServices(await place());
		const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];
		await saved(services, ...names);
		const outcomes = await Promise.all(names.map((name) => rename(services, name, 'walls')));
		expect(statuses(outcomes)).toEqual(oneOf(8));
		const renamed = names[outcomes.findIndex(({ ok }) => ok)];
		expect(await savedNames(services)).toEqual([...names.filter((name) => name !== renamed), 'walls']);
	});

	it('saves one of eight new views under a name, unless it may take the place of another', async () => {
		const services = await temporaryServices(await place());
		const save = (replace: boolean) =>
			Promise.all(
				Array.from({ length: 8 }, () =>
					operations.saveView(localActor, services, { name: 'walls', view: usualView, replace })
				)
			);
		expect(statuses(await save(false))).toEqual(oneOf(8));
		expect(statuses(await save(true))).toEqual(Array<number>(8).fill(200));
	});

	it('makes one account for an address that several companies invited', async () => {
		const services = await temporaryServices(await place());
		const tokens = await invitedBy(services, 4);
		const outcomes = await Promise.all(tokens.map((token) => accept(services, token)));
		expect(statuses(outcomes)).toEqual(oneOf(4));
		const companies = await services.storage.companies.all();
		const people = await Promise.all(companies.map(({ id }) => services.storage.members.list(id)));
		expect(people.flat().filter((person) => person.email === email)).toHaveLength(1);
	});

	it('tells a second one of a kind from a row that fits nowhere', async () => {
		const services = await temporaryServices(await place());
		await saved(services, 'a');
		const db = services.storage.accountsDatabase.db as unknown as Kysely<never>;
		const thrownBy = (statement: string): Promise<unknown> =>
			sql
				.raw(statement)
				.execute(db)
				.then(
					() => null,
					(thrown: unknown) => thrown
				);
		const twice = await thrownBy('insert into sheet_view select * from sheet_view');
		expect(troubleOf(twice)).toBe('taken');
		const orphan = await thrownBy(
			`insert into member (company_id, person_id, roles, joined_at) values ('none', 'none', '[]', '')`
		);
		expect(orphan).toBeInstanceOf(Error);
		expect(troubleOf(orphan)).toBeNull();
	});
});

describe.runIf(postgresIsThere)('PostgreSQL, while another is about to be stored', () => {
	/** Runs a statement in a transaction that ends when the work waits for it. */
	async function meanwhile<T>(place: string, statement: string, work: () => Promise<T>): Promise<T> {
		const pool = postgresPool(place);
		onTestFinished(() => pool.end());
		const [holder, looker] = [await pool.connect(), await pool.connect()];
		await holder.query('begin');
		await holder.query(statement);
		const outcome = work();
		const waiting = `select 1 from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`;
		const deadline = Date.now() + 60_000;
		while ((await looker.query(waiting)).rows.length === 0) {
			if (Date.now() > deadline) throw new Error('nothing waits');
			await new Promise((resolve) => setTimeout(resolve, 20));
		}
		await holder.query('commit');
		holder.release();
		looker.release();
		return outcome;
	}
	const words = expect.stringMatching(/stored at the same moment.*Nothing was stored of this/u) as string;

	it('a view is not renamed to the same name', async () => {
		const place = await postgres.place();
		const services = await temporaryServices(place);
		await saved(services, 'a', 'b');
		const outcome = await meanwhile(
			place,
			`update sheet_view set name = 'walls', name_key = 'walls' where name = 'a'`,
			() => rename(services, 'b', 'walls')
		);
		expect(refusal(outcome)).toMatchObject({ status: 409, message: words });
		expect(await savedNames(services)).toEqual(['b', 'walls']);
	});

	it('no second account is made for the address', async () => {
		const place = await postgres.place();
		const services = await temporaryServices(place);
		const [token = ''] = await invitedBy(services, 1);
		const outcome = await meanwhile(
			place,
			`insert into person select 'other', 'Ivo Reed', '${email}', true, null, now(), now()`,
			() => accept(services, token)
		);
		expect(refusal(outcome)).toMatchObject({ status: 409, message: words });
		// The invitation was not used up.
		expect(value(await operations.readInvitation(nobody, services, visitOf(), token)).email).toBe(email);
	});
});
