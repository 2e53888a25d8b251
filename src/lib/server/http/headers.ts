/** Headers that every answer carries, so that a browser does no more with it than was meant. */
const always: Readonly<Record<string, string>> = {
	'x-content-type-options': 'nosniff',
	'x-frame-options': 'DENY',
	'referrer-policy': 'same-origin',
	'cross-origin-opener-policy': 'same-origin',
	'cross-origin-resource-policy': 'same-origin',
	'permissions-policy': 'camera=(), geolocation=(), microphone=()'
};

/** For answers that are no pages (pages carry their own policy). */
const nothingRuns = "default-src 'none'; frame-ancestors 'none'";

export function secure(response: Response): Response {
	for (const [name, value] of Object.entries(always)) response.headers.set(name, value);
	if (!response.headers.has('content-security-policy'))
		response.headers.set('content-security-policy', nothingRuns);
	return response;
}
