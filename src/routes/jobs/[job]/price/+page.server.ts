import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params }) => {
	const services = await openedServices();
	const price = await operations.readPrice(locals.actor, services, params.job);
	// Who may not see the price may still see what the parts cost.
	if (price.ok || price.status !== 403) {
		const { bids } = pageData(await operations.listBids(locals.actor, services, params.job));
		return { price: pageData(price).price, bids, purchases: null };
	}
	const costs = pageData(await operations.readPurchasePrices(locals.actor, services, params.job));
	return { price: null, bids: [], purchases: costs.purchases };
};
