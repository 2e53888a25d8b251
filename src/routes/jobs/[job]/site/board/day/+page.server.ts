import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
	const deal = url.searchParams.get('deal') ?? undefined;
	const day = url.searchParams.get('day') ?? undefined;
	return pageData(await operations.readDay(locals.actor, await openedServices(), params.job, { deal, day }));
};
