/**
 * Without a sign-in the program serves one person at one machine, and nothing else: it listens on the loopback only, is
 * asked for by a local name, and stands behind no proxy. Anything that could let another machine in is refused.
 */

/** Headers that only a proxy adds. */
const forwardingHeaders = [
	'forwarded',
	'via',
	'x-forwarded-for',
	'x-forwarded-host',
	'x-forwarded-port',
	'x-forwarded-proto',
	'x-forwarded-server',
	'x-real-ip',
	'x-client-ip',
	'cf-connecting-ip',
	'true-client-ip'
] as const;

const isLoopbackAddress = (address: string): boolean =>
	/^(::ffff:)?127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/u.test(address) || address === '::1';

const isLocalName = (hostname: string): boolean =>
	hostname === 'localhost' || hostname === '[::1]' || /^127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/u.test(hostname);

/** The name in a Host header, without its port; null when it isn't one. */
function hostname(host: string): string | null {
	const match = /^(\[[0-9a-f:.]+\]|[a-z0-9.-]+)(:\d{1,5})?$/iu.exec(host);
	return match?.[1]?.toLowerCase() ?? null;
}

/**
 * Whether the program may serve at all.
 * @param host address to listen on
 * @returns why not, or null.
 */
export function refusalToServe(
	host: string,
	environment: Readonly<Record<string, string | undefined>>
): string | null {
	const set = (name: string): boolean => (environment[name] ?? '') !== '';
	if (!isLoopbackAddress(host) && host !== 'localhost')
		return `Coilwright has no sign-in yet, so it only listens on this machine. HOST is ${host}; use 127.0.0.1.`;
	if (set('DATABASE_URL'))
		return 'Coilwright has no sign-in yet, so it does not serve a shared database. Unset DATABASE_URL.';
	if (set('COILWRIGHT_TRUSTED_PROXY'))
		return 'Coilwright has no sign-in yet, so it does not serve behind a proxy. Unset COILWRIGHT_TRUSTED_PROXY.';
	return null;
}

/**
 * Whether a request may be answered: it comes from this machine, by a local name, through no proxy, and, when it
 * changes something, from a page of this program.
 * @param protocol of the request as it arrived, `http:` or `https:`
 * @param address of the one who asks
 * @returns why not, or null.
 */
export function refusalOfRequest(
	request: { readonly method: string; readonly headers: Headers },
	protocol: string,
	address: string
): string | null {
	const { method, headers } = request;
	if (!isLoopbackAddress(address)) return 'Coilwright only answers the machine it runs on.';
	if (forwardingHeaders.some((header) => headers.has(header)))
		return 'This request came through a proxy. Without a sign-in Coilwright only answers directly.';
	const host = headers.get('host') ?? '';
	const name = hostname(host);
	if (name === null || !isLocalName(name))
		return 'Coilwright only answers to a local name: use localhost or 127.0.0.1.';
	const reads = method === 'GET' || method === 'HEAD' || method === 'OPTIONS';
	if (!reads && headers.get('origin') !== `${protocol}//${host}`)
		return 'This change did not come from a page of Coilwright. Open the page again and repeat it there.';
	return null;
}
