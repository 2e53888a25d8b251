/** Headers that every answer carries, so that a browser does no more with it than was meant. */
const always: Readonly<Record<string, string>> = {
	'x-content-type-options': 'nosniff',
	'x-frame-options': 'DENY',
	'referrer-policy': 'same-origin',
	'cross-origin-opener-policy': 'same-origin',
	'cross-origin-resource-policy': 'same-origin',
	'permissions-policy': 'camera=(), geolocation=(), microphone=(), payment=(), usb=()'
};

/** For answers that are no pages (pages carry their own policy). */
const nothingRuns = "default-src 'none'; frame-ancestors 'none'";

/** A year. */
const onlyEncrypted = 'max-age=31536000; includeSubDomains';

/** @param protocol by which the person reaches the program: `https:` or `http:` */
export function secure(response: Response, protocol: string): Response {
	const { headers } = response;
	for (const [name, value] of Object.entries(always)) headers.set(name, value);
	if (protocol === 'https:') headers.set('strict-transport-security', onlyEncrypted);
	if (!headers.has('content-security-policy')) headers.set('content-security-policy', nothingRuns);
	// Only files whose name changes with what is in them are kept, and those are not answered here.
	if (!(headers.get('cache-control') ?? '').includes('no-store')) headers.set('cache-control', 'no-store');
	return response;
}
