import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => {
	const services = await openedServices();
	const technical = pageData(await operations.readTechnicalBook(locals.actor, services));
	// Who may not see prices still sees the rest of the book.
	const prices = await operations.readPriceBook(locals.actor, services);
	return { ...technical, prices: prices.ok || prices.status !== 403 ? pageData(prices) : null };
};
