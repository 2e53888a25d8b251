/** Calls to the server. What went wrong is a value: a page says it in words where the person is. */

export type Answer<T> =
	| { readonly ok: true; readonly value: T }
	| {
			readonly ok: false;
			/** HTTP status; 0 when the server was not reached. */
			readonly status: number;
			readonly message: string;
			readonly body: Readonly<Record<string, unknown>>;
	  };

/** Names the person that a page was opened for. */
const personHeader = 'coilwright-person';
const noConnection = 'No connection to the server.';

const isRecord = (value: unknown): value is Record<string, unknown> =>
	typeof value === 'object' && value !== null && !Array.isArray(value);

async function bodyOf(response: Response): Promise<unknown> {
	const text = await response.text();
	if (text === '') return null;
	try {
		return JSON.parse(text) as unknown;
	} catch {
		return null;
	}
}

/** Sends a request and reads a JSON answer of type `T` (the server's own shape, checked there). */
async function call<T>(path: string, init: RequestInit): Promise<Answer<T>> {
	const headers = new Headers(init.headers);
	headers.set('accept', 'application/json');
	let response: Response;
	let body: unknown;
	try {
		response = await fetch(path, { ...init, headers });
		body = await bodyOf(response);
	} catch {
		return { ok: false, status: 0, message: noConnection, body: {} };
	}
	if (response.ok) return { ok: true, value: body as T };
	const details = isRecord(body) ? body : {};
	const message = details.message;
	return {
		ok: false,
		status: response.status,
		message: typeof message === 'string' ? message : `The server answered ${response.status}.`,
		body: details
	};
}

/**
 * Sends JSON.
 * @param person whose it is: it is refused where somebody else is signed in by now.
 */
export const send = <T>(
	method: 'POST' | 'PUT' | 'PATCH' | 'DELETE',
	path: string,
	body: unknown = {},
	person: string | null = null
): Promise<Answer<T>> => {
	const headers = {
		'content-type': 'application/json',
		...(person === null ? {} : { [personHeader]: person })
	};
	return call<T>(path, { method, headers, body: JSON.stringify(body) });
};

/** Sends a form with files. @param person as with {@link send} */
export const sendForm = <T>(path: string, form: FormData, person: string | null = null): Promise<Answer<T>> =>
	call<T>(path, {
		method: 'POST',
		body: form,
		headers: person === null ? {} : { [personHeader]: person }
	});

/** Fetches JSON. */
export const get = <T>(path: string): Promise<Answer<T>> => call<T>(path, { method: 'GET' });
