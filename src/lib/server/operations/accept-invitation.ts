import { z } from 'zod';
import type { InvitationAnswer } from '../../changes/people.ts';
import type { Actor } from '../identity/actor.ts';
import { passwordProblem } from '../identity/password-rules.ts';
import type { Invitation } from '../storage/invitation.repository.ts';
import { rolesInWords, writeCompanyHistory } from './company-people.ts';
import { digestOfToken } from './invite.ts';
import { bodyProblem } from './job-bodies.ts';
import { countTry, invitationLimits, takeBackTry } from './limit-attempts.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { personName, placeOf, typedPassword } from './people-bodies.ts';
import { stateOf } from './read-people.ts';
import type { Services } from './services.ts';
import type { Visit, WithCookies } from './visit.ts';

const body = z.strictObject({ name: personName, password: typedPassword });

const unknown = refuse(404, {
	message: 'This link opens no invitation. Copy it whole, or ask for a new one.'
});
const noLongerOpen = {
	accepted: refuse(409, { message: 'This invitation was used already. Sign in, or ask for a new one.' }),
	withdrawn: refuse(409, { message: 'This invitation was withdrawn. Ask for a new one.' }),
	expired: refuse(409, { message: 'This invitation is older than seven days. Ask for a new one.' })
};

/** The invitation that a link opens, while it is open. Tokens that open none are counted, so that nobody tries many. */
async function opened(services: Services, visit: Visit, token: string): Promise<Outcome<Invitation>> {
	const limits = invitationLimits(visit.address);
	const tooOften = await countTry(services, limits);
	if (tooOften) return tooOften;
	const invitation = await services.storage.invitations.ofToken(digestOfToken(token));
	if (!invitation) return unknown;
	await takeBackTry(services, limits);
	const state = stateOf(invitation, services.now());
	return state === 'open' ? done(invitation) : noLongerOpen[state];
}

/** What an invitation says to the person who was given its link. */
export async function readInvitation(
	_actor: Actor,
	services: Services,
	visit: Visit,
	token: string
): Promise<Outcome<InvitationAnswer>> {
	const found = await opened(services, visit, token);
	if (!found.ok) return found;
	const { companyId, name, email, roles } = found.value;
	const company = await services.storage.companies.find(companyId);
	return company ? done({ company: company.name, name, email, roles }) : unknown;
}

/** Makes the account of the person who was invited, or brings back one who left, and signs them in. */
export async function acceptInvitation(
	_actor: Actor,
	services: Services,
	visit: Visit,
	token: string,
	request: unknown
): Promise<Outcome<WithCookies<Record<string, never>>>> {
	const found = await opened(services, visit, token);
	if (!found.ok) return found;
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { name, password } = parsed.data;
	const { id, companyId, email, roles } = found.value;
	const problem = passwordProblem(password, email);
	if (problem !== null) return refuse(422, { message: problem, field: 'password' });
	const hash = await services.accounts.hashOf(password);
	const at = services.now();
	const joined = await services.storage.transaction(async (inside): Promise<Outcome<null>> => {
		await inside.companies.hold(companyId);
		if (!(await inside.invitations.accept(companyId, id, at))) return noLongerOpen.accepted;
		const accounts = services.accounts.inside(inside.accountsDatabase);
		const known = await accounts.find(email);
		const was = known === null ? null : await inside.members.ofPerson(known);
		if (was && !was.left)
			return refuse(409, {
				message: 'There is an account with this e-mail address already. Ask to be invited by another address.'
			});
		const personId = known ?? (await accounts.add({ name, email }, hash, null));
		if (known !== null) {
			await accounts.endAllSessions(known);
			await accounts.rename(known, name);
			await accounts.setPassword(known, hash);
		}
		await inside.members.join(companyId, personId, roles, at);
		const record = { record: 'Person', name, before: null };
		const records = [
			{ ...record, field: 'E-mail', after: email },
			{ ...record, field: 'Roles', after: rolesInWords(roles) }
		];
		const title = `${name} joins as ${rolesInWords(roles)}`;
		await writeCompanyHistory(inside, services, { id: personId, name, companyId }, { title, records }, at);
		return done(null);
	});
	if (!joined.ok) return joined;
	const signedIn = await services.accounts.signIn(email, password, placeOf(visit));
	// Whoever was signed in at this browser is not any more.
	const before = services.accounts.tokenIn(visit.cookies);
	if (before !== null) await services.accounts.endSessions([before]);
	return done({ value: {}, cookies: signedIn?.cookies ?? [] });
}
