import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { removeDelivery } from '$lib/server/operations/remove-delivery.ts';
import type { RequestHandler } from './$types';

export const DELETE: RequestHandler = async ({ locals, params }) =>
	answer(await removeDelivery(locals.actor, await openedServices(), params.job, params.delivery));
