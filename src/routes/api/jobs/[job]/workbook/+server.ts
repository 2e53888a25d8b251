import { answer, fileAnswer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params }) => {
	const written = await operations.writeJobWorkbook(locals.actor, await openedServices(), params.job);
	if (!written.ok) return answer(written);
	const { content, jobName } = written.value;
	return fileAnswer(content, 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet', {
		job: jobName,
		what: 'takeoff.xlsx'
	});
};
