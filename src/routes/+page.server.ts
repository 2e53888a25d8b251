import { listJobs } from '$lib/server/operations/list-jobs.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => listJobs(locals.actor, await openedServices());
