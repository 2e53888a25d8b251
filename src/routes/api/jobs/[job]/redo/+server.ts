import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { redoEdit } from '$lib/server/operations/undo-edit.ts';
import type { RequestHandler } from './$types';

export const POST: RequestHandler = async ({ locals, params }) =>
	answer(await redoEdit(locals.actor, await openedServices(), params.job));
