/** The engineering of an opening as it is read: words, figures that open their working, what is not known. */
import { render } from 'svelte/server';
import { describe, expect, it } from 'vitest';
import { engineOf, openingA, openingB, typedRow, type Typed } from '../../../../tests/opening-rows.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import type { Read } from '../../drawing/readings.ts';
import EngineeringPanel from './EngineeringPanel.svelte';
import EngineeringTables from './EngineeringTables.svelte';
import { figures } from './figure.ts';
import { handLiftWords } from './lifting-words.ts';
import Use from './Use.svelte';

const engine = engineOf();

function openingOf(typed: Typed, measures: Measures = 'imperial'): OpeningTakeoff {
	const [opening] = engine.takeoff([typedRow(typed)], measures).openings;
	if (!opening) throw new Error('no opening');
	return opening;
}

function panel(typed: Typed, measures: Measures = 'imperial'): string {
	const opening = openingOf(typed, measures);
	const read: Read = (id) => opening.get(id);
	return render(EngineeringPanel, { props: { engine, opening, measures, read, onopen: () => undefined } })
		.body;
}

const byMotor: Typed = { ...openingB, supplyVoltage: '208', feedLength: `60'-0"` };
const byHand: Typed = { ...openingA, operation: 'pushUp' };

it.each([
	['motor', byMotor, 'imperial'],
	['motor', byMotor, 'metric'],
	['hand', byHand, 'imperial'],
	['no report', { ...openingA, leftSubstrate: 'hollowBlock' }, 'imperial'],
	['nothing passes', { ...openingB, openingWidth: `60'-0"` }, 'imperial']
] as const)('writes only figures: %s, %s, %s', (_, typed, measures) => {
	expect(panel(typed, measures)).not.toMatch(/NaN|undefined|Infinity|null/u);
});

it('leaves the circuit to an electrician', () => {
	const body = panel(byMotor);
	expect(body).toContain('For a licensed electrician to confirm.');
	expect(body).toContain('AWG copper');
	expect(body).not.toContain('Fatigue factor');
});

it('always warns of the springs', () => {
	expect(panel(byHand)).toContain('store energy that can kill');
	const tables = render(EngineeringTables, {
		props: { engine, openings: [openingOf(byHand)], measures: 'imperial', onopen: () => undefined }
	}).body;
	expect(tables).toContain('Wound springs store energy that can kill.');
});

it('says what is not known, with the stop beside it', () => {
	const body = panel({ ...openingA, leftSubstrate: 'hollowBlock' });
	expect(body).toContain('not known');
	expect(body).toContain('only a tested report can say');
});

it('draws each plot with words and a table for those who don’t see it', () => {
	const body = panel(byHand);
	expect(body.split('role="img"').length - 1).toBeGreaterThanOrEqual(3);
	expect(body).toContain('The springs balance it closed and open');
	expect(body.split('<caption').length - 1).toBe(3);
});

describe('use of an anchor', () => {
	const use = (value: number): string =>
		render(Use, {
			props: {
				figure: { id: 'useGuideLeft', title: 'Use', text: String(value), known: true },
				value,
				onopen: () => undefined,
				of: 'Left guide'
			}
		}).body;

	it('has a bar as long as it is used, and never longer than whole', () => {
		expect(use(0.25)).toContain('width: 25%');
		expect(use(1.8)).toContain('width: 100%');
	});

	it('says in words that it does not hold', () => {
		expect(use(1.8)).toContain('does not hold');
		expect(use(1)).not.toContain('does not hold');
		expect(use(1.001)).toContain('1.0010');
	});
});

describe('lifting by hand', () => {
	const words = (given: Readonly<Record<string, number>>): string => {
		const opening = openingOf(openingA);
		const read: Read = (id) => given[id] ?? opening.get(id);
		return handLiftWords(read, figures(engine, 'imperial', read));
	};
	const inch = 25_400_000;

	it('is within the limit or over it', () => {
		expect(words({ coilWeight: 20, handLiftLimit: 22 })).toContain('Within the limit');
		expect(words({ coilWeight: 30, handLiftLimit: 22 })).toContain('Over the limit');
	});

	it('has no index where the equation allows none', () => {
		const opening = openingOf(openingA);
		const none: Read = (id) => (id === 'liftingIndex' ? null : id === 'handLiftLimit' ? 0 : opening.get(id));
		expect(figures(engine, 'imperial', none)('liftingIndex').text).toBe('does not apply');
	});

	it('says why the equation allows none: hands over 70 in (NIOSH 94-110, 1.3.2) or more than 25 in out (1.3.1)', () => {
		const high = words({
			handLiftLimit: 0,
			liftTo: 91 * inch,
			liftTravel: 61 * inch,
			coilReachOutTo: 12 * inch
		});
		expect(high).toContain(`end 7'-7" above the floor`);
		expect(high).not.toContain('out from the body');
		const far = words({
			handLiftLimit: 0,
			liftTo: 60 * inch,
			liftTravel: 30 * inch,
			coilReachOutTo: 26 * inch
		});
		expect(far).toContain('26" out from the body');
		expect(far).not.toContain('above the floor');
	});
});
