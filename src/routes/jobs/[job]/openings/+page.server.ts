import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { readOpenings } from '$lib/server/operations/read-openings.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params }) =>
	pageData(await readOpenings(locals.actor, await openedServices(), params.job));
