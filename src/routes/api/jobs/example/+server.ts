import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const POST: RequestHandler = async ({ locals }) =>
	answer(await operations.makeExample(locals.actor, await openedServices()), 201);
