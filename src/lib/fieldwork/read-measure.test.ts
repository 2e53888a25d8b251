/**
 * A measure against the takeoff, with the worked openings of the invented demo book; figures added up by hand beside each
 * case (inches). Readings are invented.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { engineOf, openingA, openingB, typedRow, type Typed } from '../../../tests/opening-rows.ts';
import { partsOf } from '../takeoff/parts.ts';
import type { OpeningTakeoff, Part } from '../takeoff/result.ts';
import type { FieldReadings } from './field-measure.ts';
import type { Finding, MeasuredThing } from './finding.ts';
import type { OrderLineOfPart } from './part-changes.ts';
import { readMeasure, type MeasureQuestion, type MeasureVerdict } from './read-measure.ts';
import { defaultTolerances } from './tolerances.ts';
import { inches, nothing, plumb, trueOpening } from './sample-measures.ts';

const engine = engineOf();

function openingOf(typed: Typed): OpeningTakeoff {
	const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
	if (!opening) throw new Error('no opening');
	return opening;
}

const b = openingOf(openingB);
const trueB = trueOpening(192, 108, { left: 'concrete', right: 'studWithBacking' });

const read = (
	readings: Partial<FieldReadings>,
	opening = b,
	more: Partial<MeasureQuestion> = {}
): MeasureVerdict =>
	readMeasure({
		engine,
		opening,
		openingId: opening.openingIds[0] ?? '',
		readings: { ...nothing, ...readings },
		measures: 'imperial',
		...more
	});

function finding({ findings }: MeasureVerdict, thing: MeasuredThing): Finding {
	const found = findings.find((one) => one.thing === thing);
	if (!found) throw new Error(`nothing is said of ${thing}`);
	return found;
}

/** Both jambs plumb in the wall and out of it by this much at sill, half height and head. */
const outOfWall = (...off: readonly [number, number, number]): FieldReadings['plumb'] => ({
	left: plumb([0, 0, off[0]], [54, 0, off[1]], [108, 0, off[2]]),
	right: trueB.plumb.right
});

describe('verdict', () => {
	it('agrees where everything is as drawn', () => {
		const verdict = read(trueB);
		expect(verdict.outcome).toBe('agrees');
		expect(verdict.missing).toEqual([]);
		expect(verdict.effects.text).toBe('No part changes.');
		expect(verdict.effects.parts.every(({ state }) => state === 'unchanged')).toBe(true);
	});

	it('is incomplete where nothing was measured, and lists what is to be', () => {
		const verdict = read({});
		expect(verdict.outcome).toBe('incomplete');
		// Width, two heights, skew, two jambs in two planes, sill, headroom, two side rooms, two walls.
		expect(verdict.missing).toHaveLength(14);
		expect(verdict.findings.every(({ measured }) => measured === null)).toBe(true);
		expect(verdict.shims).toEqual({ left: null, right: null });
	});

	it('asks for no side room between jambs', () => {
		const opening = openingOf({ ...openingA, mounting: 'betweenJambs', guide: 'counter-between' });
		const readings = {
			...trueOpening(120, 48, { left: 'groutedBlock', right: 'groutedBlock' }),
			leftSideRoom: null,
			rightSideRoom: null
		};
		expect(read(readings, opening).outcome).toBe('agrees');
	});

	it.each([
		['width', { widths: { bottom: 192, middle: 192.25, top: 192 } }, 'within'],
		['width', { widths: { bottom: 192, middle: 192.3125, top: 192 } }, 'stop'],
		// A width that is still missing may be greater, never take this one away.
		['width', { widths: { bottom: 192.3125, middle: null, top: null } }, 'stop'],
		['width', { widths: { bottom: 191.5, middle: null, top: null } }, 'notMeasured'],
		['heightLeft', { heights: { left: 107.75, right: 108 } }, 'within'],
		['heightRight', { heights: { left: 108, right: 107.6875 } }, 'stop'],
		// 1/8 for each 10 ft: 16 ft may have 0.2.
		['sill', { sillRise: -0.1875 }, 'within'],
		['sill', { sillRise: 0.25 }, 'stop'],
		// Extension 2, bracket 16, access 1 1/2.
		['headroom', { headroom: 19.5 }, 'within'],
		['headroom', { headroom: 19.4375 }, 'stop'],
		// Drive at the left: 3 + 1/4 + 1 + 1 1/2 = 5 3/4; at the right 4 1/4.
		['sideRoomLeft', { leftSideRoom: 5.5 }, 'stop'],
		['sideRoomRight', { rightSideRoom: 4.25 }, 'within']
	] as const)('%s of %j is %s', (thing, change, state) => {
		const scaled = JSON.parse(JSON.stringify(change), (_, value: unknown) =>
			typeof value === 'number' ? inches(value) : value
		) as Partial<FieldReadings>;
		const verdict = read({ ...trueB, ...scaled });
		expect(finding(verdict, thing).state).toBe(state);
		expect(verdict.outcome).toBe({ within: 'agrees', stop: 'stop', notMeasured: 'incomplete' }[state]);
	});

	it('stops at a lean of more than 1/4 in', () => {
		// d1² = 192.5² + 108² = 48720.25, d2² = 191.5² + 108² = 48336.25: 384 / 768 = 1/2.
		const diagonals = { rising: inches(Math.sqrt(48720.25)), falling: inches(Math.sqrt(48336.25)) };
		const skew = finding(read({ ...trueB, diagonals }), 'skew');
		expect(skew).toMatchObject({ state: 'stop', measured: inches(0.5) });
		expect(skew.text).toBe(`The head stands 1/2" to the right of the sill; 1/4" is allowed.`);
	});

	it('stops at a lean to the left as to the right', () => {
		const diagonals = { rising: inches(Math.sqrt(48336.25)), falling: inches(Math.sqrt(48720.25)) };
		expect(finding(read({ ...trueB, diagonals }), 'skew')).toMatchObject({
			state: 'stop',
			measured: -inches(0.5)
		});
	});

	it('stops at another wall, and works its anchors out anew', () => {
		const verdict = read({ ...trueB, leftSubstrate: 'wood' });
		expect(finding(verdict, 'wallLeft')).toMatchObject({
			state: 'stop',
			drawn: 'concrete',
			measured: 'wood'
		});
		const anchors = verdict.effects.parts.filter(({ kind }) => kind === 'anchor');
		expect(anchors.map(({ side, state }) => [side, state])).toEqual([
			['left', 'changed'],
			['right', 'unchanged'],
			[null, 'unchanged']
		]);
	});

	it('puts walls and rooms into the row as its drawing is seen', () => {
		const turned = openingOf({ ...openingB, drawnFrom: 'farSide', leftWallStrength: '4000 psi' });
		// From the far side the drawing’s left (concrete) is the coil side’s right.
		const { changes } = read(
			{ ...trueB, leftSubstrate: 'studWithBacking', rightSubstrate: 'wood', leftSideRoom: inches(9) },
			turned
		).effects;
		expect(changes.leftSubstrate).toBe('wood');
		expect(changes.rightSubstrate).toBeUndefined();
		expect(changes.rightSideRoom).toMatchObject({ amount: inches(9) });
		expect(changes.leftWallStrength).toBeNull();
	});

	it('tells readings that can’t be and leaves them out', () => {
		const verdict = read({ ...trueB, widths: { ...trueB.widths, top: -5 }, leftSubstrate: 'cheese' });
		expect(verdict.outcome).toBe('stop');
		const told = verdict.findings.filter(({ thing }) => thing === 'readings').map(({ text }) => text);
		expect(told).toHaveLength(2);
		expect(told[0]).toContain('width at the head');
		expect(told[1]).toContain('concrete');
		expect(finding(verdict, 'width').state).toBe('notMeasured');
	});

	it('tells two plumb readings at one height that differ', () => {
		const left = plumb([0, 0, 0], [54, 0, 0], [54, 0, 0.25], [108, 0, 0]);
		const verdict = read({ ...trueB, plumb: { ...trueB.plumb, left } });
		expect(finding(verdict, 'readings').text).toContain('left jamb');
	});

	it('wants plumb read near both ends', () => {
		// Anchors from 4 to 106; readings from 30 leave 26 below them.
		const left = plumb([30, 0, 0], [100, 0, 0]);
		const verdict = read({ ...trueB, plumb: { ...trueB.plumb, left } });
		expect(finding(verdict, 'plumbOutLeft')).toMatchObject({ state: 'notMeasured' });
		expect(finding(verdict, 'plumbOutLeft').clears).toContain('at 28" or lower');
		expect(verdict.outcome).toBe('incomplete');
	});

	it('has nothing to compare with where the row has no size', () => {
		const verdict = read(trueB, openingOf({ mark: 'D' }));
		expect(verdict.outcome).not.toBe('agrees');
		expect(finding(verdict, 'width').state).toBe('notMeasured');
		expect(finding(verdict, 'headroom').state).toBe('notMeasured');
	});
});

describe('shims', () => {
	it('stop where they are thicker than 3/4 in', () => {
		// From 0 at 54 to −0.8 at 108: at the top anchor 106, 0.8 · 52/54 = 0.77037.
		const verdict = read({ ...trueB, plumb: outOfWall(0, 0, -0.8) });
		expect(finding(verdict, 'plumbOutLeft')).toMatchObject({
			state: 'stop',
			measured: inches((0.8 * 52) / 54)
		});
	});

	it('are in the wall between jambs, where the guide stands against the jamb', () => {
		// A is 48 high, its guide 50, anchors from 4 to 46; the left jamb falls back by 0.5 from sill to 40, then stays.
		const opening = openingOf({ ...openingA, mounting: 'betweenJambs', guide: 'counter-between' });
		const readings = {
			...trueOpening(120, 48, { left: 'groutedBlock', right: 'groutedBlock' }),
			plumb: { left: plumb([0, 0, 2], [40, -0.5, 2]), right: plumb([0, 0, 0], [40, 0, 0]) }
		};
		const { shims } = read(readings, opening);
		expect(shims.left?.at.at(0)?.exact).toBe(inches(0.05));
		expect(shims.left?.at.at(-1)?.exact).toBe(inches(0.5));
		expect(shims.right?.thickest?.exact).toBe(0);
	});

	it('beside a guide on the face of the wall the jamb may lean 1/4 in', () => {
		const leaning = (off: number) =>
			finding(
				read({
					...trueB,
					plumb: { ...trueB.plumb, left: plumb([0, 0, 0], [108, -off, 0]) }
				}),
				'plumbInLeft'
			);
		expect(leaning(0.25).state).toBe('within');
		expect(leaning(0.3125)).toMatchObject({ state: 'stop', measured: inches(0.3125) });
	});

	it('take the guide of their own side', () => {
		// Left 120 high: its guide is 122, the top anchor 4 in below its end.
		const verdict = read({ ...trueB, heights: { left: inches(120), right: inches(108) } });
		expect(verdict.shims.left?.at.at(-1)?.height).toBe(inches(118));
		expect(verdict.shims.right?.at.at(-1)?.height).toBe(inches(106));
	});

	it('come in millimetres in a metric job', () => {
		// 0.5 · 52/54 = 0.48148 in = 12.23 mm.
		const verdict = read({ ...trueB, plumb: outOfWall(0, 0, -0.5) }, b, { measures: 'metric' });
		expect(verdict.shims.left?.thickest?.made).toBe(13_000_000);
	});

	it('earn a caution beyond the shop’s 1/4 in while the anchor passes them', () => {
		// 0.5 · 52/54 = 0.48, made 1/2; the anchor of 3 3/4 has 2 embedded, a leg of 3/16 and 3/4 for the nut: 13/16 is left.
		const verdict = read({ ...trueB, plumb: outOfWall(0, 0, -0.5) });
		expect(finding(verdict, 'anchorLeft')).toMatchObject({
			state: 'within',
			measured: inches(0.5),
			drawn: inches(0.8125)
		});
		expect(verdict.cautions.map(({ text }) => text).join()).toContain('1/2"');
		expect(verdict.outcome).toBe('agrees');
	});

	it('stop where they eat the embedment, with a length that reaches', () => {
		const tolerances = { ...defaultTolerances, shim: inches(2) };
		const verdict = read({ ...trueB, plumb: outOfWall(0, 0, -0.935) }, b, { tolerances });
		// 0.935 · 52/54 = 0.90037, made 15/16: 1/8 more than 13/16, so 2 − 1/8 stand in the wall and 3 7/8 is needed.
		const anchor = finding(verdict, 'anchorLeft');
		expect(anchor).toMatchObject({ state: 'stop', measured: inches(0.9375), difference: inches(0.125) });
		expect(anchor.text).toContain('it would stand 1 7/8" in the wall, 2" is needed');
		expect(anchor.clears).toContain('The anchor of 5" there');
	});
});

describe('effects', () => {
	const changesOf = ({ effects }: MeasureVerdict, kind: Part['kind'], side: Part['side'] = null) =>
		effects.parts
			.filter((part) => part.kind === kind && part.side === side)
			.flatMap(({ differences }) =>
				differences.map(({ attribute, difference, before, after }) =>
					difference === null
						? `${attribute} ${before} → ${after}`
						: `${attribute} ${String(difference / inches(1))}`
				)
			);

	it('a height of its own changes the guide of its side alone', () => {
		// 115.375 + 19.79 hanging and held, 2 a row: 68 rows as before.
		const verdict = read({ ...trueB, heights: { left: inches(108.375), right: inches(108) } });
		expect(changesOf(verdict, 'guide', 'left')).toEqual(['length 0.375']);
		expect(changesOf(verdict, 'guide', 'right')).toEqual([]);
		expect(changesOf(verdict, 'curtain')).toEqual([]);
		expect(verdict.effects.text).toMatch(
			/^Guide left 3\/8" longer; guide right unchanged; .*barrel.* unchanged\.$/u
		);
	});

	it('a height 2 in more makes guides and curtain longer', () => {
		// Guides 110 + 2. Curtain (117 + 19.79) / 2 → 69 rows, one more of 2 in. Bracket 16 still takes the coil.
		const verdict = read({ ...trueB, heights: { left: inches(110), right: inches(110) } });
		expect(changesOf(verdict, 'guide', 'left')).toEqual(['length 2']);
		expect(changesOf(verdict, 'guide', 'right')).toEqual(['length 2']);
		expect(changesOf(verdict, 'curtain')).toEqual(['length 2']);
		expect(changesOf(verdict, 'bracket', 'left')).toEqual([]);
		expect(changesOf(verdict, 'barrel')).toEqual([]);
	});

	it('the greater height is the curtain’s, whichever side it is at', () => {
		for (const heights of [
			{ left: inches(110), right: inches(108) },
			{ left: inches(108), right: inches(110) }
		]) {
			const verdict = read({ ...trueB, heights });
			expect(changesOf(verdict, 'curtain')).toEqual(['length 2']);
			expect(verdict.effects.changes.openingHeight).toMatchObject({ amount: inches(110) });
		}
	});

	it('a width 1/2 in more widens curtain, bar, barrel and hood', () => {
		// Hood of two pieces: (199.5 + 2) / 2 = 100.75, 1/4 more.
		const widths = { bottom: inches(192.5), middle: inches(192.5), top: inches(192.5) };
		const verdict = read({ ...trueB, widths });
		expect(changesOf(verdict, 'curtain')).toEqual(['width 0.5']);
		expect(changesOf(verdict, 'bottomBar')).toEqual(['length 0.5']);
		expect(changesOf(verdict, 'barrel')).toEqual(['length 0.5']);
		expect(changesOf(verdict, 'hoodPiece')).toEqual(['length 0.25']);
		expect(changesOf(verdict, 'guide', 'left')).toEqual([]);
	});

	it('within tolerance changes no part', () => {
		const verdict = read({ ...trueB, heights: { left: inches(108.25), right: inches(107.75) } });
		expect(verdict.effects.text).toBe('No part changes.');
		expect(verdict.effects.changes.openingHeight).toBeUndefined();
	});

	it('counts the anchors of each guide by its own length', () => {
		// Right wall of stud, spacing 12 (ten on 110): 130 − 8 = 122 → 11 + 1 = 12 on the right; the left stays at 108.
		const verdict = read({ ...trueB, heights: { left: inches(108), right: inches(128) } });
		const right = openingOf({ ...openingB, openingHeight: '128"' });
		const bracket = right.get('anchorsPerBracket');
		const [change] = changesOf(verdict, 'anchor', 'right');
		expect(right.get('anchorsPerGuideRight')).toBe(12);
		expect(change).toBe(`quantity ${String(10 + 4)} → ${String(12 + Number(bracket))}`);
		expect(changesOf(verdict, 'anchor', 'left')).toEqual([]);
		expect(changesOf(verdict, 'guide', 'left')).toEqual([]);
	});

	it('names the order lines that must change', () => {
		const parts = partsOf(engine, b);
		const idOf = (side: 'left' | 'right'): string =>
			parts.find((part) => part.kind === 'guide' && part.side === side)?.partId ?? '';
		const orderLines = new Map<string, OrderLineOfPart[]>([
			[idOf('left'), [{ orderNumber: '1042-01', line: 14, ordered: true }]],
			[idOf('right'), [{ orderNumber: '1042-02', line: 3, ordered: false }]]
		]);
		const left = read({ ...trueB, heights: { left: inches(108.375), right: inches(108) } }, b, {
			orderLines
		});
		expect(left.effects.text).toContain('order 1042-01, line 14 must change');
		expect(left.effects.text).not.toContain('1042-02');
		const both = read({ ...trueB, heights: { left: inches(108.375), right: inches(108.375) } }, b, {
			orderLines
		});
		expect(both.effects.text).toMatch(/^Guides 3\/8" longer; /u);
		expect(both.effects.text).toContain('order 1042-02, line 3 to be put right before it goes out');
	});

	it('compares stored parts by their place, whatever their ids', () => {
		const parts = partsOf(engine, b).map((part) => ({
			...part,
			partId: `stored ${part.partId}`,
			...(part.kind === 'guide' ? { length: inches(111) } : {})
		}));
		const verdict = read(trueB, b, { parts });
		expect(changesOf(verdict, 'guide', 'left')).toEqual(['length -1']);
		expect(verdict.effects.parts.every(({ partId }) => partId?.startsWith('stored '))).toBe(true);
	});

	it('takes the one opening of a mark that stands for several', () => {
		const four = openingOf({ ...openingB, quantity: '4' });
		const verdict = read({ ...trueB, heights: { left: inches(108.5), right: inches(108.5) } }, four, {
			openingId: 'B.3'
		});
		const guides = verdict.effects.parts.filter(({ kind }) => kind === 'guide');
		const ids = partsOf(engine, four).flatMap((part) =>
			part.openingId === 'B.3' && part.kind === 'guide' ? [part.partId] : []
		);
		expect(guides.map(({ partId }) => partId)).toEqual(ids);
		expect(changesOf(verdict, 'guide', 'left')).toEqual(['length 0.5']);
	});

	it('speaks of the parts of one opening where nothing was measured', () => {
		const four = openingOf({ ...openingB, quantity: '4' });
		const { parts } = read({}, four, { openingId: 'B.2' }).effects;
		expect(parts.map(({ state }) => state)).toEqual(partsOf(engine, b).map(() => 'unchanged'));
	});

	it('tells where nothing of the book passes any more', () => {
		const widths = { bottom: inches(720), middle: inches(720), top: inches(720) };
		const verdict = read({ ...trueB, widths });
		expect(verdict.effects.parts).toEqual([]);
		expect(verdict.effects.text).toContain('no result');
		expect(verdict.effects.appeared.some(({ code }) => code === 'nothingPasses')).toBe(true);
	});

	it('brackets are level from one datum, whatever the heads do', () => {
		// Head level, sill 3/8 higher at the right: guides differ, their tops do not.
		const sloped = {
			...trueB,
			heights: { left: inches(108), right: inches(107.625) },
			sillRise: inches(0.375)
		};
		expect(read(sloped).cautions).toEqual([]);
		expect(read({ ...sloped, sillRise: 0 }).cautions.map(({ text }) => text)).toEqual([
			'By its own height the right guide ends 3/8" lower than the other: brackets are set level from one datum, never from each head.'
		]);
	});
});

describe('whatever is read', () => {
	const some = (min: number, max: number) =>
		fc.option(fc.integer({ min: inches(min), max: inches(max) }), { nil: null });
	const jamb = fc.array(
		fc.record({
			height: fc.integer({ min: 0, max: inches(130) }),
			inPlane: some(-2, 2),
			outOfPlane: some(-2, 2)
		}),
		{ maxLength: 5 }
	);
	const wall = fc.constantFrom(null, 'concrete', 'wood', 'hollowBlock', 'structuralSteel', 'studWithBacking');
	const readings: fc.Arbitrary<FieldReadings> = fc.record({
		widths: fc.record({ bottom: some(150, 230), middle: some(150, 230), top: some(150, 230) }),
		heights: fc.record({ left: some(90, 130), right: some(90, 130) }),
		diagonals: fc.record({ rising: some(100, 300), falling: some(100, 300) }),
		plumb: fc.record({ left: jamb, right: jamb }),
		sillRise: some(-2, 2),
		headroom: some(0, 40),
		leftSideRoom: some(0, 20),
		rightSideRoom: some(0, 20),
		leftSubstrate: wall,
		rightSubstrate: wall
	});
	const openings = fc.constantFrom(
		...[
			{},
			{ rightMounting: 'betweenJambs', rightGuide: 'store-between' },
			{ mounting: 'betweenJambs', guide: 'store-between', drawnFrom: 'farSide' }
		].map((mounted: Typed) => openingOf({ ...openingB, ...mounted }))
	);

	it('is said in finite figures, and what is missing never agrees', () => {
		fc.assert(
			fc.property(readings, openings, fc.constantFrom('imperial', 'metric'), (given, opening, measures) => {
				const verdict = read(given, opening, { measures });
				JSON.stringify(verdict, (_, value: unknown) => {
					if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
					if (typeof value === 'string') expect(value).not.toMatch(/NaN|Infinity|undefined|null/u);
					return value;
				});
				const said: readonly (readonly [MeasuredThing, unknown])[] = [
					['heightLeft', given.heights.left],
					['heightRight', given.heights.right],
					['sill', given.sillRise],
					['headroom', given.headroom],
					['wallLeft', given.leftSubstrate]
				];
				for (const [thing, value] of said) {
					const { measured, state } = finding(verdict, thing);
					expect(measured).toBe(value);
					if (value === null) expect(state).toBe('notMeasured');
				}
				const { bottom, middle, top } = given.widths;
				if ([bottom, middle, top].includes(null)) expect(finding(verdict, 'width').state).not.toBe('within');
				if (verdict.findings.some(({ state }) => state !== 'within'))
					expect(verdict.outcome).not.toBe('agrees');
			}),
			{ numRuns: 60 }
		);
	});
});
