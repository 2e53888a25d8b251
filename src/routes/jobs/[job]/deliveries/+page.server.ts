import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { readDeliveries } from '$lib/server/operations/read-deliveries.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params }) =>
	pageData(await readDeliveries(locals.actor, await openedServices(), params.job));
