import type { JobPrice, Pricing } from '../../price/price.ts';
import type { PurchasePrices } from '../../price/purchase.ts';
import type { Explanation } from '../../rulebook/rule-book.ts';
import type { JobTakeoff } from '../../takeoff/engine.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

async function pricedTakeoff(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ pricing: Pricing; takeoff: JobTakeoff }>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { technicalDigest, priceDigest, measures } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const pricing = await services.engines.pricing(actor.companyId, technicalDigest, priceDigest);
	const rows = await services.storage.openings.live(keyOf(actor, jobId));
	return done({ pricing, takeoff: engine.takeoff(rows, measures) });
}

/** The price of a job by the price book it pins. */
export async function readPrice(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ price: JobPrice }>> {
	const priced = await pricedTakeoff(actor, services, jobId);
	if (!priced.ok) return priced;
	const { pricing, takeoff } = priced.value;
	return done({ price: pricing.price(takeoff) });
}

/** What the parts of a job cost to buy; no labour, no share of the shop, no price. */
export async function readPurchasePrices(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ purchases: PurchasePrices }>> {
	const priced = await pricedTakeoff(actor, services, jobId);
	if (!priced.ok) return priced;
	const { pricing, takeoff } = priced.value;
	return done({ purchases: pricing.purchases(takeoff) });
}

/** The working of one line of the price of one row. */
export async function explainPrice(
	actor: Actor,
	services: Services,
	jobId: string,
	rowId: string,
	id: string
): Promise<Outcome<Explanation>> {
	const priced = await pricedTakeoff(actor, services, jobId);
	if (!priced.ok) return priced;
	const { pricing, takeoff } = priced.value;
	const working = pricing.explain(takeoff, rowId, id);
	return working
		? done(working)
		: refuse(404, { message: 'There is no working for this: the row has no price, or no such line.' });
}
