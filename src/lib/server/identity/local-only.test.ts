import { describe, expect, it } from 'vitest';
import { refusalOfRequest, refusalToServe } from './local-only.ts';

describe('serving', () => {
	it.each(['127.0.0.1', '::1', 'localhost', '127.3.2.1'])('is allowed on %s', (host) => {
		expect(refusalToServe(host, {})).toBeNull();
	});

	it.each([
		['0.0.0.0', {}, /only listens on this machine/u],
		['::', {}, /only listens on this machine/u],
		['192.168.1.4', {}, /only listens on this machine/u],
		['127.0.0.1.example', {}, /only listens on this machine/u],
		['127.0.0.1', { DATABASE_URL: 'postgres://db' }, /DATABASE_URL/u],
		['127.0.0.1', { COILWRIGHT_TRUSTED_PROXY: '10.0.0.1' }, /TRUSTED_PROXY/u]
	])('is refused on %s with %o', (host, environment, reason) => {
		expect(refusalToServe(host, environment)).toMatch(reason);
	});
});

describe('a request', () => {
	const refusal = (
		method: string,
		headers: Record<string, string>,
		address = '127.0.0.1',
		protocol = 'http:'
	): string | null => refusalOfRequest({ method, headers: new Headers(headers) }, protocol, address);

	it.each(['localhost:4173', '127.0.0.1:4173', '[::1]:4173', 'LOCALHOST', '127.9.9.9'])(
		'is answered under %s',
		(host) => {
			expect(refusal('GET', { host })).toBeNull();
		}
	);

	it.each([
		'coilwright.example',
		'localhost.example',
		'192.168.0.2',
		'127.0.0.1.example:80',
		'localhost@evil',
		'',
		'[::2]',
		'2130706433',
		'127.1'
	])('is refused under %s', (host) => {
		expect(refusal('GET', { host })).toMatch(/local name/u);
	});

	it.each(['x-forwarded-for', 'x-forwarded-host', 'forwarded', 'x-real-ip', 'via', 'X-Forwarded-Proto'])(
		'is refused with %s',
		(header) => {
			expect(refusal('GET', { host: 'localhost', [header]: '127.0.0.1' })).toMatch(/proxy/u);
		}
	);

	it.each(['192.168.1.7', '10.0.0.1', '::ffff:10.0.0.1', 'fe80::1', ''])('is refused from %s', (address) => {
		expect(refusal('GET', { host: 'localhost' }, address)).toMatch(/machine it runs on/u);
	});

	it('is answered from the loopback however it is written', () => {
		for (const address of ['127.0.0.1', '::1', '::ffff:127.0.0.1'])
			expect(refusal('GET', { host: 'localhost' }, address)).toBeNull();
	});

	it('that changes something comes from a page of this program', () => {
		const host = 'localhost:4173';
		for (const method of ['POST', 'PATCH', 'DELETE', 'PUT']) {
			expect(refusal(method, { host, origin: 'http://localhost:4173' })).toBeNull();
			for (const origin of [
				'http://evil.example',
				'null',
				'http://localhost:4174',
				'https://localhost:4173',
				'http://127.0.0.1:4173'
			])
				expect(refusal(method, { host, origin })).toMatch(/did not come from a page/u);
			expect(refusal(method, { host })).toMatch(/did not come from a page/u);
		}
	});
});
