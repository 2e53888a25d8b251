import { answer, fileAnswer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params, url }) => {
	const written = await operations.writeOrderFile(
		locals.actor,
		await openedServices(),
		params.job,
		params.order,
		Object.fromEntries(url.searchParams)
	);
	if (!written.ok) return answer(written);
	const { content, type, jobName, fileName } = written.value;
	return fileAnswer(content, type, { job: jobName, what: fileName });
};
