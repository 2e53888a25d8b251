import { answer, pictureAnswer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params }) => {
	const photo = await operations.readPhoto(locals.actor, await openedServices(), params.job, params.photo);
	return photo.ok ? pictureAnswer(photo.value.bytes, photo.value.mediaType) : answer(photo);
};
