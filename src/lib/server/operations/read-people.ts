import type { InvitationListing, PeopleAnswer } from '../../changes/people.ts';
import type { Actor } from '../identity/actor.ts';
import type { Invitation } from '../storage/invitation.repository.ts';
import { nobodySignsIn } from './company-people.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Invitations and entries of the history that are shown. */
const shown = 200;

/** People of the company, those who left included, its invitations, and what became of both. */
export async function readPeople(actor: Actor, services: Services): Promise<Outcome<PeopleAnswer>> {
	const { companyId } = actor;
	const { storage } = services;
	const company = await storage.companies.find(companyId);
	if (!company) return nobodySignsIn;
	const members = await storage.members.list(companyId);
	const invitations = await storage.invitations.list(companyId, shown);
	const history = await storage.companyHistory.list(companyId, shown);
	const at = services.now();
	return done({
		company: { name: company.name },
		people: members.map(({ personId, name, email, roles, joinedAt, leftAt }) => ({
			id: personId,
			name,
			email,
			roles,
			joinedAt,
			leftAt,
			you: personId === actor.id
		})),
		invitations: invitations.map((invitation) => invitationListing(invitation, at)),
		history: history.map(({ madeAt, actorName, title }) => ({ at: madeAt, who: actorName, title }))
	});
}

export function invitationListing(invitation: Invitation, at: Date): InvitationListing {
	const { id, name, email, roles, invitedBy, madeAt, expiresAt } = invitation;
	return { id, name, email, roles, invitedBy, madeAt, expiresAt, state: stateOf(invitation, at) };
}

export function stateOf(
	{ acceptedAt, withdrawnAt, expiresAt }: Invitation,
	at: Date
): InvitationListing['state'] {
	if (acceptedAt !== null) return 'accepted';
	if (withdrawnAt !== null) return 'withdrawn';
	return new Date(expiresAt) <= at ? 'expired' : 'open';
}
