import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import type { Member } from '../storage/member.repository.ts';
import type { Repositories } from '../storage/storage.ts';
import {
	hasOtherOwner,
	lastOwner,
	noSuchPerson,
	rolesInWords,
	writeCompanyHistory
} from './company-people.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import { roles } from './people-bodies.ts';
import type { Services } from './services.ts';
import { fieldChange } from './write-history.ts';

const body = z.strictObject({ roles });

/** The person and everybody else of the company; nobody changes them until the transaction ends. */
async function held(
	inside: Repositories,
	companyId: string,
	personId: string
): Promise<{ member: Member; members: readonly Member[] } | null> {
	if (!(await inside.companies.hold(companyId))) return null;
	const members = await inside.members.list(companyId);
	const member = members.find((one) => one.personId === personId && one.leftAt === null);
	return member ? { member, members } : null;
}

/** Says anew what a person may do. It counts from their next request on. */
export async function changeRoles(
	actor: Actor,
	services: Services,
	personId: string,
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const next = parsed.data.roles;
	const { companyId } = actor;
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const found = await held(inside, companyId, personId);
		if (!found) return noSuchPerson;
		const { member, members } = found;
		if (!next.includes('owner') && !hasOtherOwner(members, personId)) return lastOwner;
		await inside.members.giveRoles(companyId, personId, next);
		const record = { record: 'Person', name: member.name };
		const records = fieldChange(record, 'Roles', rolesInWords(member.roles), rolesInWords(next));
		const title = `Make ${member.name} ${rolesInWords(next)}`;
		if (records.length > 0)
			await writeCompanyHistory(inside, services, actor, { title, records }, services.now());
		return done({ id: personId });
	});
}

/** Takes a person out of the company; they are signed out everywhere at once. What they did stays under their name. */
export async function removePerson(
	actor: Actor,
	services: Services,
	personId: string
): Promise<Outcome<{ id: string }>> {
	const { companyId } = actor;
	const at = services.now();
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const found = await held(inside, companyId, personId);
		if (!found) return noSuchPerson;
		const { member, members } = found;
		if (!hasOtherOwner(members, personId)) return lastOwner;
		await inside.members.leave(companyId, personId, at);
		await services.accounts.inside(inside.accountsDatabase).endAllSessions(personId);
		const records = [
			{ record: 'Person', name: member.name, field: 'State', before: 'with the company', after: 'left' }
		];
		await writeCompanyHistory(inside, services, actor, { title: `Take ${member.name} out`, records }, at);
		return done({ id: personId });
	});
}
