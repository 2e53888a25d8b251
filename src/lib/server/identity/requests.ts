/** Which requests are answered at all: from where, under which name, through which proxy, and from whose page. */
import { isIP } from 'node:net';
import type { Access } from '../../changes/people.ts';
import { isLocalName, isLoopbackAddress } from './local-names.ts';
import type { Serving } from './serving.ts';

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

export interface Arriving {
	readonly method: string;
	readonly headers: Headers;
	/** Of the other end of the connection. */
	readonly address: string;
}

export type Arrived =
	| { readonly ok: true; /** Network address of the person. */ readonly address: string }
	| { readonly ok: false; readonly message: string };

const refused = (message: string): Arrived => ({ ok: false, message });

/** The name in a Host header, without its port; null when it isn't one. */
function hostname(host: string): string | null {
	const match = /^(\[[0-9a-f:.]+\]|[a-z0-9.-]+)(:\d{1,5})?$/iu.exec(host);
	return match?.[1]?.toLowerCase() ?? null;
}

/** An IPv4 address that is written as an IPv6 one, plainly. */
const plainAddress = (address: string): string =>
	/^::ffff:(\d+\.\d+\.\d+\.\d+)$/iu.exec(address)?.[1] ?? address;

/** The last address on the way that is no trusted proxy; what stands further left, anybody may have written. */
function addressBehind(proxy: string, forwarded: string | null, trusts: Serving['trusts']): string {
	for (const part of (forwarded ?? '').split(',').reverse()) {
		const address = plainAddress(part.trim());
		if (isIP(address) === 0) break;
		if (!trusts(address)) return address;
	}
	return proxy;
}

/**
 * Whether a request may be answered. Without a sign-in it comes from this machine, by a local name, through no proxy; with one,
 * under the name people reach the program by, through none but the proxies that are trusted. One that changes something comes
 * from a page of this program.
 */
export function arrive(
	{ method, headers, address: otherEnd }: Arriving,
	{ origin, trusts }: Pick<Serving, 'origin' | 'trusts'>,
	access: Access
): Arrived {
	const socket = plainAddress(otherEnd);
	const fromProxy = access === 'accounts' && trusts(socket);
	if (access === 'alone' && !isLoopbackAddress(socket))
		return refused('Coilwright only answers the machine it runs on.');
	if (!fromProxy && forwardingHeaders.some((header) => headers.has(header)))
		return refused(
			access === 'alone'
				? 'This request came through a proxy. Without a sign-in Coilwright only answers directly.'
				: 'This request came through a proxy that this server does not know. Whoever runs it names it in COILWRIGHT_TRUSTED_PROXY.'
		);
	const host = headers.get('host') ?? '';
	if (origin === null) {
		const name = hostname(host);
		if (name === null || !isLocalName(name))
			return refused('Coilwright only answers to a local name: use localhost or 127.0.0.1.');
	} else if (host.toLowerCase() !== new URL(origin).host)
		return refused(`Coilwright is reached at ${origin}.`);
	if (
		fromProxy &&
		origin?.startsWith('https:') === true &&
		(headers.get('x-forwarded-proto') ?? 'https') !== 'https'
	)
		return refused(`This request was not encrypted. Coilwright is reached at ${origin}.`);
	const reads = method === 'GET' || method === 'HEAD' || method === 'OPTIONS';
	if (!reads && headers.get('origin') !== (origin ?? `http://${host}`))
		return refused(
			'This change did not come from a page of Coilwright. Open the page again and repeat it there.'
		);
	return {
		ok: true,
		address: fromProxy ? addressBehind(socket, headers.get('x-forwarded-for'), trusts) : socket
	};
}
