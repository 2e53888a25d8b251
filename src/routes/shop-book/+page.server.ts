import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { Outcome } from '$lib/server/operations/outcome.ts';
import type { PageServerLoad } from './$types';

/** Who may not see a part of the book still sees the rest of it. */
const orNothing = <T>(outcome: Outcome<T>): T | null =>
	outcome.ok || outcome.status !== 403 ? pageData(outcome) : null;

export const load: PageServerLoad = async ({ locals }) => {
	const services = await openedServices();
	const technical = pageData(await operations.readTechnicalBook(locals.actor, services));
	const prices = orNothing(await operations.readPriceBook(locals.actor, services));
	const costs = prices ? null : orNothing(await operations.readPartCosts(locals.actor, services));
	return { ...technical, prices, costs };
};
