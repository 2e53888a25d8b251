/** A company whose people sign in to a server of the built program. */
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { roleIds, type Role } from '../../src/lib/changes/roles.ts';
import { isPostgresUrl } from '../../src/lib/server/storage/postgres-database.ts';
import { nobody, type Actor } from '../../src/lib/server/identity/actor.ts';
import { acceptInvitation } from '../../src/lib/server/operations/accept-invitation.ts';
import { invite } from '../../src/lib/server/operations/invite.ts';
import { makeAccount } from '../../src/lib/server/operations/make-account.ts';
import { closeServicesOf, openServices, type Services } from '../../src/lib/server/operations/services.ts';
import type { Visit } from '../../src/lib/server/operations/visit.ts';
import { startServer, type RunningServer } from './built-server.ts';
import { value } from './services.ts';

export interface Credentials {
	readonly name: string;
	readonly email: string;
	readonly password: string;
}

export interface Employee extends Credentials {
	/** As operations take the person. */
	readonly actor: Actor;
}

/** Somebody who has signed in. */
export interface Colleague extends Employee {
	readonly id: string;
	readonly roles: readonly Role[];
	/** `Cookie` header. */
	readonly cookie: string;
	/** Asks the first server as a page of theirs would. */
	readonly ask: RunningServer['ask'];
	/** The same with another server of the database. */
	readonly on: (server: RunningServer) => RunningServer['ask'];
}

export interface Office {
	readonly company: string;
	readonly server: RunningServer;
	/** Makes the company; has every role. */
	readonly owner: Colleague;
	/** In the order their roles were named. */
	readonly people: readonly Colleague[];
	/** Another server on the same database, with the same secret. */
	readonly another: (environment?: Record<string, string>) => Promise<RunningServer>;
	/** What servers of this office are started with. */
	readonly environment: Record<string, string>;
}

export const visitOf = (address = '127.0.0.1'): Visit => ({
	address,
	browser: null,
	cookies: null,
	sessionId: null
});

let companies = 0;
const newPassword = (): string => randomBytes(12).toString('base64url');

/** Somebody who joins a company by an invitation. */
export async function employ(
	services: Services,
	owner: Actor,
	who: { readonly name: string; readonly email: string },
	roles: readonly Role[]
): Promise<Employee> {
	const password = newPassword();
	const { path } = value(await invite(owner, services, { ...who, roles }));
	const token = path.slice(path.lastIndexOf('/') + 1);
	const joining = { name: who.name, password };
	value(await acceptInvitation(nobody, services, visitOf(), token, joining));
	const member = (await services.storage.members.list(owner.companyId)).find(
		({ email }) => email === who.email
	);
	if (!member) throw new Error('the person who joined is not there');
	const actor = { id: member.personId, companyId: owner.companyId, name: who.name, roles };
	return { ...who, password, actor };
}

/** A new company with an owner and with people of the given roles, straight into a database. */
export async function foundCompany(
	services: Services,
	people: readonly (Role | readonly Role[])[] = [],
	named?: string
): Promise<{ company: string; owner: Employee; people: Employee[] }> {
	companies++;
	const number = companies === 1 ? '' : ` ${companies}`;
	const company = named ?? `Tern & Gannet Door Co.${number}`;
	// Unlike all others that other processes may make in the same database.
	const domain = `c${randomBytes(4).toString('hex')}.example`;
	const who = { name: 'Orla Owner', email: `orla@${domain}` };
	const password = newPassword();
	value(await makeAccount(services, { company, ...who, password }, null));
	const found = (await services.storage.companies.all()).find(({ name }) => name === company);
	const companyId = found?.id ?? '';
	const [first] = await services.storage.members.list(companyId);
	const actor: Actor = { id: first?.personId ?? '', companyId, name: who.name, roles: roleIds };
	const owner = { ...who, password, actor };
	const employees: Employee[] = [];
	for (const [i, role] of people.entries()) {
		const roles = typeof role === 'string' ? [role] : role;
		const name = `${roles.join(' ')} ${i + 1}`;
		const email = `person-${i + 1}@${domain}`;
		employees.push(await employ(services, actor, { name, email }, roles));
	}
	return { company, owner, people: employees };
}

/** Signs in at a server. @returns the `Cookie` header. */
export async function signIn(server: RunningServer, { email, password }: Credentials): Promise<string> {
	const reply = await server.ask('POST', '/api/sign-in', { email, password });
	if (reply.status !== 200) throw new Error(`not signed in: ${reply.status} ${reply.text}`);
	return (reply.headers['set-cookie'] ?? []).map((cookie) => cookie.split(';')[0] ?? '').join('; ');
}

const asking =
	(server: RunningServer, cookie: string): RunningServer['ask'] =>
	(method, path, body, headers = {}) =>
		server.ask(method, path, body, { cookie, ...headers });

/**
 * A company, its people, and a server they have signed in to.
 * @param place a folder or the URL of a PostgreSQL database, as `openServices` takes it
 * @param roles one entry a person: a role, or several
 */
export async function office(place: string, ...roles: readonly (Role | readonly Role[])[]): Promise<Office> {
	const services = await openServices(place);
	const { company, owner, people } = await foundCompany(services, roles).finally(() =>
		closeServicesOf(services)
	);
	const environment = environmentOn(place);
	const server = await startServer(environment);
	const colleague = async (who: Employee): Promise<Colleague> => {
		const cookie = await signIn(server, who);
		return {
			...who,
			id: who.actor.id,
			roles: who.actor.roles,
			cookie,
			ask: asking(server, cookie),
			on: (other) => asking(other, cookie)
		};
	};
	const colleagues: Colleague[] = [];
	for (const who of people) colleagues.push(await colleague(who));
	return {
		company,
		server,
		owner: await colleague(owner),
		people: colleagues,
		another: (more = {}) => startServer({ ...environment, ...more }),
		environment
	};
}

/** What a server on a place is started with; a secret of its own for a database that others could share. */
export function environmentOn(place: string): Record<string, string> {
	if (!isPostgresUrl(place)) return { COILWRIGHT_DATA: place };
	const folder = mkdtempSync(join(tmpdir(), 'coilwright-office-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	return { COILWRIGHT_DATA: folder, DATABASE_URL: place };
}
