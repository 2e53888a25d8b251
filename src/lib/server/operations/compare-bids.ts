import { z } from 'zod';
import type { BidSide } from '../../changes/bid.ts';
import { compareBidSides, type BidComparison } from '../../changes/bid-comparison.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobRecord } from '../storage/job.repository.ts';
import { bidContent } from './bid-content.ts';
import { findJob, keyOf } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import { findBid } from './read-bids.ts';
import type { Services } from './services.ts';

const body = z.strictObject({
	first: z.string().max(20),
	/** Number of a bid, or `now` for the job as it is. */
	second: z.string().max(20)
});

/** Compares a bid with another one, or with the job as it is now. */
export async function compareBids(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<BidComparison>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const job = await findJob(actor, services, jobId);
	if (!job.ok) return job;
	const side = async (number: string): Promise<Outcome<BidSide>> => {
		if (number === 'now') return done(await sideNow(actor, services, job.value));
		const found = await findBid(services, keyOf(actor, jobId), number);
		if (!found.ok) return found;
		const { summary, content } = found.value;
		const { technicalDigest, priceDigest } = summary;
		return done({ number: summary.number, technicalDigest, priceDigest, content });
	};
	const first = await side(parsed.data.first);
	if (!first.ok) return first;
	const second = await side(parsed.data.second);
	if (!second.ok) return second;
	return done(compareBidSides(first.value, second.value));
}

async function sideNow(actor: Actor, services: Services, job: JobRecord): Promise<BidSide> {
	const { technicalDigest, priceDigest, measures, name } = job;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const pricing = await services.engines.pricing(actor.companyId, technicalDigest, priceDigest);
	const rows = await services.storage.openings.live(keyOf(actor, job.id));
	const content = bidContent(engine, pricing, engine.takeoff(rows, measures), name);
	return { number: null, technicalDigest, priceDigest, content };
}
