import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import { keyOf } from './find-job.ts';
import { bodyProblem, jobName, measures } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { pinShopBooks } from './shop-books.ts';

const body = z.strictObject({ name: jobName, measures });

/** Makes an empty job that pins the shop books in force. */
export async function createJob(
	actor: Actor,
	services: Services,
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const pinned = await pinShopBooks(actor, services);
	const id = services.newId();
	const { technicalDigest, priceDigest } = pinned;
	await services.storage.jobs.insert(
		keyOf(actor, id),
		{ ...parsed.data, technicalDigest, priceDigest, demo: false },
		services.now()
	);
	return done({ id });
}
