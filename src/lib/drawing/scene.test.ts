/**
 * Coordinates against the quantities. The figures are those of the invented demo book's three worked openings and hand
 * arithmetic beside each test; positions are turned back into inches.
 */
import { describe, expect, it } from 'vitest';
import { names } from './readings.ts';
import { reading, samples } from './sample-readings.ts';
import { elevationScene, sectionScene } from './scene.ts';
import {
	isDrawn,
	type CircleShape,
	type DimensionShape,
	type LineShape,
	type NoteShape,
	type PathShape,
	type RectShape,
	type Role,
	type Scene,
	type Shape,
	type SymbolShape
} from './shapes.ts';

type Sample = keyof typeof samples;

const inches = (millimetres: number): number => millimetres / 25.4;

function elevation(sample: Sample, open = false): Scene {
	const scene = elevationScene(reading(samples[sample]), { measures: 'imperial', open, mark: sample });
	if (!scene) throw new Error(`no elevation of ${sample}`);
	return scene;
}

function section(
	sample: Sample,
	view: { open?: boolean; looking?: 'left' | 'right'; part?: 'whole' | 'head' } = {}
): Scene {
	const options = { open: false, looking: 'right', part: 'whole', ...view } as const;
	const scene = sectionScene(reading(samples[sample]), { measures: 'imperial', mark: sample, ...options });
	if (!scene) throw new Error(`no section of ${sample}`);
	return scene;
}

function all<K extends Shape['kind']>(scene: Scene, kind: K, role: string): Extract<Shape, { kind: K }>[] {
	return scene.shapes.filter(
		(shape): shape is Extract<Shape, { kind: K }> => shape.kind === kind && shape.role === role
	);
}

function only<K extends Shape['kind']>(scene: Scene, kind: K, role: string): Extract<Shape, { kind: K }> {
	const [found, ...others] = all(scene, kind, role);
	if (!found || others.length > 0) throw new Error(`${others.length + (found ? 1 : 0)} of ${role}, not 1`);
	return found;
}

const rect = (scene: Scene, role: Role): RectShape => only(scene, 'rect', role);
const circle = (scene: Scene, role: Role): CircleShape => only(scene, 'circle', role);
const path = (scene: Scene, role: Role): PathShape => only(scene, 'path', role);
const lines = (scene: Scene, role: Role): LineShape[] => all(scene, 'line', role);
const symbols = (scene: Scene, role: Role, side: 'left' | 'right'): SymbolShape[] =>
	all(scene, 'symbol', role).filter((symbol) => symbol.side === side);
const dimension = (scene: Scene, name: keyof typeof names): DimensionShape =>
	only(scene, 'dimension', `dimension:${names[name]}`);
const notes = (scene: Scene): NoteShape[] =>
	scene.shapes.filter((shape): shape is NoteShape => shape.kind === 'note');
const rightOf = ({ x, width }: RectShape): number => x + width;
const topOf = ({ y, height }: RectShape): number => y + height;

const worked = [
	// Guide distance, curtain width, bracket distance, throat, guide length, bracket size, barrel OD: demo book.
	['a', 120.5, 123, 124.5, 7, 50, 10, 3.5],
	['b', 193, 196.75, 199, 10, 110, 16, 4.5],
	['c', 289, 292.75, 295, 11, 122, 18, 6.625]
] as const;

describe.each(worked)(
	'elevation of worked opening %s',
	(sample, guideDistance, curtainWidth, bracketDistance, throat, guideLength, bracketSize, barrel) => {
		const scene = elevation(sample);
		const left = rect(scene, 'guideLeft');
		const right = rect(scene, 'guideRight');

		it('sets the guides mouth to mouth at the guide distance, from the sill up', () => {
			expect(inches(right.x - rightOf(left))).toBeCloseTo(guideDistance, 9);
			for (const guide of [left, right]) {
				expect(guide.y).toBe(0);
				expect(inches(guide.height)).toBeCloseTo(guideLength, 9);
			}
		});

		it('centres the opening between equal guides', () => {
			const opening = rect(scene, 'opening');
			expect(opening.x - rightOf(left)).toBeCloseTo(right.x - rightOf(opening), 9);
		});

		it('hangs the curtain as wide as it is bought, the bar on the sill', () => {
			expect(inches(rect(scene, 'curtain').width)).toBeCloseTo(curtainWidth, 9);
			expect(inches(rect(scene, 'bottomBar').width)).toBeCloseTo(curtainWidth, 9);
			expect(rect(scene, 'bottomBar').y).toBe(0);
		});

		it('stands the brackets on the guides at the bracket distance', () => {
			const [l, r] = [rect(scene, 'bracketLeft'), rect(scene, 'bracketRight')];
			expect(inches(r.x - rightOf(l))).toBeCloseTo(bracketDistance, 9);
			expect(inches(l.y)).toBeCloseTo(guideLength, 9);
			expect(inches(topOf(l))).toBeCloseTo(guideLength + bracketSize, 9);
			expect(topOf(r)).toBeCloseTo(topOf(l), 9);
		});

		it('lays the barrel at the throat above the head, over the whole span', () => {
			const shape = rect(scene, 'barrel');
			const head = topOf(rect(scene, 'opening'));
			expect(inches(shape.height)).toBeCloseTo(barrel, 9);
			expect(inches(shape.y + shape.height / 2 - head)).toBeCloseTo(throat, 9);
			expect(inches(shape.width)).toBeCloseTo(bracketDistance, 9);
			expect(inches(rect(scene, 'hood').width)).toBeCloseTo(bracketDistance, 9);
		});

		it('dimensions what it draws, in the sizes of the quantities', () => {
			const { from, to, texts } = dimension(scene, 'guideDistance');
			expect(inches(to.x - from.x)).toBeCloseTo(guideDistance, 9);
			expect(from.x).toBeCloseTo(rightOf(left), 9);
			expect(to.x).toBeCloseTo(right.x, 9);
			expect(texts).toHaveLength(1);
		});
	}
);

describe('guide anchors', () => {
	it.each([
		// 110 − 2 · 4 = 102: five spaces of 20.4 left, nine of 11 1/3 right (demo book: 6 and 10 anchors).
		['b', 'left', 6, 102 / 5],
		['b', 'right', 10, 102 / 9],
		// 50 − 8 = 42 in three spaces.
		['a', 'left', 4, 14],
		// Turned over: ten on the left.
		['mixed', 'left', 10, 102 / 9],
		['mixed', 'right', 6, 102 / 5]
	] as const)('%s, %s guide: %i from end distance to end distance', (sample, side, count, apart) => {
		const scene = elevation(sample);
		const heights = symbols(scene, 'anchor', side).map((anchor) => inches(anchor.at.y));
		const guide = rect(scene, side === 'left' ? 'guideLeft' : 'guideRight');
		expect(heights).toHaveLength(count);
		expect(heights[0]).toBeCloseTo(4, 9);
		expect(heights.at(-1)).toBeCloseTo(inches(topOf(guide)) - 4, 9);
		heights.slice(1).forEach((height, i) => expect(height - (heights[i] ?? 0)).toBeCloseTo(apart, 9));
	});

	it('stand at the same heights in the section', () => {
		const seen = symbols(section('b', { looking: 'right' }), 'anchor', 'right').map(({ at }) => at.y);
		expect(seen).toEqual(symbols(elevation('b'), 'anchor', 'right').map(({ at }) => at.y));
	});

	it('go through the guide on the face of a wall and sideways into a jamb', () => {
		const scene = elevation('mixed');
		expect(symbols(scene, 'anchor', 'left').every(({ points }) => points === 'end')).toBe(true);
		expect(symbols(scene, 'anchor', 'right').every(({ points }) => points === 'right')).toBe(true);
		// Into the right jamb, 192 in from the left one.
		expect(symbols(scene, 'anchor', 'right').every(({ at }) => Math.abs(inches(at.x) - 192) < 1e-9)).toBe(
			true
		);
	});
});

describe('brackets and drive', () => {
	it('has the hole pattern on both sides', () => {
		for (const [sample, count] of [
			['a', 2],
			['b', 4]
		] as const)
			for (const side of ['left', 'right'] as const)
				expect(symbols(elevation(sample), 'bracketAnchor', side)).toHaveLength(count);
	});

	it('puts them in two rows and the columns of the pattern', () => {
		// B: bracket faces at 0.5 + 3 = 3.5 in left of the jamb, holes 2.5 and 5.5 further out; bracket from 110 to 126,
		// rows 1.25 from its edges. A has one column: 0.25 + 2 + 2.5 = 4.75.
		const places = (sample: Sample, side: 'left' | 'right'): string[] =>
			symbols(elevation(sample), 'bracketAnchor', side).map(
				({ at }) => `${inches(at.x).toFixed(3)} ${inches(at.y).toFixed(3)}`
			);
		expect(places('b', 'left')).toEqual([
			'-6.000 111.250',
			'-9.000 111.250',
			'-6.000 124.750',
			'-9.000 124.750'
		]);
		expect(places('b', 'right')).toEqual([
			'198.000 111.250',
			'201.000 111.250',
			'198.000 124.750',
			'201.000 124.750'
		]);
		expect(places('a', 'left')).toEqual(['-4.750 51.250', '-4.750 58.750']);
	});

	it('sees the columns one behind the other in a jamb, and all of them in the section', () => {
		// Mixed, right: between the jambs, into the jamb at 192; seen along the wall 2.5 and 5.5 from the face.
		const inJamb = symbols(elevation('mixed'), 'bracketAnchor', 'right');
		expect(inJamb.map(({ at }) => inches(at.x))).toEqual(
			[192, 192].map((x) => expect.closeTo(x, 9) as number)
		);
		const seen = symbols(section('mixed'), 'bracketAnchor', 'right');
		expect(seen.map(({ at }) => Number(inches(at.x).toFixed(6)))).toEqual([2.5, 5.5, 2.5, 5.5]);
		expect(seen.map(({ at }) => Number(inches(at.y).toFixed(6)))).toEqual([111.25, 111.25, 124.75, 124.75]);
		expect(symbols(section('b'), 'bracketAnchor', 'right').map(({ at }) => inches(at.y))).toEqual(
			[111.25, 124.75].map((y) => expect.closeTo(y, 9) as number)
		);
	});

	it('has the guide anchors on their gauge from the mouth, the leg out to its heel', () => {
		// B left: mouth 0.5 outside the jamb, gauge 3: 3.5, as far as its edge distance; heel 1.75 further.
		const scene = elevation('b');
		expect(symbols(scene, 'anchor', 'left').map(({ at }) => inches(at.x))).toEqual(
			Array.from({ length: 6 }, () => expect.closeTo(-3.5, 9) as number)
		);
		const legs = all(scene, 'rect', 'guideLeg');
		expect(inches(legs[0]?.x ?? Number.NaN)).toBeCloseTo(-5.25, 9);
		expect(inches(legs[0]?.width ?? Number.NaN)).toBeCloseTo(4.75, 9);
	});

	it('puts the drive outside the bracket on the drive side, as far out as it overhangs', () => {
		// A on the right: bracket at 120.25 + 2, plate 0.25, then 1.5. B on the left: −0.5 − 3 − 0.25 − 1.5.
		const a = rect(elevation('a'), 'drive');
		expect(inches(a.x)).toBeCloseTo(122.5, 9);
		expect(inches(rightOf(a))).toBeCloseTo(124, 9);
		const b = rect(elevation('b'), 'drive');
		expect(inches(b.x)).toBeCloseTo(-5.25, 9);
		expect(inches(rightOf(b))).toBeCloseTo(-3.75, 9);
	});

	it('says the side in words', () => {
		expect(notes(elevation('b')).flatMap(({ texts }) => texts)).toContain('tube motor, left');
	});
});

describe('coil', () => {
	const closed = section('b', { part: 'head' });
	const open = section('b', { part: 'head', open: true });

	it('is as large as the swing diameter when open and smaller when closed', () => {
		expect(inches(2 * circle(open, 'coil').radius)).toBeCloseTo(14.2, 6);
		expect(inches(2 * circle(closed, 'coilOther').radius)).toBeCloseTo(14.2, 6);
		expect(circle(closed, 'coilOther').hidden).toBe(true);
		// Outside of the closed coil: centreline 7.295 and a thickness of 0.9.
		expect(inches(2 * circle(closed, 'coil').radius)).toBeCloseTo(8.195, 6);
		expect(inches(rect(elevation('b', true), 'coil').height)).toBeCloseTo(14.2, 6);
	});

	it('is centred in the bracket: half its size from the wall, the throat above the head', () => {
		const { centre } = circle(open, 'coil');
		expect(inches(centre.x)).toBeCloseTo(8, 9);
		expect(inches(centre.y)).toBeCloseTo(118, 9);
		const bracket = rect(open, 'bracketRight');
		expect(bracket.x).toBe(0);
		expect(inches(bracket.width)).toBeCloseTo(16, 9);
		expect(bracket.y + bracket.height / 2).toBeCloseTo(centre.y, 9);
	});

	it('lets the curtain leave it as a tangent on the wall side', () => {
		const touch = path(closed, 'curtain').points.at(-1) ?? { x: Number.NaN, y: Number.NaN };
		const before = path(closed, 'curtain').points.at(-2) ?? touch;
		const { centre } = circle(closed, 'coil');
		const [rx, ry] = [touch.x - centre.x, touch.y - centre.y];
		expect(inches(Math.hypot(rx, ry))).toBeCloseTo(7.295 / 2, 6);
		expect(rx * (touch.x - before.x) + ry * (touch.y - before.y)).toBeCloseTo(0, 6);
		expect(touch.x).toBeLessThan(centre.x);
	});

	it('winds on as many turns as the diameters say', () => {
		// From the first turn's centreline, 5.4, to 13.3 in steps of two thicknesses: (13.3 − 5.4) / 1.8 = 4.39 turns.
		const { points } = path(open, 'coilTurns');
		const { centre } = circle(open, 'coil');
		const last = points.at(-1) ?? centre;
		expect(inches(Math.hypot(last.x - centre.x, last.y - centre.y))).toBeCloseTo(5.4 / 2, 1);
		expect((points.length - 1) / 48).toBeCloseTo(4.39, 1);
	});

	it('has no curtain wound further in than the barrel', () => {
		expect(inches(circle(open, 'barrel').radius)).toBeCloseTo(2.25, 9);
	});
});

describe('open and closed', () => {
	it.each(['a', 'b', 'c'] as const)('%s: bar at the sill or at the head', (sample) => {
		const height = topOf(rect(elevation(sample), 'opening'));
		expect(rect(elevation(sample, false), 'bottomBar').y).toBe(0);
		expect(rect(elevation(sample, true), 'bottomBar').y).toBeCloseTo(height, 9);
		expect(rect(section(sample, { open: true }), 'bottomBar').y).toBeCloseTo(height, 9);
	});

	it('draws every row at its pitch between bar and barrel', () => {
		// A: (48 + 7 − 1.5) / 1.5 = 35.7, so 35 rows hang below the barrel.
		const rows = lines(elevation('a'), 'curtainRow').map(({ from }) => inches(from.y));
		expect(rows).toHaveLength(35);
		expect(rows[0]).toBeCloseTo(3, 9);
		expect((rows[1] ?? 0) - (rows[0] ?? 0)).toBeCloseTo(1.5, 9);
	});
});

describe('hood', () => {
	const places = (scene: Scene, role: Role): number[] => {
		const hood = rect(scene, 'hood');
		return lines(scene, role).map(({ from }) => inches(from.x - hood.x));
	};

	it('is joined in the middle of each lap, with a support under every joint', () => {
		// C: three pieces of 299/3 over 295 with laps of 2: laps from 97.667 to 99.667 and from 195.333 to 197.333.
		const scene = elevation('c');
		expect(places(scene, 'hoodJoint')).toHaveLength(2);
		expect(places(scene, 'hoodJoint')[0]).toBeCloseTo(98 + 2 / 3, 6);
		expect(places(scene, 'hoodJoint')[1]).toBeCloseTo(196 + 1 / 3, 6);
		expect(places(scene, 'hoodSupport')).toEqual(places(scene, 'hoodJoint'));
	});

	it('has neither joint nor support in one short piece', () => {
		expect(places(elevation('a'), 'hoodJoint')).toEqual([]);
		expect(places(elevation('a'), 'hoodSupport')).toEqual([]);
	});

	it('spreads further supports evenly in every piece', () => {
		// Two pieces of 100.5 over 199: one support under the joint and one in the middle of each piece.
		const scene = elevationScene(reading({ ...samples.b, hoodSupports: 3 }), {
			measures: 'imperial',
			open: false,
			mark: 'b'
		});
		if (!scene) throw new Error('no elevation');
		const supports = places(scene, 'hoodSupport');
		expect(supports).toHaveLength(3);
		expect(supports[0]).toBeCloseTo(50.25, 6);
		expect(supports[1]).toBeCloseTo(99.5, 6);
		expect(supports[2]).toBeCloseTo(148.75, 6);
	});

	it('is left out where there is none, and the coil is then in plain sight', () => {
		const scene = elevationScene(reading({ ...samples.a, hoodPieces: 0, hoodSupports: 0 }), {
			measures: 'imperial',
			open: false,
			mark: 'a'
		});
		if (!scene) throw new Error('no elevation');
		expect(all(scene, 'rect', 'hood')).toEqual([]);
		expect(rect(scene, 'coil').hidden).toBe(false);
		expect(rect(elevation('a'), 'coil').hidden).toBe(true);
	});
});

describe('between the jambs', () => {
	const scene = elevation('between');

	it('sets the guides inside the opening, backs on the jambs', () => {
		const [left, right] = [rect(scene, 'guideLeft'), rect(scene, 'guideRight')];
		expect(left.x).toBe(0);
		expect(inches(rightOf(left))).toBeCloseTo(2, 9);
		expect(inches(right.x)).toBeCloseTo(118, 9);
		expect(inches(rightOf(right))).toBeCloseTo(120, 9);
		expect(inches(right.x - rightOf(left))).toBeCloseTo(116, 9);
	});

	it('keeps brackets and coil between the jambs, above the height that stays clear', () => {
		const [left, right] = [rect(scene, 'bracketLeft'), rect(scene, 'bracketRight')];
		expect(left.x).toBeGreaterThan(0);
		expect(inches(rightOf(right))).toBeLessThan(120);
		expect(inches(left.y)).toBeCloseTo(50, 9);
		const jambs = lines(scene, 'jamb');
		// The jambs go on to the structure, 14 in above the head.
		expect(jambs.map(({ to }) => inches(to.y))).toEqual([62, 62].map((y) => expect.closeTo(y, 9) as number));
		expect(lines(scene, 'head')[0]?.hidden).toBe(true);
	});

	it('has no wall behind it in the section and no size from one', () => {
		const cut = section('between', { part: 'head' });
		expect(all(cut, 'rect', 'wall')).toEqual([]);
		expect(cut.shapes.some(({ role }) => role === `dimension:${names.wallToBarrelCentre}`)).toBe(false);
		expect(inches(rect(cut, 'structure').y)).toBeCloseTo(62, 9);
	});
});

describe('sides that differ', () => {
	const scene = elevation('mixed');

	it('puts each mouth where its own side has it', () => {
		// Left on the face, half an inch outside the jamb; right between, three inches inside.
		expect(inches(rightOf(rect(scene, 'guideLeft')))).toBeCloseTo(-0.5, 9);
		expect(inches(rect(scene, 'guideRight').x)).toBeCloseTo(189, 9);
		expect(inches(rect(scene, 'bracketRight').x - rightOf(rect(scene, 'bracketLeft')))).toBeCloseTo(195, 9);
	});

	it('says that the drawing of the job is seen from the other side', () => {
		expect(scene.caption.texts[0]).toContain('You stand here (coil side)');
		expect(scene.caption.texts[0]).toContain('far side');
		expect(elevation('b').caption.texts[0]).toBe('You stand here (coil side)');
	});

	it('shows the guide that is looked at', () => {
		const left = section('mixed', { looking: 'left', part: 'head' });
		const right = section('mixed', { looking: 'right', part: 'head' });
		expect(all(left, 'rect', 'wall')).toHaveLength(1);
		expect(all(right, 'rect', 'wall')).toHaveLength(0);
		// Looking left, the coil side lies on the left.
		expect(circle(left, 'coil').centre.x).toBeCloseTo(-circle(right, 'coil').centre.x, 9);
		expect(circle(left, 'coil').centre.x).toBeLessThan(0);
	});
});

describe('sill and floor', () => {
	it('draws the floor below a counter and the finish still to come', () => {
		const counter = rect(elevation('a'), 'ground');
		expect(inches(topOf(counter))).toBeCloseTo(-36, 9);
		expect(inches(topOf(rect(elevation('b'), 'ground')))).toBeCloseTo(-2, 9);
		expect(topOf(rect(elevation('b'), 'buildUp'))).toBeCloseTo(0, 9);
		expect(dimension(elevation('a'), 'sillHeight').texts).toEqual([`3'-0"`]);
	});
});

describe('room', () => {
	it('says by how much it is short, whatever else is left out', () => {
		// B needs 19.5 of headroom and has 18; left it needs 5.75 and has 5.
		const headroom = dimension(elevation('b'), 'requiredHeadroom');
		expect(headroom.short).toBe(true);
		expect(headroom.priority).toBe(0);
		expect(headroom.texts).toContain('short by 1 1/2"');
		expect(headroom.texts[0]).toBe('headroom needs 19 1/2", short by 1 1/2"');
		const side = dimension(elevation('b'), 'requiredSideRoomLeft');
		expect(side.texts).toContain('short by 3/4"');
		expect(dimension(section('b', { part: 'head' }), 'requiredHeadroom').short).toBe(true);
	});

	it('says what is needed and what is there', () => {
		const front = dimension(section('b', { part: 'head' }), 'requiredFrontRoom');
		expect(front.short).toBe(false);
		expect(front.texts[0]).toBe('front room needs 16 1/2", has 17"');
		expect(inches(front.to.x - front.from.x)).toBeCloseTo(16.5, 9);
		expect(dimension(elevation('c'), 'requiredHeadroom').texts).toEqual([
			'headroom needs 21 1/2"',
			'needs 21 1/2"'
		]);
	});

	it('draws the structure where it is', () => {
		expect(inches(rect(elevation('b'), 'structure').y)).toBeCloseTo(126, 9);
		expect(inches(lines(elevation('b'), 'limit')[0]?.from.x ?? 0)).toBeCloseTo(-5.5, 9);
		expect(inches(lines(section('b'), 'limit')[0]?.from.x ?? 0)).toBeCloseTo(17, 9);
		expect(all(elevation('c'), 'rect', 'structure')).toEqual([]);
	});

	it('hatches the wall over the head as what it is', () => {
		expect(rect(section('b', { part: 'head' }), 'wall').material).toBe('concrete');
		expect(rect(section('c', { part: 'head' }), 'wall').material).toBe('structuralSteel');
	});
});

function figuresOf(value: unknown): number[] {
	if (typeof value === 'number') return [value];
	if (typeof value !== 'object' || value === null) return [];
	return Object.values(value).flatMap(figuresOf);
}

describe('what is not known', () => {
	it('is left out', () => {
		const scene = elevation('typed');
		const roles = new Set(scene.shapes.filter(isDrawn).map(({ role }) => role));
		expect([...roles].sort()).toEqual(['head', 'jamb', 'opening', 'sill', 'wallFace']);
		expect(scene.shapes.flatMap((shape) => (shape.kind === 'dimension' ? [shape.title] : []))).toEqual([
			'Opening width',
			'Opening height'
		]);
		expect(
			sectionScene(reading(samples.typed), {
				measures: 'imperial',
				mark: 'typed',
				open: false,
				looking: 'right',
				part: 'head'
			})
		).toBeNull();
	});

	it('makes no drawing without a size', () => {
		const options = { measures: 'imperial', open: false, mark: 'none' } as const;
		expect(elevationScene(() => null, options)).toBeNull();
		expect(elevationScene(() => Number.NaN, options)).toBeNull();
		expect(elevationScene(() => 0, options)).toBeNull();
		expect(sectionScene(() => null, { ...options, looking: 'right', part: 'whole' })).toBeNull();
	});

	it('never gives a position that is no number, whichever quantity is missing', () => {
		for (const sample of ['b', 'mixed'] as const)
			for (const missing of Object.values(names)) {
				const whole = reading(samples[sample]);
				const read = (id: string): number | string | null => (id === missing ? null : whole(id));
				const scenes = [true, false].flatMap((open) => [
					elevationScene(read, { measures: 'metric', open, mark: 'b' }),
					...(['left', 'right'] as const).flatMap((looking) => [
						sectionScene(read, { measures: 'metric', open, mark: 'b', looking, part: 'whole' }),
						sectionScene(read, { measures: 'metric', open, mark: 'b', looking, part: 'head' })
					])
				]);
				for (const scene of scenes) {
					expect(figuresOf(scene).every(Number.isFinite), `without ${missing}`).toBe(true);
					const said = scene?.shapes.flatMap((s) => ('texts' in s ? s.texts : [])).join(' ') ?? '';
					expect(`${said} ${scene?.description ?? ''}`, `without ${missing}`).not.toMatch(
						/NaN|null|undefined/u
					);
				}
			}
	});

	it('takes a sample that the takeoff could give: sizes in words', () => {
		expect(elevation('b').description).toContain(`Opening 16'-0" wide and 9'-0" high`);
		expect(elevation('b').description).toContain('left guide on the face of the wall, 6 anchors in concrete');
		expect(elevation('b').description).toContain('drive on the left');
		expect(section('b').description).toContain('headroom needs 19 1/2", short by 1 1/2"');
	});
});
