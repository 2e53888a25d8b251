import { z } from 'zod';
import type { BidSummary } from '../../changes/bid.ts';
import type { Actor } from '../identity/actor.ts';
import { bidContent } from './bid-content.ts';
import { findJob, keyOf, noSuchJob } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { tellOthers, writeHistory } from './write-history.ts';

const body = z.strictObject({
	title: z
		.string()
		.transform((text) => text.replace(/[\p{Cc}\s]+/gu, ' ').trim())
		.pipe(
			z
				.string()
				.min(1, 'The bid needs a title, such as what it was sent out for.')
				.max(200, 'The title of a bid has at most 200 characters.')
		)
});

/**
 * Keeps what stands in a job, what is worked out of it and its price as the next numbered bid, for good. Stops hold
 * nothing back: the bid says how many there are.
 */
export async function freezeBid(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<BidSummary>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { technicalDigest, priceDigest } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const pricing = await services.engines.pricing(actor.companyId, technicalDigest, priceDigest);
	const key = keyOf(actor, jobId);
	const at = services.now();
	const outcome = await services.storage.transaction(async (inside): Promise<Outcome<BidSummary>> => {
		const revision = await inside.jobs.nextRevision(key, at);
		const job = revision === null ? null : await inside.jobs.find(key);
		if (revision === null || !job) return noSuchJob;
		const takeoff = engine.takeoff(await inside.openings.live(key), job.measures);
		if (takeoff.openings.length === 0)
			return refuse(422, { message: 'There is nothing to freeze yet: the job has no openings.' });
		const content = bidContent(engine, pricing, takeoff, job.name);
		const { openings, price } = content;
		const sum = (of: (opening: (typeof openings)[number]) => number): number =>
			openings.reduce((total, opening) => total + of(opening), 0);
		const number = await inside.bids.nextNumber(key);
		const summary: BidSummary = {
			number,
			title: parsed.data.title,
			revision,
			actorId: actor.id,
			actorName: actor.name,
			frozenAt: at.toISOString(),
			currency: price.currency,
			price: price.totals.price ?? '0.00',
			marks: takeoff.openings.filter(({ openingId }) => openingId === null).length,
			openings: sum((opening) => opening.openings),
			stops: sum((opening) => opening.stops),
			cautions: sum((opening) => opening.cautions),
			notPriced: price.notPriced.length,
			technicalDigest,
			priceDigest
		};
		await inside.bids.add(key, { summary, content }, at);
		// Whoever may open the job reads its history: the title of a bid, a free text, stays out of it like the price.
		const name = `Bid ${number}`;
		const records = [{ record: 'Bid', name, field: 'State', before: null, after: 'frozen' }];
		await writeHistory(
			inside,
			key,
			actor,
			{ revision, kind: 'bid', title: `Freeze bid ${number}`, records },
			at
		);
		return done(summary);
	});
	if (outcome.ok) tellOthers(services, key, outcome.value.revision);
	return outcome;
}
