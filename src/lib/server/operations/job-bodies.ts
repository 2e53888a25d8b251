/** What may be said about a job. */
import { z } from 'zod';
import { refuse, type Refused } from './outcome.ts';

/** Control characters have no place in a name; white space counts once. */
export const jobName = z
	.string()
	.transform((text) => text.replace(/[\p{Cc}\s]+/gu, ' ').trim())
	.pipe(z.string().min(1, 'The job needs a name.').max(200, 'The name of a job has at most 200 characters.'));

export const measures = z.enum(['imperial', 'metric'], 'Measures are imperial or metric.');

/** The first thing wrong with a body, in words. */
export function bodyProblem(error: z.ZodError): Refused {
	const [issue] = error.issues;
	const path = (issue?.path ?? []).map(String).join('.');
	const plain = issue !== undefined && /[.]$/u.test(issue.message);
	const message = plain
		? issue.message
		: `The request is not as expected${path === '' ? '' : ` at ${path}`}.`;
	return refuse(422, { message, ...(path === '' ? {} : { field: path }) });
}
