/** People of a company, from the first account to the last owner, at the operations. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { localActor, nobody } from '../../src/lib/server/identity/actor.ts';
import { makeAccount, resetPassword } from '../../src/lib/server/operations/make-account.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Outcome } from '../../src/lib/server/operations/outcome.ts';
import { openServices, type Services } from '../../src/lib/server/operations/services.ts';
import { databases, type TestDatabase } from './databases.ts';
import { employ, foundCompany, visitOf, type Employee } from './office.ts';
import { refusal, value } from './services.ts';

const minute = 60_000;
const day = 24 * 60 * minute;
const fresh = 'slate gull forty pier';

/** Services whose clock a test can set. */
async function clockedServices(place: string): Promise<Services & { at: Date }> {
	const services = await openServices(place);
	onTestFinished(() => services.storage.close());
	return Object.assign(services, {
		at: new Date(),
		now(this: { at: Date }) {
			// It goes on, so that what happens one after the other can be told apart.
			this.at = new Date(this.at.getTime() + 1);
			return this.at;
		}
	});
}

const tokenOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

const invite = async (services: Services, owner: Employee, email: string, roles = ['installer']) => {
	const invited = value(await operations.invite(owner.actor, services, { name: 'Ivo Reed', email, roles }));
	return { id: invited.invitation.id, token: tokenOf(invited.path) };
};
const accept = (services: Services, token: string, password = fresh) =>
	operations.acceptInvitation(nobody, services, visitOf(), token, { name: 'Ivo Reed', password });
const signIn = (services: Services, email: string, password: string, address?: string) =>
	operations.signIn(nobody, services, visitOf(address), { email, password });
/** Outcomes of operations that answer different things. */
const refusals = (...outcomes: readonly Outcome<unknown>[]) => outcomes.map((outcome) => refusal(outcome));
const cookieOf = (outcome: Outcome<{ readonly cookies: readonly string[] }>): string =>
	value(outcome).cookies[0]?.split(';')[0] ?? '';
const recognised = async (services: Services, cookie: string) =>
	value(await operations.recognise(nobody, { ...services, access: 'accounts' }, cookie));

describe.each(databases)('$name', (database: TestDatabase) => {
	const founded = async (...roles: Parameters<typeof foundCompany>[1] & object) => {
		const services = await clockedServices(await database.place());
		return { services, ...(await foundCompany(services, roles)) };
	};

	describe('the first account', () => {
		const first = {
			company: 'Tern & Gannet Door Co.',
			name: 'Wren Holt',
			email: 'Wren@TernGannet.example',
			password: fresh
		};

		it('takes over what somebody did alone, and is that person', async () => {
			const services = await clockedServices(await database.place());
			const { id } = value(
				await operations.createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
			);
			const made = value(await makeAccount(services, first, null));
			expect(made).toEqual({ company: first.company, email: 'wren@terngannet.example', tookOver: true });
			const { actor } = await recognised(services, cookieOf(await signIn(services, first.email, fresh)));
			expect(actor).toEqual({
				id: 'local',
				companyId: 'local',
				name: 'Wren Holt',
				roles: ['owner', 'estimator', 'purchasing', 'installer']
			});
			const { jobs } = value(await operations.listJobs(actor, services));
			expect(jobs.map((job) => job.id)).toEqual([id]);
		});

		it('is a company of its own in an empty database, with the examples when they are asked for', async () => {
			const services = await clockedServices(await database.place());
			const demo = join('fixtures', 'schedules');
			expect(value(await makeAccount(services, first, demo)).tookOver).toBe(false);
			const [company] = await services.storage.companies.all();
			expect(company?.id).toMatch(/^[0-9a-f-]{36}$/u);
			const jobs = await services.storage.jobs.list(company?.id ?? '');
			expect(jobs.map(({ name }) => name).sort()).toEqual([
				'Kelpgate Ferry Terminal',
				'Saltmarsh Pier Market Hall'
			]);
		});

		it('is refused where it is there, and with a password that is none', async () => {
			const services = await clockedServices(await database.place());
			value(await makeAccount(services, first, null));
			expect(
				refusal(await makeAccount(services, { ...first, email: 'other@terngannet.example' }, null)).message
			).toMatch(/^There is a company called Tern & Gannet Door Co\. already/u);
			expect(refusal(await makeAccount(services, { ...first, company: 'Other Co.' }, null)).message).toBe(
				'There is an account with the address wren@terngannet.example already.'
			);
			for (const [change, words] of [
				[{ password: 'short' }, /at least 12 characters/u],
				[{ password: '' }, /^Say the password\.$/u],
				[{ company: ' \n' }, /^Say the name of the company\.$/u],
				[{ name: undefined }, /^Say the name\.$/u],
				// Nothing of it can be seen.
				[{ name: '\u200B\u2060' }, /^Say the name\.$/u],
				[{ company: '\u202E\u00AD' }, /^Say the name of the company\.$/u],
				[{ email: 'wren' }, /^This is not an e-mail address\.$/u]
			] as const)
				expect(
					refusal(await makeAccount(services, { ...first, company: 'New Co.', ...change }, null)).message
				).toMatch(words);
			expect(await services.storage.companies.all()).toHaveLength(1);
		});

		it('has names as they are written, but nothing that turns what stands beside them', async () => {
			const services = await clockedServices(await database.place());
			const turned = { ...first, company: '\u202EQuay  &\tSons 港', name: `Zoë O’Gull “Zed” <b>\u2066🧜‍♀️` };
			value(await makeAccount(services, turned, null));
			const [company] = await services.storage.companies.all();
			expect(company?.name).toBe('Quay & Sons 港');
			const [member] = await services.storage.members.list(company?.id ?? '');
			expect(member?.name).toBe('Zoë O’Gull “Zed” <b> 🧜‍♀️');
		});
	});

	describe('an invitation', () => {
		it('makes an account, once', async () => {
			const { services, owner, company } = await founded();
			const { token, id } = await invite(services, owner, 'Ivo@reed.example', [
				'installer',
				'purchasing',
				'installer'
			]);
			expect(value(await operations.readInvitation(nobody, services, visitOf(), token))).toEqual({
				company,
				name: 'Ivo Reed',
				email: 'ivo@reed.example',
				roles: ['purchasing', 'installer']
			});
			const { actor, person } = await recognised(services, cookieOf(await accept(services, token)));
			expect([actor.name, actor.companyId, actor.roles]).toEqual([
				'Ivo Reed',
				owner.actor.companyId,
				['purchasing', 'installer']
			]);
			expect(person?.company).toContain('Tern & Gannet');
			const used = refusal(await accept(services, token));
			expect(used.status).toBe(409);
			expect(used.message).toMatch(/used already/u);
			const withdrawn = refusal(await operations.withdrawInvitation(owner.actor, services, id));
			expect(withdrawn).toMatchObject({
				status: 409,
				message: 'This invitation was used or withdrawn before.'
			});
			const people = value(await operations.readPeople(owner.actor, services));
			expect(people.people.map(({ name, you, leftAt }) => [name, you, leftAt])).toEqual([
				['Orla Owner', true, null],
				['Ivo Reed', false, null]
			]);
			expect(people.invitations.map(({ state }) => state)).toEqual(['accepted']);
			expect(people.history.map(({ title }) => title)).toEqual(
				expect.arrayContaining([
					'Invite Ivo Reed as Purchasing, Installer',
					'Ivo Reed joins as Purchasing, Installer'
				])
			);
		});

		it('is accepted by one of two who try at once', async () => {
			const { services, owner } = await founded();
			const { token } = await invite(services, owner, 'ivo@reed.example');
			const both = await Promise.all([accept(services, token), accept(services, token, `${fresh} 2`)]);
			expect(both.filter(({ ok }) => ok)).toHaveLength(1);
		});

		it('opens nothing when it is old, withdrawn, replaced or tampered with', async () => {
			const { services, owner } = await founded();
			const old = await invite(services, owner, 'old@reed.example');
			services.at = new Date(services.at.getTime() + 7 * day);
			expect(refusal(await accept(services, old.token)).message).toMatch(/older than seven days/u);
			const withdrawn = await invite(services, owner, 'ivo@reed.example');
			value(await operations.withdrawInvitation(owner.actor, services, withdrawn.id));
			expect(refusal(await accept(services, withdrawn.token)).message).toMatch(/was withdrawn/u);
			expect(refusal(await operations.withdrawInvitation(owner.actor, services, withdrawn.id)).status).toBe(
				409
			);
			const replaced = await invite(services, owner, 'ivo@reed.example');
			const { token } = await invite(services, owner, 'ivo@reed.example');
			expect(refusal(await accept(services, replaced.token)).message).toMatch(/was withdrawn/u);
			const changed = `${token.slice(0, -1)}${token.endsWith('A') ? 'B' : 'A'}`;
			for (const wrong of [changed, token.toLowerCase(), '', `${token}x`])
				expect(refusal(await accept(services, wrong)).status).toBe(404);
			value(await accept(services, token));
		});

		it('keeps only a digest of its secret', async () => {
			const { services, owner } = await founded();
			const { token } = await invite(services, owner, 'ivo@reed.example');
			expect(Buffer.from(token, 'base64url')).toHaveLength(32);
			const { db } = services.storage.accountsDatabase;
			const [stored] = await db.selectFrom('invitation').selectAll().execute();
			expect(stored?.token_digest).toBe(createHash('sha256').update(token).digest('hex'));
			expect(JSON.stringify(stored)).not.toContain(token);
		});

		it('does not take an address that has an account, here or elsewhere', async () => {
			const { services, owner, people } = await founded('estimator');
			const elsewhere = await foundCompany(services);
			const [estimator] = people;
			const again = { name: 'X', email: estimator?.email.toUpperCase(), roles: ['owner'] };
			expect(refusal(await operations.invite(owner.actor, services, again))).toMatchObject({
				status: 409,
				field: 'email'
			});
			// Whether an address is known elsewhere, only whoever has the link is told.
			const { token } = await invite(services, elsewhere.owner, estimator?.email ?? '');
			expect(refusal(await accept(services, token)).message).toMatch(
				/account with this e-mail address already/u
			);
			value(await signIn(services, estimator?.email ?? '', estimator?.password ?? ''));
		});

		it.each([
			[{ email: 'nobody' }, 'email', /not an e-mail/u],
			[{ name: ' ' }, 'name', /Say the name/u],
			[{ roles: [] }, 'roles', /one of the roles/u],
			[{ roles: ['chief'] }, 'roles.0', /A role is owner/u],
			[{ admin: true }, undefined, /not as expected/u]
		])('with %o is refused in words', async (change, field, words) => {
			const { services, owner } = await founded();
			const asked = { name: 'Ivo', email: 'ivo@reed.example', roles: ['installer'], ...change };
			const refused = refusal(await operations.invite(owner.actor, services, asked));
			expect([refused.status, refused.field]).toEqual([422, field]);
			expect(refused.message).toMatch(words);
		});

		it('is not accepted with a password that is none', async () => {
			const { services, owner } = await founded();
			const { token } = await invite(services, owner, 'ivo.reed@reed.example');
			for (const password of ['short', 'password1234', 'ivo.reed is me!', 'x'.repeat(400)])
				expect(refusal(await accept(services, token, password))).toMatchObject({
					status: 422,
					field: 'password'
				});
			value(await accept(services, token));
		});
	});

	describe('signing in', () => {
		it('says the same for an unknown address, a wrong password and one who left', async () => {
			const { services, owner, people } = await founded('installer');
			const [gone] = people;
			value(await operations.removePerson(owner.actor, services, gone?.actor.id ?? ''));
			const refused = await Promise.all([
				signIn(services, 'nobody@reed.example', fresh),
				signIn(services, owner.email, 'not the password'),
				signIn(services, gone?.email ?? '', gone?.password ?? ''),
				signIn(services, 'no address', fresh)
			]);
			expect(new Set(refused.map((outcome) => JSON.stringify(outcome))).size).toBe(1);
			expect(refusal(refused[0]).status).toBe(401);
			value(await signIn(services, owner.email.toUpperCase(), owner.password));
		});

		it('is limited by account, and a right password does not help before the time', async () => {
			const { services, owner } = await founded();
			const wrong = (address: string) => signIn(services, owner.email, 'not the password', address);
			for (let i = 0; i < 10; i++) expect(refusal(await wrong(`198.51.100.${i}`)).status).toBe(401);
			const locked = refusal(await wrong('198.51.100.99'));
			expect(locked).toMatchObject({
				status: 429,
				message: 'That was tried too often. Try again in 15 minutes.'
			});
			services.at = new Date(services.at.getTime() + 14 * minute);
			expect(refusal(await signIn(services, owner.email, owner.password)).message).toMatch(/in 1 minute\.$/u);
			services.at = new Date(services.at.getTime() + minute);
			value(await signIn(services, owner.email, owner.password));
		});

		it('is limited by address, whatever accounts are tried, and for all servers together', async () => {
			const place = await database.place();
			const one = await clockedServices(place);
			const { owner } = await foundCompany(one);
			const two = await clockedServices(place);
			const tries = Array.from({ length: 50 }, (_, i) =>
				signIn(i % 2 === 0 ? one : two, `no address ${i}`, fresh, '198.51.100.7')
			);
			for (const outcome of await Promise.all(tries)) expect(refusal(outcome).status).toBe(401);
			expect(refusal(await signIn(two, owner.email, owner.password, '198.51.100.7')).status).toBe(429);
			value(await signIn(two, owner.email, owner.password, '198.51.100.8'));
		});

		it('takes the network of an IPv6 address for the address', async () => {
			const { services, owner } = await founded();
			for (let i = 0; i < 50; i++)
				await signIn(services, `no address ${i}`, fresh, `2001:db8:0:7::${i.toString(16)}`);
			expect(
				refusal(await signIn(services, owner.email, owner.password, '2001:DB8:0:7:ffff::1')).status
			).toBe(429);
			value(await signIn(services, owner.email, owner.password, '2001:db8:0:8::1'));
		});

		it('counts nothing against an office whose passwords are right', async () => {
			const { services, owner } = await founded();
			for (let i = 0; i < 12; i++) value(await signIn(services, owner.email, owner.password));
		});

		it('keeps nobody out longer when the clock is set back', async () => {
			const { services, owner } = await founded();
			for (let i = 0; i < 11; i++) await signIn(services, owner.email, 'not the password');
			services.at = new Date(services.at.getTime() - day);
			expect(refusal(await signIn(services, owner.email, owner.password)).message).toMatch(
				/in 15 minutes\.$/u
			);
			services.at = new Date(services.at.getTime() + 15 * minute);
			value(await signIn(services, owner.email, owner.password));
		});

		it('is limited for links of invitations too', async () => {
			const { services, owner } = await founded();
			const { token } = await invite(services, owner, 'ivo@reed.example');
			for (let i = 0; i < 50; i++)
				expect(
					refusal(await operations.readInvitation(nobody, services, visitOf(), `guess-${i}`)).status
				).toBe(404);
			expect(refusal(await operations.readInvitation(nobody, services, visitOf(), token)).status).toBe(429);
			value(await operations.readInvitation(nobody, services, visitOf('198.51.100.4'), token));
		});

		it.each([
			null,
			[],
			{},
			{ email: 1, password: 'x' },
			{ email: 'a@b.example' },
			{ email: 'a@b.example', password: 'x', more: 1 }
		])('with the body %j is refused in words', async (body) => {
			const { services } = await founded();
			expect(refusal(await operations.signIn(nobody, services, visitOf(), body)).status).toBe(422);
		});
	});

	describe('a session', () => {
		it('is listed, and ended one by one or all but this', async () => {
			const { services, owner, people } = await founded('installer');
			const { email, password } = owner;
			const cookies: string[] = [];
			for (const browser of ['one', 'two', 'three']) {
				const visit = { ...visitOf('198.51.100.1'), browser };
				cookies.push(cookieOf(await operations.signIn(nobody, services, visit, { email, password })));
			}
			const [here = '', there = '', elsewhere = ''] = cookies;
			const { sessionId } = await recognised(services, here);
			const visit = { ...visitOf(), cookies: here, sessionId };
			const { sessions } = value(await operations.readAccount(owner.actor, services, visit));
			expect(sessions.map(({ browser, address, here }) => [browser, address, here]).sort()).toEqual(
				expect.arrayContaining([
					['one', '198.51.100.1', true],
					['three', '198.51.100.1', false],
					['two', '198.51.100.1', false]
				])
			);
			expect(JSON.stringify(sessions)).not.toContain(services.accounts.tokenIn(here));
			const second = sessions.find(({ browser }) => browser === 'two')?.id ?? '';
			expect(refusal(await operations.endSession(people[0]?.actor ?? nobody, services, second)).status).toBe(
				404
			);
			value(await operations.endSession(owner.actor, services, second));
			expect((await recognised(services, there)).actor).toEqual(nobody);
			value(await operations.endOtherSessions(owner.actor, services, visit));
			expect((await recognised(services, elsewhere)).actor).toEqual(nobody);
			const out = value(await operations.signOut(nobody, services, visit));
			expect(out.cookies[0]).toMatch(
				/^coilwright\.session_token=; Max-Age=0; Path=\/; HttpOnly; SameSite=Lax$/u
			);
			expect((await recognised(services, here)).actor).toEqual(nobody);
		});

		it('ends when somebody signs in or joins at the same browser', async () => {
			const { services, owner, people } = await founded('installer');
			const [ivo] = people;
			if (!ivo) throw new Error('nobody was employed');
			const [first, elsewhere] = [
				cookieOf(await signIn(services, owner.email, owner.password)),
				cookieOf(await signIn(services, owner.email, owner.password))
			];
			const body = { email: ivo.email, password: ivo.password };
			const wrong = await operations.signIn(
				nobody,
				services,
				{ ...visitOf(), cookies: first },
				{ ...body, password: fresh }
			);
			expect(refusal(wrong).status).toBe(401);
			expect((await recognised(services, first)).actor.id).toBe(owner.actor.id);
			const second = cookieOf(
				await operations.signIn(nobody, services, { ...visitOf(), cookies: first }, body)
			);
			expect((await recognised(services, first)).actor).toEqual(nobody);
			expect((await recognised(services, second)).actor.id).toBe(ivo.actor.id);
			const { token } = await invite(services, owner, 'next@quay.example');
			const third = cookieOf(
				await operations.acceptInvitation(nobody, services, { ...visitOf(), cookies: second }, token, {
					name: 'Next One',
					password: fresh
				})
			);
			expect((await recognised(services, second)).actor).toEqual(nobody);
			expect((await recognised(services, third)).actor.name).toBe('Next One');
			expect((await recognised(services, elsewhere)).actor.id).toBe(owner.actor.id);
		});

		it('is nothing without the signature of the installation', async () => {
			const { services, owner } = await founded();
			const cookie = cookieOf(await signIn(services, owner.email, owner.password));
			expect((await recognised(services, `other=1; ${cookie}; more=2`)).actor.id).toBe(owner.actor.id);
			const [name = '', signed = ''] = cookie.split('=');
			const [token = '', signature = ''] = decodeURIComponent(signed).split('.');
			for (const forged of [
				`${name}=${token}`,
				`${name}=${token}.`,
				`${name}=${token}.${encodeURIComponent(Buffer.alloc(32).toString('base64'))}`,
				`${name}=x${token}.${encodeURIComponent(signature)}`,
				`${name}=%zz`,
				`x${cookie}`,
				''
			])
				expect((await recognised(services, forged)).actor).toEqual(nobody);
			const elsewhere = await openServices(await database.place());
			onTestFinished(() => elsewhere.storage.close());
			expect(elsewhere.accounts.tokenIn(cookie)).toBeNull();
		});

		it('ends after seven days, and is made longer where it is used', async () => {
			const { services, owner } = await founded();
			const cookie = cookieOf(await signIn(services, owner.email, owner.password));
			const { db } = services.storage.accountsDatabase;
			expect((await recognised(services, cookie)).cookies).toEqual([]);
			// As if it had been made five days ago.
			const soon = new Date(Date.now() + 2 * day);
			const stored = services.storage.accountsDatabase.type === 'sqlite' ? soon.toISOString() : soon;
			await db.updateTable('session').set({ expires_at: stored }).execute();
			const { cookies } = await recognised(services, cookie);
			expect(cookies).toEqual([
				expect.stringMatching(
					/^coilwright\.session_token=.*; Max-Age=604800; Path=\/; HttpOnly; SameSite=Lax$/u
				)
			]);
			expect((await recognised(services, cookie)).cookies).toEqual([]);
			services.at = new Date(Date.now() + 7 * day + minute);
			expect((await recognised(services, cookie)).actor).toEqual(nobody);
		});
	});

	describe('a password', () => {
		it('is changed by who knows it, which ends the sessions elsewhere', async () => {
			const { services, owner } = await founded();
			const here = cookieOf(await signIn(services, owner.email, owner.password));
			const there = cookieOf(await signIn(services, owner.email, owner.password));
			const { sessionId } = await recognised(services, here);
			const visit = { ...visitOf(), cookies: here, sessionId };
			const change = (current: string, next: string) =>
				operations.changePassword(owner.actor, services, visit, { current, next });
			expect(refusal(await change('not the password', fresh))).toMatchObject({
				status: 422,
				field: 'current'
			});
			expect(refusal(await change(owner.password, 'short'))).toMatchObject({ status: 422, field: 'next' });
			expect(value(await change(owner.password, fresh))).toEqual({ ended: 1 });
			expect((await recognised(services, here)).actor.id).toBe(owner.actor.id);
			expect((await recognised(services, there)).actor).toEqual(nobody);
			expect(refusal(await signIn(services, owner.email, owner.password)).status).toBe(401);
			value(await signIn(services, owner.email, fresh));
			for (let i = 0; i < 9; i++) expect(refusal(await change('wrong again', fresh)).status).toBe(422);
			expect(refusal(await change(fresh, `${fresh} 2`)).status).toBe(429);
		});

		it('is reset at the terminal, which ends all sessions', async () => {
			const { services, owner } = await founded();
			const cookie = cookieOf(await signIn(services, owner.email, owner.password));
			value(await resetPassword(services, { email: owner.email, password: fresh }));
			expect((await recognised(services, cookie)).actor).toEqual(nobody);
			value(await signIn(services, owner.email, fresh));
			expect(
				refusal(await resetPassword(services, { email: 'no@reed.example', password: fresh })).status
			).toBe(404);
		});
	});

	describe('people', () => {
		it('do what their roles say from the next request on', async () => {
			const { services, owner, people } = await founded('installer');
			const [ivo] = people;
			const cookie = cookieOf(await signIn(services, ivo?.email ?? '', ivo?.password ?? ''));
			expect((await recognised(services, cookie)).may.editOpenings).toBe(false);
			value(
				await operations.changeRoles(owner.actor, services, ivo?.actor.id ?? '', {
					roles: ['installer', 'estimator']
				})
			);
			const { actor, may } = await recognised(services, cookie);
			expect([actor.roles, may.editOpenings, may.changePeople]).toEqual([
				['estimator', 'installer'],
				true,
				false
			]);
		});

		it('are signed out at once when they are taken out, and come back by an invitation', async () => {
			const { services, owner, people } = await founded('installer');
			const ivo = people[0];
			if (!ivo) throw new Error('nobody was employed');
			const cookie = cookieOf(await signIn(services, ivo.email, ivo.password));
			value(await operations.removePerson(owner.actor, services, ivo.actor.id));
			expect((await recognised(services, cookie)).actor).toEqual(nobody);
			expect(refusal(await operations.removePerson(owner.actor, services, ivo.actor.id)).status).toBe(404);
			const left = value(await operations.readPeople(owner.actor, services)).people.find(
				({ id }) => id === ivo.actor.id
			);
			expect(left?.leftAt).not.toBeNull();
			const { token } = await invite(services, owner, ivo.email, ['purchasing']);
			const back = await recognised(services, cookieOf(await accept(services, token)));
			expect([back.actor.id, back.actor.roles]).toEqual([ivo.actor.id, ['purchasing']]);
			// The password of then opens nothing.
			expect(refusal(await signIn(services, ivo.email, ivo.password)).status).toBe(401);
			expect((await recognised(services, cookie)).actor).toEqual(nobody);
		});

		it('always keep an owner', async () => {
			const { services, owner, people } = await founded('estimator');
			const other = people[0];
			const keep = {
				status: 409,
				message: 'A company keeps one owner at least. Make somebody else an owner first.'
			};
			const demote = (who: Employee, by: Employee) =>
				operations.changeRoles(by.actor, services, who.actor.id, { roles: ['estimator'] });
			expect(refusal(await demote(owner, owner))).toEqual(keep);
			expect(refusal(await operations.removePerson(owner.actor, services, owner.actor.id))).toEqual(keep);
			if (!other) throw new Error('nobody was employed');
			value(await operations.changeRoles(owner.actor, services, other.actor.id, { roles: ['owner'] }));
			// Two who take each other out at once.
			const both = await Promise.all([
				operations.removePerson(owner.actor, services, other.actor.id),
				operations.removePerson(owner.actor, services, owner.actor.id)
			]);
			expect(both.filter(({ ok }) => ok)).toHaveLength(1);
			expect(both.flatMap((outcome) => (outcome.ok ? [] : [refusal(outcome)]))).toEqual([keep]);
		});

		it('of two companies never meet', async () => {
			const { services, owner, people } = await founded('estimator');
			const other = await foundCompany(services, ['installer']);
			const foreign = other.people[0]?.actor.id ?? '';
			const { id } = await invite(services, other.owner, 'ivo@reed.example');
			for (const outcome of [
				await operations.changeRoles(owner.actor, services, foreign, { roles: ['owner'] }),
				await operations.removePerson(owner.actor, services, foreign),
				await operations.withdrawInvitation(owner.actor, services, id)
			])
				expect(refusal(outcome).status).toBe(404);
			const seen = JSON.stringify(value(await operations.readPeople(owner.actor, services)));
			expect(seen).toContain(people[0]?.email);
			for (const secret of [foreign, id, other.company, other.owner.email, 'ivo@reed.example'])
				expect(seen).not.toContain(secret);
		});

		it('who left one company can join another', async () => {
			const { services, owner, people } = await founded('estimator');
			const other = await foundCompany(services);
			const ivo = people[0];
			if (!ivo) throw new Error('nobody was employed');
			value(await operations.removePerson(owner.actor, services, ivo.actor.id));
			const { actor } = await employ(services, other.owner.actor, { name: 'Ivo', email: ivo.email }, [
				'installer'
			]);
			expect([actor.id, actor.companyId]).toEqual([ivo.actor.id, other.owner.actor.companyId]);
			expect(value(await operations.readPeople(owner.actor, services)).people).toHaveLength(1);
		});
	});

	it('before signing in nothing but signing in is answered', async () => {
		const { services } = await founded();
		for (const refused of refusals(
			await operations.listJobs(nobody, services),
			await operations.readPeople(nobody, services),
			await operations.readAccount(nobody, services, visitOf()),
			await operations.endOtherSessions(nobody, services, visitOf())
		))
			expect(refused).toEqual({ status: 401, message: 'Sign in first.' });
	});

	it('alone at a machine there are no people to read or invite', async () => {
		const services = await clockedServices(await database.place());
		for (const refused of refusals(
			await operations.readPeople(localActor, services),
			await operations.readAccount(localActor, services, visitOf()),
			await operations.invite(localActor, services, {
				name: 'Ivo',
				email: 'ivo@reed.example',
				roles: ['owner']
			})
		))
			expect(refused.status).toBe(404);
	});
});
