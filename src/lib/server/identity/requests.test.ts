import { describe, expect, it } from 'vitest';
import type { Access } from '../../changes/people.ts';
import { arrive } from './requests.ts';

const nobodyTrusted = { origin: null, trusts: () => false };
const behindProxy = {
	origin: 'https://coilwright.example',
	trusts: (address: string) => address === '10.0.0.5' || address === '10.0.0.6'
};

interface Asked {
	readonly method?: string;
	readonly headers: Record<string, string>;
	readonly address?: string;
}

const arriveWith = (
	{ method = 'GET', headers, address = '127.0.0.1' }: Asked,
	serving: Parameters<typeof arrive>[1] = nobodyTrusted,
	access: Access = 'alone'
) => arrive({ method, headers: new Headers(headers), address }, serving, access);

const refusal = (...asked: Parameters<typeof arriveWith>): string | null => {
	const arrived = arriveWith(...asked);
	return arrived.ok ? null : arrived.message;
};

describe('without a sign-in a request', () => {
	it.each(['localhost:4173', '127.0.0.1:4173', '[::1]:4173', 'LOCALHOST', '127.9.9.9'])(
		'is answered under %s',
		(host) => {
			expect(refusal({ headers: { host } })).toBeNull();
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
		expect(refusal({ headers: { host } })).toMatch(/local name/u);
	});

	it.each(['x-forwarded-for', 'x-forwarded-host', 'forwarded', 'x-real-ip', 'via', 'X-Forwarded-Proto'])(
		'is refused with %s',
		(header) => {
			expect(refusal({ headers: { host: 'localhost', [header]: '127.0.0.1' } })).toMatch(/proxy/u);
		}
	);

	it.each(['192.168.1.7', '10.0.0.1', '::ffff:10.0.0.1', 'fe80::1', ''])('is refused from %s', (address) => {
		expect(refusal({ headers: { host: 'localhost' }, address })).toMatch(/machine it runs on/u);
	});

	it('is answered from the loopback however it is written', () => {
		for (const address of ['127.0.0.1', '::1', '::ffff:127.0.0.1'])
			expect(refusal({ headers: { host: 'localhost' }, address })).toBeNull();
	});

	it('that changes something comes from a page of this program', () => {
		const host = 'localhost:4173';
		for (const method of ['POST', 'PATCH', 'DELETE', 'PUT']) {
			expect(refusal({ method, headers: { host, origin: 'http://localhost:4173' } })).toBeNull();
			for (const origin of [
				'http://evil.example',
				'null',
				'http://localhost:4174',
				'https://localhost:4173',
				'http://127.0.0.1:4173'
			])
				expect(refusal({ method, headers: { host, origin } })).toMatch(/did not come from a page/u);
			expect(refusal({ method, headers: { host } })).toMatch(/did not come from a page/u);
		}
	});
});

describe('with a sign-in, behind a proxy, a request', () => {
	const host = 'coilwright.example';
	const ask = (headers: Record<string, string>, address = '10.0.0.5', method = 'GET') =>
		arriveWith({ method, headers: { host, ...headers }, address }, behindProxy, 'accounts');
	const message = (...asked: Parameters<typeof ask>): string => {
		const arrived = ask(...asked);
		return arrived.ok ? 'answered' : arrived.message;
	};
	const from = (...asked: Parameters<typeof ask>): string => {
		const arrived = ask(...asked);
		return arrived.ok ? arrived.address : 'refused';
	};

	it('is answered under the name people reach the program by, and no other', () => {
		expect(message({})).toBe('answered');
		expect(message({ host: 'COILWRIGHT.example' })).toBe('answered');
		for (const other of ['localhost', 'coilwright.example:8443', 'evil.example', ''])
			expect(message({ host: other })).toBe('Coilwright is reached at https://coilwright.example.');
	});

	it('comes from the last address that is no proxy of ours', () => {
		expect(from({ 'x-forwarded-for': '203.0.113.9' })).toBe('203.0.113.9');
		expect(from({ 'x-forwarded-for': '203.0.113.9, 10.0.0.6' })).toBe('203.0.113.9');
		// What stands further left was written by whoever asks.
		expect(from({ 'x-forwarded-for': '198.51.100.1, 203.0.113.9' })).toBe('203.0.113.9');
		expect(from({ 'x-forwarded-for': '2001:db8::7' })).toBe('2001:db8::7');
		expect(from({ 'x-forwarded-for': '203.0.113.9' }, '::ffff:10.0.0.5')).toBe('203.0.113.9');
		for (const odd of ['', 'unknown', '198.51.100.1, unknown', '<script>', '10.0.0.6'])
			expect(from({ 'x-forwarded-for': odd })).toBe('10.0.0.5');
	});

	it('with headers of a proxy is refused from anybody else', () => {
		for (const header of ['x-forwarded-for', 'x-forwarded-proto', 'forwarded', 'x-real-ip'])
			expect(message({ [header]: '10.0.0.5' }, '203.0.113.9')).toMatch(
				/^This request came through a proxy that this server does not know/u
			);
		expect(from({}, '203.0.113.9')).toBe('203.0.113.9');
	});

	it('that was not encrypted is refused', () => {
		expect(message({ 'x-forwarded-proto': 'https' })).toBe('answered');
		expect(message({ 'x-forwarded-proto': 'http' })).toMatch(/was not encrypted/u);
	});

	it('that changes something comes from a page under that name', () => {
		expect(message({ origin: 'https://coilwright.example' }, '10.0.0.5', 'POST')).toBe('answered');
		for (const origin of [
			'http://coilwright.example',
			'https://coilwright.example:8443',
			'null',
			'https://evil.example'
		])
			expect(message({ origin }, '10.0.0.5', 'POST')).toMatch(/did not come from a page/u);
		expect(message({}, '10.0.0.5', 'DELETE')).toMatch(/did not come from a page/u);
	});
});
