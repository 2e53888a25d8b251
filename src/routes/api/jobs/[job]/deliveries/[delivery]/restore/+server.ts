import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { restoreDelivery } from '$lib/server/operations/remove-delivery.ts';
import type { RequestHandler } from './$types';

export const POST: RequestHandler = async ({ locals, params }) =>
	answer(await restoreDelivery(locals.actor, await openedServices(), params.job, params.delivery));
