/** What the environment says about how the program is to serve. Nothing else reads it. */
import { BlockList, isIP } from 'node:net';
import { join } from 'node:path';
import { isLocalName, isLoopbackAddress } from './local-names.ts';

/** Why the program does not start: a sentence for whoever starts it. */
export class RefusedStart extends Error {
	override readonly name = 'RefusedStart';
}

export type Environment = Readonly<Record<string, string | undefined>>;

/** Where things are kept. */
export interface Places {
	/** As `openStorage` takes it: a folder, or the URL of a PostgreSQL database. */
	readonly database: string;
	/** Whether several servers may share the database. */
	readonly shared: boolean;
	readonly secretFile: string;
}

export interface Serving extends Places {
	/** To listen on. */
	readonly host: string;
	readonly port: number;
	/** Null: nobody asked for a port, so the next free one does. */
	readonly askedPort: number | null;
	/** Where people reach the program, `https://coilwright.example`; null: by any name of this machine, over http. */
	readonly origin: string | null;
	/** Whether headers of a request from this address tell where it came from first. */
	readonly trusts: (address: string) => boolean;
	/** Only whoever sits at this machine can come in, so nobody has to sign in while there is no account. */
	readonly local: boolean;
}

const defaultHost = '127.0.0.1';
const defaultPort = 4173;

/**
 * @param root folder of the program
 * @throws RefusedStart
 */
export function placesOf(environment: Environment, root: string): Places {
	const set = reader(environment);
	const folder = set('COILWRIGHT_DATA') ?? join(root, 'data');
	const url = set('DATABASE_URL');
	if (url !== null && !/^postgres(?:ql)?:\/\//u.test(url))
		throw new RefusedStart(
			'DATABASE_URL is not the address of a PostgreSQL database. It begins with postgres://; without it the database is a file in the data folder.'
		);
	return {
		database: url ?? folder,
		shared: url !== null,
		secretFile: set('COILWRIGHT_SECRET_FILE') ?? join(folder, 'secret')
	};
}

/**
 * @param root folder of the program
 * @throws RefusedStart where something is missing or does not go together.
 */
export function servingOf(environment: Environment, root: string): Serving {
	const set = reader(environment);
	const host = set('HOST') ?? defaultHost;
	const asked = set('PORT');
	const port = asked === null ? defaultPort : Number(asked);
	if (!Number.isInteger(port) || port < 0 || port > 65_535)
		throw new RefusedStart(`PORT is ${String(asked)}; it is a number from 0 to 65535.`);
	const proxies = set('COILWRIGHT_TRUSTED_PROXY');
	const origin = originOf(set('COILWRIGHT_ORIGIN'));
	const onLoopback = isLoopbackAddress(host) || host === 'localhost';
	if (origin === null && (!onLoopback || proxies !== null))
		throw new RefusedStart(
			`${onLoopback ? 'COILWRIGHT_TRUSTED_PROXY is set' : `HOST is ${host}`}, so others can come in. Say in COILWRIGHT_ORIGIN where they reach Coilwright, such as https://coilwright.example; alone at this machine leave all three out.`
		);
	const places = placesOf(environment, root);
	return {
		...places,
		host,
		port,
		askedPort: asked === null ? null : port,
		origin: origin?.origin ?? null,
		trusts: proxies === null ? () => false : addressesIn(proxies),
		local:
			onLoopback && !places.shared && proxies === null && (origin === null || isLocalName(origin.hostname))
	};
}

/** Unset and empty are the same. */
const reader =
	(environment: Environment) =>
	(name: string): string | null => {
		const value = environment[name]?.trim() ?? '';
		return value === '' ? null : value;
	};

function originOf(text: string | null): URL | null {
	if (text === null) return null;
	const wrong = (why: string): never => {
		throw new RefusedStart(
			`COILWRIGHT_ORIGIN is ${text}; ${why} It is written like https://coilwright.example, and nothing behind the name.`
		);
	};
	if (!URL.canParse(text)) return wrong('it is no address.');
	const url = new URL(text);
	if (url.protocol !== 'https:' && url.protocol !== 'http:') return wrong('it is no address of a web page.');
	if (
		url.username !== '' ||
		url.password !== '' ||
		url.pathname !== '/' ||
		url.search !== '' ||
		url.hash !== ''
	)
		return wrong('it says more than where Coilwright is reached.');
	if (url.protocol === 'http:' && !isLocalName(url.hostname))
		return wrong('without https, passwords would cross the network in the clear.');
	return url;
}

/** Addresses and networks (`10.0.0.0/8`), comma separated. */
function addressesIn(text: string): (address: string) => boolean {
	const list = new BlockList();
	for (const one of text.split(',').map((part) => part.trim())) {
		const [address = '', prefix, ...more] = one.split('/');
		const version = isIP(address);
		const bits = prefix === undefined ? null : Number(prefix);
		const most = version === 4 ? 32 : 128;
		if (
			version === 0 ||
			more.length > 0 ||
			(bits !== null && (prefix === '' || !Number.isInteger(bits) || bits < 0 || bits > most))
		)
			throw new RefusedStart(
				`COILWRIGHT_TRUSTED_PROXY has “${one}” in it; it lists network addresses, such as 10.0.0.5, with commas between them.`
			);
		const family = version === 4 ? 'ipv4' : 'ipv6';
		if (bits === null) list.addAddress(address, family);
		else list.addSubnet(address, bits, family);
	}
	return (address) => list.check(address, isIP(address) === 6 ? 'ipv6' : 'ipv4');
}

/** Why a server that others can reach does not start without accounts. */
export const needsAccounts =
	'Others can reach this server, and there is no account here to sign in with. Make the first one:\n' +
	'  npm run --silent coilwright -- account --company "Your company" --name "Your name" --email you@company.example';
