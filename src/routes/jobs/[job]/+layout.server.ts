import { pageData } from '$lib/server/http/answer.ts';
import { openJob } from '$lib/server/operations/open-job.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = async ({ locals, params }) =>
	pageData(await openJob(locals.actor, await openedServices(), params.job));
