import { largestPhoto } from '$lib/changes/site.ts';
import { answer } from '$lib/server/http/answer.ts';
import { readUpload } from '$lib/server/http/body.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

const whatToDo = 'Take it again at a smaller size, or send it from the page on site, which makes it smaller.';

export const POST: RequestHandler = async ({ locals, params, request }) => {
	const upload = await readUpload(request, largestPhoto, whatToDo);
	if (!upload.ok) return answer(upload);
	return answer(await operations.sendPhoto(locals.actor, await openedServices(), params.job, upload.value));
};
