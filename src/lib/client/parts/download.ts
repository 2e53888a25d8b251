/** Fetches a file and hands it to the browser to keep. @returns the reason in words when it failed, else null. */
export async function download(path: string, fallbackName: string): Promise<string | null> {
	let response: Response;
	try {
		response = await fetch(path);
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
