/** Where a rule comes from stands in its working, in words. */
import { render } from 'svelte/server';
import { expect, it } from 'vitest';
import { engineOf, openingB, typedRow } from '../../../../tests/opening-rows.ts';
import { basisWords } from '../parts/check-words.ts';
import { Working } from './working.svelte.ts';
import WorkingPanel from './WorkingPanel.svelte';

const engine = engineOf();
const [opening] = engine.takeoff([typedRow(openingB)], 'imperial').openings;

function working(id: string): string {
	if (!opening) throw new Error('no opening');
	const open = new Working();
	open.open('B', id, (asked) => engine.explain(opening, asked, 'imperial'));
	return render(WorkingPanel, { props: { working: open } }).body;
}

it.each([
	['concreteBreakoutGuideLeft', 'Published', 'ACI 318-19'],
	['disconnectWithin', 'From memory', 'NEC (NFPA 70) 2023'],
	['deflectionLimit', 'Common practice', '0.03 in per foot'],
	['requiredTorque', 'Shop book', 'own figure'],
	['shop.guideFriction', 'Invented for the demo', 'Demo shop book']
])('%s: %s', (id, basis, text) => {
	const body = working(id);
	expect(body).toContain(basis);
	expect(body).toContain(text);
});

it('has a basis and words for every quantity', () => {
	if (!opening) throw new Error('no opening');
	for (const { id } of engine.quantities) {
		const { source } = engine.explain(opening, id, 'imperial');
		expect(Object.keys(basisWords), id).toContain(source.basis);
		expect(source.text, id).not.toBe('');
	}
});
