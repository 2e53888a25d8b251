import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
	const first = url.searchParams.get('first') ?? '';
	const second = url.searchParams.get('second') ?? 'now';
	const services = await openedServices();
	return {
		first,
		second,
		comparison: pageData(await operations.compareBids(locals.actor, services, params.job, { first, second }))
	};
};
