import { describe, expect, it } from 'vitest';
import { RefusedStart, servingOf } from './serving.ts';

const refusalOf = (environment: Record<string, string>): string => {
	try {
		servingOf(environment, '/srv/coilwright');
	} catch (error) {
		if (error instanceof RefusedStart) return error.message;
		throw error;
	}
	throw new Error('it was not refused');
};

const origin = 'https://coilwright.example';

describe('alone at this machine', () => {
	it.each<Record<string, string>>([
		{},
		{ HOST: '127.0.0.1' },
		{ HOST: '::1' },
		{ HOST: 'localhost' },
		{ HOST: '127.3.2.1' },
		{ HOST: '', DATABASE_URL: '', COILWRIGHT_TRUSTED_PROXY: ' ' },
		{ COILWRIGHT_ORIGIN: 'http://localhost:4173' }
	])('with %o', (environment) => {
		expect(servingOf(environment, '/srv/coilwright').local).toBe(true);
	});

	it.each<Record<string, string>>([
		{ HOST: '0.0.0.0', COILWRIGHT_ORIGIN: origin },
		{ HOST: '::', COILWRIGHT_ORIGIN: origin },
		{ HOST: '192.168.1.4', COILWRIGHT_ORIGIN: origin },
		{ HOST: '127.0.0.1.example', COILWRIGHT_ORIGIN: origin },
		{ DATABASE_URL: 'postgres://db/coilwright' },
		{ COILWRIGHT_TRUSTED_PROXY: '127.0.0.1', COILWRIGHT_ORIGIN: origin },
		{ COILWRIGHT_ORIGIN: origin }
	])('not with %o', (environment) => {
		expect(servingOf(environment, '/srv/coilwright').local).toBe(false);
	});
});

describe('what is not said', () => {
	it('is the folder beside the program, the loopback, and the secret in that folder', () => {
		expect(servingOf({}, '/srv/coilwright')).toMatchObject({
			database: '/srv/coilwright/data',
			shared: false,
			secretFile: '/srv/coilwright/data/secret',
			host: '127.0.0.1',
			port: 4173,
			askedPort: null,
			origin: null
		});
	});

	it('leaves the secret in the data folder of a server with PostgreSQL', () => {
		const environment = { COILWRIGHT_DATA: '/var/coil', DATABASE_URL: 'postgresql://db/coilwright' };
		expect(servingOf(environment, '/srv')).toMatchObject({
			database: 'postgresql://db/coilwright',
			secretFile: '/var/coil/secret'
		});
		expect(servingOf({ ...environment, COILWRIGHT_SECRET_FILE: '/run/coil' }, '/srv').secretFile).toBe(
			'/run/coil'
		);
	});
});

describe('what does not go together is refused', () => {
	it.each<[Record<string, string>, RegExp]>([
		[{ HOST: '0.0.0.0' }, /^HOST is 0\.0\.0\.0, so others can come in\. Say in COILWRIGHT_ORIGIN/u],
		[{ COILWRIGHT_TRUSTED_PROXY: '10.0.0.1' }, /^COILWRIGHT_TRUSTED_PROXY is set, so others can come in\./u],
		[
			{ COILWRIGHT_ORIGIN: 'http://coilwright.example' },
			/without https, passwords would cross the network in the clear/u
		],
		[{ COILWRIGHT_ORIGIN: 'coilwright.example' }, /is no address/u],
		[{ COILWRIGHT_ORIGIN: 'ftp://coilwright.example' }, /no address of a web page/u],
		[{ COILWRIGHT_ORIGIN: `${origin}/app` }, /says more than where/u],
		[{ COILWRIGHT_ORIGIN: 'https://a:b@coilwright.example' }, /says more than where/u],
		[{ COILWRIGHT_ORIGIN: origin, COILWRIGHT_TRUSTED_PROXY: '10.0.0.1,proxy' }, /has “proxy” in it/u],
		[{ COILWRIGHT_ORIGIN: origin, COILWRIGHT_TRUSTED_PROXY: '10.0.0.0/33' }, /has “10\.0\.0\.0\/33” in it/u],
		[{ COILWRIGHT_ORIGIN: origin, COILWRIGHT_TRUSTED_PROXY: '10.0.0.1,' }, /has “” in it/u],
		[{ PORT: 'many' }, /^PORT is many; it is a number from 0 to 65535\.$/u],
		[{ PORT: '65536' }, /^PORT is 65536/u],
		[{ PORT: '70000' }, /^PORT is 70000/u]
	])('%o', (environment, words) => {
		expect(refusalOf(environment)).toMatch(words);
	});

	it('a database address that is none, without repeating it: it may hold a password', () => {
		const words = refusalOf({ DATABASE_URL: 'mysql://me:hush@db/coilwright' });
		expect(words).toMatch(/^DATABASE_URL is not the address of a PostgreSQL database/u);
		expect(words).not.toContain('hush');
	});
});

describe('trusted proxies', () => {
	it('are addresses and networks', () => {
		const { trusts } = servingOf(
			{ COILWRIGHT_ORIGIN: origin, COILWRIGHT_TRUSTED_PROXY: '10.0.0.5, 172.16.0.0/12,fd00::/8' },
			'/srv'
		);
		expect(['10.0.0.5', '172.31.255.255', 'fd12::1'].map(trusts)).toEqual([true, true, true]);
		expect(['10.0.0.6', '172.32.0.1', 'fe80::1', ''].map(trusts)).toEqual([false, false, false, false]);
	});

	it('are none when nothing is said', () => {
		expect(servingOf({}, '/srv').trusts('127.0.0.1')).toBe(false);
	});
});
