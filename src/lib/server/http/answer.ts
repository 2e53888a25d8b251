/** Turns what an operation comes to into a response or a page's data. */
import { error, json } from '@sveltejs/kit';
import type { Outcome } from '../operations/outcome.ts';

/** JSON with the status it deserves. */
export function answer<T>(outcome: Outcome<T>, status = 200): Response {
	return outcome.ok ? json(outcome.value, { status }) : json(outcome.refusal, { status: outcome.status });
}

/** The value for a page; a refusal becomes the page that says so. */
export function pageData<T>(outcome: Outcome<T>): T {
	if (!outcome.ok) error(outcome.status, outcome.refusal.message);
	return outcome.value;
}

/** Letters, digits, spaces and a few marks of a name; nothing that a header or a file system could take amiss. */
const plainName = (name: string): string => {
	const plain = name
		.normalize('NFKD')
		.replace(/[^A-Za-z0-9 ()_-]+/gu, '')
		.replace(/\s+/gu, ' ')
		.trim()
		.slice(0, 80);
	return plain === '' ? 'job' : plain;
};

/** A file to keep, under a name made of the job's. */
export function fileAnswer(
	content: Uint8Array | string,
	type: string,
	name: { readonly job: string; readonly what: string }
): Response {
	const body = typeof content === 'string' ? content : new Uint8Array(content);
	return new Response(body, {
		headers: {
			'content-type': type,
			'content-disposition': `attachment; filename="${plainName(name.job)} ${name.what}"`,
			'cache-control': 'no-store'
		}
	});
}
