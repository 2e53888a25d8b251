import { whereaboutsSchema, tabSchema } from '../../changes/live.ts';
import type { Actor } from '../identity/actor.ts';
import type { Standing } from '../live/follower.ts';
import { findJob, keyOf } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { isKnown, mayDo } from './permissions.ts';
import type { Services } from './services.ts';

export interface FollowRequest {
	/** Revision of what the page shows; of a page that connects again, the last one it was told. */
	readonly after: string | null;
	/** The page. */
	readonly tab: string | null;
	/** The person as they stand now; null when they may not any more. */
	readonly recheck: () => Promise<Actor | null>;
}

/** Tells a page what happens in a job, for as long as it reads and the person may know. */
export async function followJob(
	actor: Actor,
	services: Services,
	jobId: string,
	{ after, tab, recheck }: FollowRequest
): Promise<Outcome<ReadableStream<Uint8Array>>> {
	const page = tabSchema.safeParse(tab);
	if (!page.success)
		return refuse(422, { message: 'Name the page as tab=ID, at most 64 letters and digits.' });
	if (after === null || !/^\d{1,15}$/u.test(after))
		return refuse(422, { message: 'Name the revision that is known as after=NUMBER.' });
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const check = async (): Promise<Standing> => {
		const now = await recheck();
		if (!now || !isKnown(now) || now.id !== actor.id) return 'signedOut';
		if (now.companyId !== actor.companyId || !mayDo(now, 'followJob')) return 'notAllowed';
		return now.roles;
	};
	const following = { personId: actor.id, tabId: page.data, after: Number(after), check };
	const stream = services.feed.follow(keyOf(actor, jobId), following, found.value.revision);
	if (!stream)
		return refuse(429, {
			message:
				'So many pages are open that this one is not told of the changes of others. Close some of them.'
		});
	return done(stream);
}

/** Tells the others where the person is in a job. Nothing of it is stored. */
export async function tellWhereabouts(
	actor: Actor,
	services: Services,
	jobId: string,
	body: unknown
): Promise<Outcome<null>> {
	const parsed = whereaboutsSchema.safeParse(body);
	if (!parsed.success) return bodyProblem(parsed.error);
	const key = keyOf(actor, jobId);
	if (!services.feed.isFollowed(key)) {
		const found = await findJob(actor, services, jobId);
		if (!found.ok) return found;
	}
	const { tab: tabId, ...where } = parsed.data;
	const told = services.feed.tell(key, { tabId, personId: actor.id, name: actor.name, ...where });
	return told ? done(null) : refuse(429, { message: 'That is said too often. Say it again in a second.' }, 1);
}
