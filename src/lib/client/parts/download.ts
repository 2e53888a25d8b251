/**
 * Fetches a file and hands it to the browser to keep.
 * @param wanted what is asked for, sent along where it is too much for the path
 * @returns the reason in words when it failed, else null.
 */
export async function download(path: string, fallbackName: string, wanted?: object): Promise<string | null> {
	let response: Response;
	try {
		response = await (wanted === undefined
			? fetch(path)
			: fetch(path, {
					method: 'POST',
					headers: { 'content-type': 'application/json', accept: 'application/json' },
					body: JSON.stringify(wanted)
				}));
	} catch {
		return 'No connection to the server.';
	}
	if (!response.ok) {
		const body: unknown = await response.json().catch(() => null);
		return typeof body === 'object' && body !== null && 'message' in body && typeof body.message === 'string'
			? body.message
			: `The server answered ${response.status}.`;
	}
	const name = fileName(response.headers.get('content-disposition') ?? '') ?? fallbackName;
	const address = URL.createObjectURL(await response.blob());
	const link = document.createElement('a');
	link.href = address;
	link.download = name;
	link.click();
	setTimeout(() => URL.revokeObjectURL(address), 60_000);
	return null;
}

/** The name in a Content-Disposition header (RFC 6266); null where there is none. */
export function fileName(disposition: string): string | null {
	const extended = /filename\*=UTF-8''([^;]+)/iu.exec(disposition)?.[1];
	if (extended !== undefined) {
		try {
			return decodeURIComponent(extended.trim());
		} catch {
			return null;
		}
	}
	return /filename="([^"]+)"/iu.exec(disposition)?.[1] ?? null;
}
