import type { Actor } from '../identity/actor.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import type { Visit } from './visit.ts';

/** Ends one of the person's own sessions. */
export async function endSession(
	actor: Actor,
	{ accounts }: Services,
	sessionId: string
): Promise<Outcome<{ id: string }>> {
	const session = (await accounts.sessions(actor.id)).find(({ id }) => id === sessionId);
	if (!session) return refuse(404, { message: 'That session has ended already.' });
	await accounts.endSessions([session.token]);
	return done({ id: sessionId });
}

/** Ends all of the person's own sessions but the one that asks. */
export async function endOtherSessions(
	actor: Actor,
	{ accounts }: Services,
	visit: Visit
): Promise<Outcome<{ ended: number }>> {
	const others = (await accounts.sessions(actor.id)).filter(({ id }) => id !== visit.sessionId);
	await accounts.endSessions(others.map(({ token }) => token));
	return done({ ended: others.length });
}
