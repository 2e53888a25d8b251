import { answer, fileAnswer } from '$lib/server/http/answer.ts';
import { readJson } from '$lib/server/http/body.ts';
import type { Actor } from '$lib/server/identity/actor.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

async function print(actor: Actor, job: string, body: unknown): Promise<Response> {
	const written = await operations.writePrint(actor, await openedServices(), job, body);
	if (!written.ok) return answer(written);
	const { content, jobName, what } = written.value;
	return fileAnswer(content, 'application/pdf', { job: jobName, what: `${what}.pdf` });
}

/** `rows` and `columns` are ids with commas between. */
const lists: ReadonlySet<string> = new Set(['rows', 'columns']);

export const GET: RequestHandler = ({ locals, params, url }) => {
	const entries = Array.from(url.searchParams, ([name, value]) => [
		name,
		lists.has(name) ? value.split(',') : value
	]);
	return print(locals.actor, params.job, Object.fromEntries(entries));
};

/** The same with the lists in the body: the rows of a large job are too many for an address. */
export const POST: RequestHandler = async ({ locals, params, request }) => {
	const body = await readJson(request);
	return body.ok ? print(locals.actor, params.job, body.value) : answer(body);
};
