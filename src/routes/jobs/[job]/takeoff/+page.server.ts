import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { readTakeoff } from '$lib/server/operations/read-takeoff.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params }) =>
	pageData(await readTakeoff(locals.actor, await openedServices(), params.job));
