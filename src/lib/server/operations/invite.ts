import { createHash, randomBytes } from 'node:crypto';
import { z } from 'zod';
import type { Invited } from '../../changes/people.ts';
import type { Actor } from '../identity/actor.ts';
import { nobodySignsIn, rolesInWords, writeCompanyHistory } from './company-people.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { email, personName, roles } from './people-bodies.ts';
import { invitationListing } from './read-people.ts';
import type { Services } from './services.ts';

const body = z.strictObject({ name: personName, email, roles });
/** How long an invitation can be accepted, milliseconds. */
const lasts = 7 * 24 * 60 * 60 * 1000;

/** What is kept of the secret of a link. */
export const digestOfToken = (token: string): string => createHash('sha256').update(token).digest('hex');

/** Invites somebody into the company, in place of an open invitation to the same address. */
export async function invite(actor: Actor, services: Services, request: unknown): Promise<Outcome<Invited>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const asked = parsed.data;
	const { companyId } = actor;
	const at = services.now();
	const id = services.newId();
	const token = randomBytes(32).toString('base64url');
	return services.storage.transaction(async (inside): Promise<Outcome<Invited>> => {
		if (!(await inside.companies.hold(companyId))) return nobodySignsIn;
		const members = await inside.members.list(companyId);
		if (members.some((member) => member.email === asked.email && member.leftAt === null))
			return refuse(409, { message: `${asked.email} is with the company already.`, field: 'email' });
		await inside.invitations.withdrawAllTo(companyId, asked.email, at);
		await inside.invitations.add({
			...asked,
			id,
			companyId,
			tokenDigest: digestOfToken(token),
			invitedBy: actor.name,
			madeAt: at,
			expiresAt: new Date(at.getTime() + lasts)
		});
		const record = { record: 'Invitation', name: asked.email, before: null };
		const records = [
			{ ...record, field: 'Name', after: asked.name },
			{ ...record, field: 'Roles', after: rolesInWords(asked.roles) }
		];
		const title = `Invite ${asked.name} as ${rolesInWords(asked.roles)}`;
		await writeCompanyHistory(inside, services, actor, { title, records }, at);
		const invitation = await inside.invitations.find(companyId, id);
		if (!invitation) throw new Error('the invitation that was just stored is not there');
		return done({ invitation: invitationListing(invitation, at), path: `/invitation/${token}` });
	});
}

/** Takes an open invitation back: its link opens nothing any more. */
export async function withdrawInvitation(
	actor: Actor,
	services: Services,
	invitationId: string
): Promise<Outcome<{ id: string }>> {
	const { companyId } = actor;
	const at = services.now();
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const invitation = await inside.invitations.find(companyId, invitationId);
		if (!invitation) return refuse(404, { message: 'There is no such invitation.' });
		if (!(await inside.invitations.withdraw(companyId, invitationId, at)))
			return refuse(409, { message: 'This invitation was used or withdrawn before.' });
		const records = [
			{ record: 'Invitation', name: invitation.email, field: 'State', before: 'open', after: 'withdrawn' }
		];
		const title = `Withdraw the invitation of ${invitation.name}`;
		await writeCompanyHistory(inside, services, actor, { title, records }, at);
		return done({ id: invitationId });
	});
}
