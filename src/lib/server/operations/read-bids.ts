import type { BidAnswer, BidContent, BidOpeningAnswer, BidsAnswer, BidSummary } from '../../changes/bid.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobKey } from '../storage/keys.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const noSuchBid = refuse(404, { message: 'This job has no such bid.' });

/** A bid of the job by its number, as text. Nothing of it is worked out again. */
export async function findBid(
	services: Services,
	key: JobKey,
	number: string
): Promise<Outcome<{ summary: BidSummary; content: BidContent }>> {
	if (!/^[1-9]\d{0,8}$/u.test(number)) return noSuchBid;
	const found = await services.storage.bids.find(key, Number(number));
	if (!found) return noSuchBid;
	if ('damaged' in found)
		return refuse(409, {
			message: `Bid ${number} is not what was frozen: it was changed outside the program, or the database was damaged. It is not shown, since nothing in it can be relied on; a backup from before has it whole.`
		});
	return done(found);
}

/** The bids of a job, the latest first. */
export async function listBids(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<BidsAnswer>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	return done({ bids: await services.storage.bids.list(keyOf(actor, jobId)) });
}

/** A bid as it was frozen: its rows, openings and price. */
export async function readBid(
	actor: Actor,
	services: Services,
	jobId: string,
	number: string
): Promise<Outcome<BidAnswer>> {
	const job = await findJob(actor, services, jobId);
	if (!job.ok) return job;
	const found = await findBid(services, keyOf(actor, jobId), number);
	if (!found.ok) return found;
	const { format, job: named, rows, openings, price } = found.value.content;
	return done({ bid: found.value.summary, content: { format, job: named, rows, openings, price } });
}

/** Every quantity of one opening of a bid that had a value. */
export async function readBidOpening(
	actor: Actor,
	services: Services,
	jobId: string,
	number: string,
	rowId: string
): Promise<Outcome<BidOpeningAnswer>> {
	const job = await findJob(actor, services, jobId);
	if (!job.ok) return job;
	const found = await findBid(services, keyOf(actor, jobId), number);
	if (!found.ok) return found;
	const { openings, quantities, values, job: named } = found.value.content;
	const place = openings.findIndex((opening) => opening.rowId === rowId);
	const opening = openings[place];
	if (!opening) return refuse(404, { message: `Bid ${number} has no such opening.` });
	return done({
		opening,
		measures: named.measures,
		quantities: quantities.flatMap((quantity) => {
			const value = values[quantity.id]?.[place] ?? null;
			return value === null ? [] : [{ ...quantity, value }];
		})
	});
}
