/** What the terminal does for accounts, where nobody has signed in yet. */
import { z } from 'zod';
import { roleIds } from '../../changes/roles.ts';
import { localActor, type Actor } from '../identity/actor.ts';
import { passwordProblem } from '../identity/password-rules.ts';
import { rolesInWords, writeCompanyHistory } from './company-people.ts';
import { bodyProblem } from './job-bodies.ts';
import { loadDemo } from './load-demo.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { email, nameOf, personName, typedPassword } from './people-bodies.ts';
import type { Services } from './services.ts';
import { pinShopBooks } from './shop-books.ts';

const companyName = z
	.string('Say the name of the company.')
	.transform(nameOf)
	.pipe(
		z
			.string()
			.min(1, 'Say the name of the company.')
			.max(200, 'The name of a company has at most 200 characters.')
	);
const account = z.strictObject({ company: companyName, name: personName, email, password: typedPassword });

export interface MadeAccount {
	readonly company: string;
	readonly email: string;
	/** The company took over what somebody did alone in this folder. */
	readonly tookOver: boolean;
}

/**
 * Makes a company and its first person, who may do everything. Where somebody worked alone in the folder, what they did
 * becomes the company's, and the person who worked is this one.
 * @param demo folder of the invented examples to load; null for none
 */
export async function makeAccount(
	services: Services,
	request: unknown,
	demo: string | null
): Promise<Outcome<MadeAccount>> {
	const parsed = account.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const asked = parsed.data;
	const problem = passwordProblem(asked.password, asked.email);
	if (problem !== null) return refuse(422, { message: problem });
	const { storage, accounts } = services;
	const hash = await accounts.hashOf(asked.password);
	const at = services.now();
	const made = await storage.transaction(async (inside): Promise<Outcome<Actor>> => {
		const companies = await inside.companies.all();
		if (companies.some(({ name }) => name === asked.company))
			return refuse(409, {
				message: `There is a company called ${asked.company} already. Its owner invites people on the page People.`
			});
		const people = accounts.inside(inside.accountsDatabase);
		if ((await people.find(asked.email)) !== null)
			return refuse(409, { message: `There is an account with the address ${asked.email} already.` });
		const alone = localActor.companyId;
		const tookOver = !companies.some(({ id }) => id === alone) && (await inside.jobs.list(alone)).length > 0;
		const companyId = tookOver ? alone : services.newId();
		await inside.companies.add({ id: companyId, name: asked.company }, at);
		const id = await people.add(asked, hash, tookOver ? localActor.id : null);
		await inside.members.join(companyId, id, roleIds, at);
		const actor = { id, companyId, name: asked.name, roles: roleIds };
		const record = { record: 'Person', name: asked.name, before: null };
		const records = [
			{ ...record, field: 'E-mail', after: asked.email },
			{ ...record, field: 'Roles', after: rolesInWords(roleIds) }
		];
		const title = `Make the company and the account of ${asked.name}`;
		await writeCompanyHistory(inside, services, actor, { title, records }, at);
		return done(actor);
	});
	if (!made.ok) return made;
	const actor = made.value;
	await pinShopBooks(actor, services);
	if (demo !== null) await loadDemo(actor, services, demo);
	return done({
		company: asked.company,
		email: asked.email,
		tookOver: actor.companyId === localActor.companyId
	});
}

const reset = z.strictObject({ email, password: typedPassword });

/** Gives a person another password and ends all their sessions. */
export async function resetPassword(
	services: Services,
	request: unknown
): Promise<Outcome<{ email: string }>> {
	const parsed = reset.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const asked = parsed.data;
	const problem = passwordProblem(asked.password, asked.email);
	if (problem !== null) return refuse(422, { message: problem });
	const { storage, accounts } = services;
	const personId = await accounts.find(asked.email);
	const member = personId === null ? null : await storage.members.ofPerson(personId);
	if (personId === null || !member || member.left)
		return refuse(404, { message: `There is no account with the address ${asked.email}.` });
	const hash = await accounts.hashOf(asked.password);
	const terminal = { id: '', name: 'At the terminal', companyId: member.companyId };
	return storage.transaction(async (inside): Promise<Outcome<{ email: string }>> => {
		const people = accounts.inside(inside.accountsDatabase);
		await people.setPassword(personId, hash);
		await people.endAllSessions(personId);
		const title = `Give ${asked.email} another password`;
		await writeCompanyHistory(inside, services, terminal, { title, records: [] }, services.now());
		return done({ email: asked.email });
	});
}
