import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import { bodyProblem } from './job-bodies.ts';
import { countTry, signInLimits, takeBackTry } from './limit-attempts.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { placeOf, typedPassword } from './people-bodies.ts';
import type { Services } from './services.ts';
import type { Visit, WithCookies } from './visit.ts';

const body = z.strictObject({
	email: z.string('Say the e-mail address.').trim().toLowerCase().min(1, 'Say the e-mail address.').max(254),
	password: typedPassword
});

/** The same for an address that is not known, for one who left, and for another password. */
const wrong = refuse(401, { message: 'The e-mail address or the password is not right.' });

/** Starts a session. The browser keeps it by the cookies. */
export async function signIn(
	_actor: Actor,
	services: Services,
	visit: Visit,
	request: unknown
): Promise<Outcome<WithCookies<Record<string, never>>>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { email, password } = parsed.data;
	const limits = signInLimits(email, visit.address);
	const tooOften = await countTry(services, limits);
	if (tooOften) return tooOften;
	const { accounts, storage } = services;
	const signedIn = await accounts.signIn(email, password, placeOf(visit));
	if (!signedIn) return wrong;
	if (!(await storage.members.ofSession(signedIn.token, services.now()))) {
		await accounts.endSessions([signedIn.token]);
		return wrong;
	}
	await takeBackTry(services, limits);
	// Whoever was signed in at this browser is not any more.
	const before = accounts.tokenIn(visit.cookies);
	if (before !== null) await accounts.endSessions([before]);
	return done({ value: {}, cookies: signedIn.cookies });
}

/** Ends the session, if there is one. */
export async function signOut(
	_actor: Actor,
	{ accounts }: Services,
	visit: Visit
): Promise<Outcome<WithCookies<Record<string, never>>>> {
	return done({ value: {}, cookies: await accounts.signOut(visit.cookies) });
}
