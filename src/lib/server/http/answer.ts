/** Turns what an operation comes to into a response or a page's data. */
import { error, json } from '@sveltejs/kit';
import { done, type Outcome } from '../operations/outcome.ts';
import type { WithCookies } from '../operations/visit.ts';

/** JSON with the status it deserves. */
export function answer<T>(outcome: Outcome<T>, status = 200): Response {
	if (outcome.ok) return json(outcome.value, { status });
	const { retryAfter } = outcome;
	const headers = new Headers(retryAfter === undefined ? {} : { 'retry-after': String(retryAfter) });
	return json(outcome.refusal, { status: outcome.status, headers });
}

/** JSON, with what the browser is to keep or to forget. */
export function answerWithCookies<T>(outcome: Outcome<WithCookies<T>>): Response {
	if (!outcome.ok) return answer(outcome);
	const response = answer(done(outcome.value.value));
	for (const cookie of outcome.value.cookies) response.headers.append('set-cookie', cookie);
	return response;
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

/** A picture that somebody sent in: shown as one of the kind it was told to be, never as anything that runs. */
export const pictureAnswer = (
	content: Uint8Array,
	type: 'image/jpeg' | 'image/png' | 'image/webp'
): Response =>
	new Response(new Uint8Array(content), {
		headers: {
			'content-type': type,
			'content-disposition': `inline; filename="photo.${type.slice('image/'.length)}"`,
			'x-content-type-options': 'nosniff',
			'content-security-policy': "default-src 'none'; sandbox",
			'cache-control': 'no-store'
		}
	});

/** Server-sent events, for as long as they are read. Nobody on the way keeps or gathers them. */
export const streamAnswer = (stream: ReadableStream<Uint8Array>): Response =>
	new Response(stream, {
		headers: {
			'content-type': 'text/event-stream',
			'cache-control': 'no-store, no-transform',
			'x-accel-buffering': 'no',
			connection: 'close'
		}
	});
