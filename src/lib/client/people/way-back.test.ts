import { describe, expect, it } from 'vitest';
import { wayBack } from './way-back.ts';

describe('the way back after signing in', () => {
	it('is the page that was asked for', () => {
		expect(wayBack('/jobs/abc/openings?row=2')).toBe('/jobs/abc/openings?row=2');
		expect(wayBack('/people')).toBe('/people');
		expect(wayBack('/')).toBe('/');
	});

	it('never leads to another site', () => {
		for (const wish of [
			'https://elsewhere.example/',
			'//elsewhere.example/',
			'/\\elsewhere.example/',
			'/\t/elsewhere.example/',
			'/\n/elsewhere.example',
			'///elsewhere.example',
			'javascript:alert(1)',
			'elsewhere.example',
			''
		])
			expect(wayBack(wish)).toBe('/');
	});

	it('stays on the site whatever dots stand in the path', () => {
		// Resolved as RFC 3986, 5.2.4 says; what is left begins with two slashes, which would name another site.
		expect(wayBack('/x/..//elsewhere.example')).toBe('/');
	});

	it('is the list of jobs where none was asked for, and never the page of signing in or an answer of data', () => {
		expect(wayBack(null)).toBe('/');
		expect(wayBack('/sign-in?to=/people')).toBe('/');
		expect(wayBack('/api/jobs')).toBe('/');
	});
});
