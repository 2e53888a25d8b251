import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import { keyOf } from './find-job.ts';
import { bodyProblem, jobName, measures } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { pinShopBooks } from './shop-books.ts';
import { writeHistory } from './write-history.ts';

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
	const key = keyOf(actor, id);
	const at = services.now();
	const { name } = parsed.data;
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		await inside.jobs.insert(key, { ...parsed.data, technicalDigest, priceDigest, demo: false }, at);
		const records = [{ record: 'Job', name, field: 'Name', before: null, after: name }];
		await writeHistory(inside, key, actor, { revision: 0, kind: 'job', title: 'Make the job', records }, at);
		return done({ id });
	});
}
