import type { AccountAnswer } from '../../changes/people.ts';
import type { Actor } from '../identity/actor.ts';
import { nobodySignsIn } from './company-people.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import type { Visit } from './visit.ts';

/** Who the person is here, and where they are signed in. */
export async function readAccount(
	actor: Actor,
	{ storage, accounts }: Services,
	visit: Visit
): Promise<Outcome<AccountAnswer>> {
	const company = await storage.companies.find(actor.companyId);
	const member = await storage.members.find(actor.companyId, actor.id);
	if (!company || !member) return nobodySignsIn;
	const sessions = await accounts.sessions(actor.id);
	return done({
		name: member.name,
		email: member.email,
		company: company.name,
		roles: member.roles,
		sessions: sessions.map(({ id, madeAt, expiresAt, address, browser }) => ({
			id,
			madeAt: madeAt.toISOString(),
			expiresAt: expiresAt.toISOString(),
			address,
			browser,
			here: id === visit.sessionId
		}))
	});
}
