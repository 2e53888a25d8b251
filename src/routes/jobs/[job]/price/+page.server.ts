import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { readPrice } from '$lib/server/operations/read-price.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params }) =>
	pageData(await readPrice(locals.actor, await openedServices(), params.job));
