import { render } from 'svelte/server';
import { describe, expect, it } from 'vitest';
import Elevation from './Elevation.svelte';
import Section from './Section.svelte';
import { sampleOpening, samples } from '../../drawing/sample-readings.ts';

const draw = (
	drawing: typeof Elevation,
	sample: keyof typeof samples,
	onopen?: (id: string) => void
): string =>
	render(drawing, {
		props: {
			opening: sampleOpening('C-101', samples[sample]),
			measures: 'imperial',
			...(onopen ? { onopen } : {})
		}
	}).body;

const count = (text: string, part: string): number => text.split(part).length - 1;

describe.each([
	['elevation', Elevation],
	['section', Section]
] as const)('%s', (_, drawing) => {
	it.each(Object.keys(samples) as (keyof typeof samples)[])('%s: writes only figures', (sample) => {
		const body = draw(drawing, sample, () => undefined);
		expect(body).not.toMatch(/NaN|undefined|Infinity|null/u);
	});

	it('says what it is and its sizes in words', () => {
		const body = draw(drawing, 'b');
		expect(body).toContain('role="img"');
		expect(body).toMatch(/aria-label="(Elevation|Section) of C-101/u);
		expect(body).toContain('short by 1 1/2');
	});

	it('has a button with a name for every size when a working can be opened, and none otherwise', () => {
		const body = draw(drawing, 'b', () => undefined);
		expect(count(body, 'role="button"')).toBeGreaterThan(5);
		expect(count(body, 'Show the working"')).toBe(count(body, 'role="button"'));
		expect(count(draw(drawing, 'b'), 'role="button"')).toBe(0);
	});

	it('lets the curtain be drawn closed or open', () => {
		expect(draw(drawing, 'b')).toMatch(/aria-pressed="true"[^>]*>closed</u);
	});

	it('says what to do while the size is not known', () => {
		const { body } = render(drawing, {
			props: { opening: { mark: 'new', openingId: null, get: () => null }, measures: 'imperial' }
		});
		expect(body).toContain('Enter the width and height of the opening.');
		expect(body).not.toContain('<svg');
	});

	it('keeps markup in a mark as text', () => {
		const opening = { ...sampleOpening('x', samples.a), mark: '<script>alert(1)</script>' };
		expect(render(drawing, { props: { opening, measures: 'metric' } }).body).not.toContain('<script>');
	});
});
