import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import { passwordProblem } from '../identity/password-rules.ts';
import { nobodySignsIn } from './company-people.ts';
import { endOtherSessions } from './end-session.ts';
import { bodyProblem } from './job-bodies.ts';
import { countTry, passwordLimits, takeBackTry } from './limit-attempts.ts';
import { refuse, type Outcome } from './outcome.ts';
import { typedPassword } from './people-bodies.ts';
import type { Services } from './services.ts';
import type { Visit } from './visit.ts';

const body = z.strictObject({ current: typedPassword, next: typedPassword });

/** Gives the person another password, and ends their sessions everywhere else. */
export async function changePassword(
	actor: Actor,
	services: Services,
	visit: Visit,
	request: unknown
): Promise<Outcome<{ ended: number }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { current, next } = parsed.data;
	const { accounts, storage } = services;
	const member = await storage.members.find(actor.companyId, actor.id);
	if (!member) return nobodySignsIn;
	const problem = passwordProblem(next, member.email);
	if (problem !== null) return refuse(422, { message: problem, field: 'next' });
	const limits = passwordLimits(actor.id);
	const tooOften = await countTry(services, limits);
	if (tooOften) return tooOften;
	if (!(await accounts.isPassword(actor.id, current)))
		return refuse(422, { message: 'That is not your password now.', field: 'current' });
	await takeBackTry(services, limits);
	await accounts.setPassword(actor.id, await accounts.hashOf(next));
	return endOtherSessions(actor, services, visit);
}
