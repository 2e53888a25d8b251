import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
	const search = Object.fromEntries(
		['row', 'actor', 'kind'].flatMap((name) => {
			const value = url.searchParams.get(name);
			return value === null || value === '' ? [] : [[name, value] as const];
		})
	);
	const history = pageData(
		await operations.readHistory(locals.actor, await openedServices(), params.job, search)
	);
	return { history, search };
};
