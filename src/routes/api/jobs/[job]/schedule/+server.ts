import { answer, fileAnswer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

const types = {
	xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
	csv: 'text/csv; charset=utf-8'
} as const;

export const GET: RequestHandler = async ({ locals, params, url }) => {
	const wish = Object.fromEntries(url.searchParams);
	const written = await operations.writeSchedule(locals.actor, await openedServices(), params.job, wish);
	if (!written.ok) return answer(written);
	const { content, as, jobName } = written.value;
	return fileAnswer(content, types[as], { job: jobName, what: `schedule.${as}` });
};
