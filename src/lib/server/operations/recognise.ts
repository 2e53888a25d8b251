import type { Access, Signed } from '../../changes/people.ts';
import type { May } from '../../changes/roles.ts';
import { localActor, nobody, type Actor } from '../identity/actor.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { offered } from './permissions.ts';
import type { Services } from './services.ts';

/** Who asks, and what their pages show of them. */
export interface Recognised {
	readonly actor: Actor;
	readonly access: Access;
	readonly person: Signed | null;
	readonly may: May;
	readonly sessionId: string | null;
	/** `Set-Cookie`, where the session was made longer. */
	readonly cookies: readonly string[];
}

const switchedOn = refuse(503, {
	message: 'People sign in to this record now. Start Coilwright again, then it asks them to.'
});

/** Who a request is from, by its `Cookie` header: the person at this machine, who signed in, or nobody. */
export async function recognise(
	_actor: Actor,
	services: Services,
	cookies: string | null
): Promise<Outcome<Recognised>> {
	const { access, accounts, storage } = services;
	if (access === 'alone') {
		// An account that was made meanwhile ends it at once.
		if (await storage.members.any()) return switchedOn;
		return done(recognisedAs(localActor, access, null));
	}
	const token = accounts.tokenIn(cookies);
	const at = services.now();
	const session = token === null ? null : await storage.members.ofSession(token, at);
	if (!session) return done(recognisedAs(nobody, access, null));
	const { personId: id, name, roles, companyId, companyName: company } = session;
	const due = cookies !== null && accounts.isDue(session.expiresAt, at);
	return done({
		...recognisedAs({ id, companyId, name, roles }, access, { id, name, company, roles }),
		sessionId: session.sessionId,
		cookies: due ? await accounts.lengthen(cookies) : []
	});
}

const recognisedAs = (actor: Actor, access: Access, person: Signed | null): Recognised => ({
	actor,
	access,
	person,
	may: offered(actor, access),
	sessionId: null,
	cookies: []
});
