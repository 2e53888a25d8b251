import { answer } from '$lib/server/http/answer.ts';
import { readUpload } from '$lib/server/http/body.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const POST: RequestHandler = async ({ locals, params, request }) => {
	const upload = await readUpload(request);
	if (!upload.ok) return answer(upload);
	return answer(
		await operations.takeAnswer(locals.actor, await openedServices(), params.job, params.order, upload.value)
	);
};
