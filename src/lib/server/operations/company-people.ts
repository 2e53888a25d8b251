/** The people of a company: held while they are changed, written down afterwards. */
import type { RecordChange } from '../../changes/history.ts';
import { roleIds, roleWords, type Role } from '../../changes/roles.ts';
import type { Actor } from '../identity/actor.ts';
import type { Member } from '../storage/member.repository.ts';
import type { Repositories } from '../storage/storage.ts';
import { refuse } from './outcome.ts';
import type { Services } from './services.ts';

/** To somebody alone at their machine. */
export const nobodySignsIn = refuse(404, {
	message:
		'Nobody signs in here, so there are no people. One command makes the first account; the README shows it.'
});

export const noSuchPerson = refuse(404, { message: 'There is no such person in your company.' });

/** `Owner, Estimator` */
export const rolesInWords = (roles: readonly Role[]): string =>
	roleIds
		.filter((role) => roles.includes(role))
		.map((role) => roleWords[role].name)
		.join(', ');

/** Whether somebody else keeps people and the shop book. */
export const hasOtherOwner = (members: readonly Member[], personId: string): boolean =>
	members.some(
		(member) => member.personId !== personId && member.leftAt === null && member.roles.includes('owner')
	);

export const lastOwner = refuse(409, {
	message: 'A company keeps one owner at least. Make somebody else an owner first.'
});

/** Inside the transaction of what it tells about. */
export const writeCompanyHistory = (
	inside: Repositories,
	services: Services,
	actor: Pick<Actor, 'id' | 'name' | 'companyId'>,
	entry: { readonly title: string; readonly records: readonly RecordChange[] },
	at: Date
): Promise<void> =>
	inside.companyHistory.add(
		actor.companyId,
		{ id: services.newId(), actorId: actor.id, actorName: actor.name, ...entry },
		at
	);
