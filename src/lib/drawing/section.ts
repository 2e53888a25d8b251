/**
 * The section through the opening, looking along the wall to one of the guides. x = 0 is the face the bracket stands
 * on, the coil side lies to the right when looking right and to the left when looking left; y = 0 is the sill.
 */
import type { Measures } from '../takeoff/inputs.ts';
import { names, readingsOf, type Read, type Readings } from './readings.ts';
import {
	boundsOf,
	breakLine,
	brokenOff,
	circle,
	dimension,
	holeColumns,
	holeRows,
	lengthText,
	line,
	path,
	rect,
	roomShown,
	roomTexts,
	spread,
	words,
	type DimensionShape,
	type Edge,
	type NoteShape,
	type Point,
	type Scene,
	type Shape,
	type Side
} from './shapes.ts';

export interface SectionOptions {
	readonly measures: Measures;
	/** Bar at the head instead of on the sill. */
	readonly open: boolean;
	readonly mark: string;
	/** The guide that is seen, standing on the coil side. */
	readonly looking: Side;
	/** All of it, or only what is above the head, larger. */
	readonly part: 'whole' | 'head';
}

/** What the section knows once everything needed is there. */
interface Frame {
	readonly r: Readings;
	readonly options: SectionOptions;
	readonly height: number;
	readonly between: boolean;
	readonly substrate: string | null;
	readonly anchors: number | null;
	readonly endDistance: number | null;
	/** Lowest level drawn. */
	readonly low: number;
	/** As far as they are drawn. */
	readonly headroom: number | null;
	readonly frontRoom: number | null;
	/** Underside of the structure above, or the level where the wall is broken off. */
	readonly ceiling: number;
	/** Far edge of what is drawn on the coil side. */
	readonly reach: number;
	/** Wall face of the section: what is behind it is wall. */
	readonly wallFrom: number;
}

function frameOf(r: Readings, options: SectionOptions): Frame | null {
	const height = r.openingHeight;
	if (height === null || height <= 0) return null;
	const right = options.looking === 'right';
	const between = (right ? r.mountingRight : r.mountingLeft) === 'betweenJambs';
	const size = r.bracketSize ?? 0;
	const floor = -(r.sillHeight ?? 0);
	const headroom = roomShown(r.headroom, r.requiredHeadroom);
	const above = Math.max(r.requiredHeadroom ?? 0, (r.guideLength ?? height) + size - height);
	const frontRoom = roomShown(r.frontRoom, r.requiredFrontRoom);
	const front = Math.max(r.requiredFrontRoom ?? size, frontRoom ?? 0);
	const head = options.part === 'head';
	return {
		r,
		options,
		height,
		between,
		substrate: right ? r.substrateRight : r.substrateLeft,
		anchors: right ? r.anchorsRight : r.anchorsLeft,
		endDistance: right ? r.endDistanceRight : r.endDistanceLeft,
		low: head ? height - Math.min(height, Math.max(0.6 * size, 2 * (r.barHeight ?? 0), 120)) : floor,
		headroom,
		frontRoom,
		ceiling: height + (headroom ?? above + brokenOff.structure),
		reach: head ? front + size * 0.15 : Math.max(front, size + brokenOff.standing),
		wallFrom: between ? -size * 0.15 : -(head ? Math.max(0.6 * size, 120) : brokenOff.wall)
	};
}

/** Wall over the head: as given, else the wall that both sides have. */
const headMaterial = (r: Readings): string | null =>
	r.headSubstrate ?? (r.substrateLeft === r.substrateRight ? r.substrateLeft : null);

const cut = (material: string | null): { material?: string } => (material === null ? {} : { material });

function buildingShapes(f: Frame): Shape[] {
	const { r, height, low, ceiling, wallFrom, reach } = f;
	const material = cut(headMaterial(r));
	const jambTo = f.between ? (r.bracketSize ?? brokenOff.wall) * 1.15 : 0;
	const shapes: Shape[] = [];
	if (f.options.part === 'whole' && r.sillHeight !== null) {
		const buildUp = r.floorBuildUp ?? 0;
		const floor = -r.sillHeight;
		if (buildUp > 0) shapes.push(rect('buildUp', wallFrom, reach, floor - buildUp, floor));
		shapes.push(rect('ground', wallFrom, reach, floor - buildUp - brokenOff.ground, floor - buildUp));
		if (r.sillHeight > 0) shapes.push(rect('wall', wallFrom, jambTo, floor, 0, material));
	}
	const jambLow = Math.max(low, 0);
	if (f.between) {
		shapes.push(rect('jamb', wallFrom, jambTo, jambLow, ceiling));
		const width = jambTo - wallFrom;
		shapes.push(breakLine(wallFrom, jambLow, ceiling, width), breakLine(jambTo, jambLow, ceiling, width));
		shapes.push(line('head', { x: wallFrom, y: height }, { x: jambTo, y: height }, true));
	} else {
		const finish = r.finishBuildUp ?? 0;
		shapes.push(rect('jamb', wallFrom, 0, jambLow, height));
		shapes.push(rect('wall', wallFrom, -finish, height, ceiling, material));
		if (finish > 0) shapes.push(rect('finish', -finish, 0, height, ceiling));
		shapes.push(breakLine(wallFrom, jambLow, ceiling, -wallFrom));
		shapes.push(line('head', { x: wallFrom, y: height }, { x: 0, y: height }));
	}
	if (f.headroom !== null)
		shapes.push(
			rect(
				'structure',
				wallFrom,
				f.between ? jambTo : reach,
				ceiling,
				ceiling + brokenOff.structure,
				material
			)
		);
	if (f.frontRoom !== null)
		shapes.push(
			rect('limit', f.frontRoom, f.frontRoom + brokenOff.room, height, ceiling),
			line('limit', { x: f.frontRoom, y: height }, { x: f.frontRoom, y: ceiling })
		);
	return shapes;
}

/**
 * Where the curtain hangs: no quantity says how far the groove stands off the wall, so it is drawn under the open coil's
 * wall side, where the curtain hangs plumb when it is all wound up.
 */
function curtainLine(r: Readings): number | null {
	if (r.bracketSize === null) return null;
	const plumb = (r.bracketSize - (r.swingDiameter ?? 0.8 * r.bracketSize)) / 2;
	return Math.max(plumb, 0.05 * r.bracketSize);
}

function guideShapes(f: Frame, curtain: number): Shape[] {
	const { guideLength } = f.r;
	if (guideLength === null) return [];
	const low = Math.max(f.low, 0);
	const role = f.options.looking === 'left' ? 'guideLeft' : 'guideRight';
	const places =
		f.anchors === null || f.endDistance === null
			? []
			: spread(f.anchors, f.endDistance, guideLength - f.endDistance);
	return [
		rect(role, 0, 2 * curtain, low, guideLength),
		...places.flatMap((y): Shape[] =>
			y < low
				? []
				: [
						{
							kind: 'symbol',
							role: 'anchor',
							at: { x: f.between ? curtain : 0, y },
							points: f.between ? 'end' : 'left',
							side: f.options.looking
						}
					]
		)
	];
}

/** Where the straight run from `from` touches the circle, on the wall side. Null from inside it. */
function touching(from: Point, centre: Point, radius: number): Point | null {
	const dx = from.x - centre.x;
	const dy = from.y - centre.y;
	const distance = Math.hypot(dx, dy);
	if (distance <= radius) return null;
	const bearing = Math.atan2(dy, dx);
	const opening = Math.acos(radius / distance);
	const points = [bearing - opening, bearing + opening].map((angle) => ({
		x: centre.x + radius * Math.cos(angle),
		y: centre.y + radius * Math.sin(angle)
	}));
	return points.reduce((a, b) => (a.x <= b.x ? a : b));
}

/** The turns of the coil from where the curtain touches it inwards to the barrel, over the top. */
function turns(start: Point, centre: Point, outer: number, inner: number, thickness: number): Point[] {
	const steps = 48;
	const from = Math.atan2(start.y - centre.y, start.x - centre.x);
	const count = Math.max(0, Math.floor(((outer - inner) / thickness) * steps));
	return Array.from({ length: count + 1 }, (_, i) => {
		const radius = outer - (thickness * i) / steps;
		const angle = from - (2 * Math.PI * i) / steps;
		return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
	});
}

function coilShapes(f: Frame, centre: Point, curtain: number): Shape[] {
	const { r, height } = f;
	const { wrap, barHeight } = r;
	const closed = r.coilDiameterClosed === null || wrap === null ? null : r.coilDiameterClosed + wrap;
	const [now, other] = f.options.open ? [r.swingDiameter, closed] : [closed, r.swingDiameter];
	const shapes: Shape[] = [];
	const smallest = r.barrelDiameter ?? 0;
	if (now !== null) shapes.push(circle('coil', centre, now / 2));
	if (r.barrelDiameter !== null) shapes.push(circle('barrel', centre, r.barrelDiameter / 2));
	if (other !== null && other > smallest) shapes.push(circle('coilOther', centre, other / 2, true));
	if (barHeight === null) return shapes;
	const bar = f.options.open ? height : 0;
	const start = { x: curtain, y: Math.max(bar + barHeight, r.guideLength ?? height) };
	const radius = now === null || wrap === null ? null : (now - wrap) / 2;
	const touch = radius === null ? null : touching(start, centre, radius);
	const from = Math.max(bar + barHeight, f.low);
	shapes.push(path('curtain', [{ x: curtain, y: from }, start, touch ?? { x: curtain, y: centre.y }]));
	if (touch && radius !== null && wrap !== null && wrap > 0)
		shapes.push(path('coilTurns', turns(touch, centre, radius, (smallest + wrap) / 2, wrap)));
	if (bar >= f.low) shapes.push(rect('bottomBar', 0.35 * curtain, 1.65 * curtain, bar, bar + barHeight));
	return shapes;
}

function bracketShapes(f: Frame): Shape[] {
	const { bracketSize: size, guideLength } = f.r;
	if (size === null || guideLength === null) return [];
	const role = f.options.looking === 'left' ? 'bracketLeft' : 'bracketRight';
	return [rect(role, 0, size, guideLength, guideLength + size), ...holeShapes(f, guideLength, size)];
}

/** The bracket's anchors: their rows seen from the side on the face of the wall, the whole pattern between the jambs. */
function holeShapes(f: Frame, low: number, size: number): Shape[] {
	const { holeGauge: gauge, holeAcross, holeEdge: edge, holeColumns: columns } = f.r;
	if (gauge === null || holeAcross === null || edge === null || columns === null) return [];
	const places = f.between ? holeColumns(columns, gauge, holeAcross) : [0];
	return holeRows(size, edge).flatMap((y) =>
		places.map((x): Shape => ({
			kind: 'symbol',
			role: 'bracketAnchor',
			at: { x, y: low + y },
			points: f.between ? 'end' : 'left',
			side: f.options.looking
		}))
	);
}

/** The hood over the bracket: top, front, and back underneath to the middle. */
function hoodShape(f: Frame): Shape[] {
	const { bracketSize: size, guideLength: low } = f.r;
	if ((f.r.hoodPieces ?? 0) < 1 || size === null || low === null) return [];
	return [
		path('hood', [
			{ x: 0, y: low + size },
			{ x: size, y: low + size },
			{ x: size, y: low },
			{ x: size / 2, y: low }
		])
	];
}

type Written = DimensionShape | NoteShape;

function dimensionsOf(f: Frame): Written[] {
	const { r, height, options } = f;
	const { measures } = options;
	const shapes: Written[] = [];
	const add = (
		quantity: string,
		title: string,
		edge: Edge,
		[from, to]: readonly [Point, Point],
		priority: DimensionShape['priority'],
		said: { texts?: readonly string[]; short?: boolean } = {}
	): void => {
		shapes.push(dimension({ quantity, title, edge, from, to, priority }, measures, said));
	};
	const note = (
		quantity: string,
		title: string,
		edge: 'left' | 'right',
		y: number,
		texts: string[]
	): void => {
		const x = edge === 'left' ? f.wallFrom : (r.bracketSize ?? 0);
		shapes.push({
			kind: 'note',
			role: `note:${quantity}`,
			quantity,
			title,
			edge,
			at: { x, y },
			texts,
			priority: 3
		});
	};
	const level = (x: number, from: number, to: number): readonly [Point, Point] => [
		{ x, y: from },
		{ x, y: to }
	];
	const across = (y: number, from: number, to: number): readonly [Point, Point] => [
		{ x: from, y },
		{ x: to, y }
	];
	const { bracketSize, guideLength, throat } = r;
	const size = bracketSize ?? 0;
	if (options.part === 'whole') {
		add(names.openingHeight, 'Opening height', 'left', level(f.wallFrom, 0, height), 1);
		if (r.sillHeight !== null && r.sillHeight > 0)
			add(names.sillHeight, 'Sill height', 'left', level(f.wallFrom, -r.sillHeight, 0), 1);
		if (guideLength !== null) add(names.guideLength, 'Guide length', 'right', level(size, 0, guideLength), 2);
		if (r.curtainRows !== null && r.pitch !== null) {
			const rows = `${r.curtainRows} rows`;
			const pitch = lengthText(r.pitch, measures);
			note(names.curtainRows, 'Curtain rows', 'right', height / 2, [`${rows} of ${pitch}`, rows]);
		}
		const right = options.looking === 'right';
		const quantity = right ? names.substrateRight : names.substrateLeft;
		if (f.substrate !== null)
			note(quantity, `Wall ${options.looking}`, 'left', height / 2, [words(f.substrate)]);
		return shapes;
	}
	if (r.requiredHeadroom !== null)
		add(
			names.requiredHeadroom,
			'Headroom needed',
			'left',
			level(f.wallFrom, height, height + r.requiredHeadroom),
			1,
			roomTexts('headroom', r.requiredHeadroom, r.headroom, measures)
		);
	if (guideLength !== null && bracketSize !== null)
		add(names.bracketSize, 'Bracket size', 'right', level(size, guideLength, guideLength + bracketSize), 1);
	if (throat !== null) add(names.throat, 'Throat', 'right', level(size, height, height + throat), 1);
	const top = (guideLength ?? height) + size;
	if (r.requiredFrontRoom !== null)
		add(
			names.requiredFrontRoom,
			'Front room needed',
			'top',
			across(top, 0, r.requiredFrontRoom),
			2,
			roomTexts('front room', r.requiredFrontRoom, r.frontRoom, measures)
		);
	const centre = r.wallToBarrelCentre;
	if (centre !== null && !f.between)
		add(names.wallToBarrelCentre, 'Wall to barrel centre', 'top', across(top, 0, centre), 2);
	if (bracketSize !== null && throat !== null) {
		const under = guideLength ?? height;
		const around = (diameter: number): readonly [Point, Point] =>
			across(under, (bracketSize - diameter) / 2, (bracketSize + diameter) / 2);
		const say = (word: string, diameter: number): { texts: string[] } => ({
			texts: [`${word} ${lengthText(diameter, measures)}`]
		});
		if (r.barrelDiameter !== null)
			add(
				names.barrelDiameter,
				'Barrel',
				'bottom',
				around(r.barrelDiameter),
				2,
				say('barrel', r.barrelDiameter)
			);
		if (r.swingDiameter !== null)
			add(
				names.swingDiameter,
				'Coil, open',
				'bottom',
				around(r.swingDiameter),
				1,
				say('open coil', r.swingDiameter)
			);
	}
	const over = headMaterial(r);
	if (over !== null)
		note(names.headSubstrate, 'Wall over the head', 'left', height + (throat ?? 0) / 2, [words(over)]);
	return shapes;
}

function describe(f: Frame): string {
	const { r, options } = f;
	const text = (value: number): string => lengthText(value, options.measures);
	const sentences = [
		`Looking to the ${options.looking} guide, ${f.between ? 'between the jambs' : 'on the face of the wall'}`,
		`opening ${text(f.height)} high`
	];
	if (f.substrate !== null) sentences.push(`wall of ${words(f.substrate)}`);
	if (r.guideLength !== null) sentences.push(`guide ${text(r.guideLength)} long`);
	if (r.bracketSize !== null) sentences.push(`bracket ${text(r.bracketSize)}`);
	if (r.throat !== null) sentences.push(`barrel centre ${text(r.throat)} above the head`);
	if (r.wallToBarrelCentre !== null && !f.between)
		sentences.push(`${text(r.wallToBarrelCentre)} from the wall`);
	if (r.barrelDiameter !== null) sentences.push(`barrel ${text(r.barrelDiameter)}`);
	if (r.swingDiameter !== null) sentences.push(`open coil ${text(r.swingDiameter)}`);
	if (r.requiredHeadroom !== null)
		sentences.push(roomTexts('headroom', r.requiredHeadroom, r.headroom, options.measures).texts[0] ?? '');
	if (r.requiredFrontRoom !== null)
		sentences.push(
			roomTexts('front room', r.requiredFrontRoom, r.frontRoom, options.measures).texts[0] ?? ''
		);
	sentences.push(options.open ? 'drawn open, bar at the head' : 'drawn closed, bar on the sill');
	return `${sentences.join('; ')}.`;
}

/** The same shape with the coil side on the left. */
function turnedOver<T extends Shape>(shape: T): T {
	const over = (point: Point): Point => ({ x: -point.x, y: point.y });
	const otherEdge = { left: 'right', right: 'left', top: 'top', bottom: 'bottom' } as const;
	switch (shape.kind) {
		case 'rect':
			return { ...shape, x: -shape.x - shape.width };
		case 'line':
			return { ...shape, from: over(shape.from), to: over(shape.to) };
		case 'circle':
			return { ...shape, centre: over(shape.centre) };
		case 'path':
			return { ...shape, points: shape.points.map(over) };
		case 'symbol':
			return {
				...shape,
				at: over(shape.at),
				points: shape.points === 'end' ? 'end' : shape.points === 'left' ? 'right' : 'left'
			};
		case 'dimension':
			return { ...shape, edge: otherEdge[shape.edge], from: over(shape.from), to: over(shape.to) };
		case 'note':
			return { ...shape, edge: otherEdge[shape.edge], at: over(shape.at) };
	}
}

/**
 * The section to scale, or null while the height of the opening is not known (for the head alone: the bracket). What is
 * not known is left out.
 * @param read quantities of the opening: lengths in nm (see `readings.ts` for the names).
 */
export function sectionScene(read: Read, options: SectionOptions): Scene | null {
	const r = readingsOf(read);
	const f = frameOf(r, options);
	if (!f || (options.part === 'head' && r.bracketSize === null)) return null;
	const curtain = curtainLine(r);
	const drawn: Shape[] = buildingShapes(f);
	if (curtain !== null) drawn.push(...guideShapes(f, curtain));
	drawn.push(...bracketShapes(f));
	if (r.bracketSize !== null && r.throat !== null && curtain !== null) {
		const centre = { x: r.bracketSize / 2, y: f.height + r.throat };
		drawn.push(...coilShapes(f, centre, curtain));
		drawn.push({ kind: 'symbol', role: 'centre', at: centre, points: 'end', side: null });
	}
	drawn.push(...hoodShape(f));
	const all = [...drawn, ...dimensionsOf(f)];
	const shapes = options.looking === 'left' ? all.map(turnedOver) : all;
	const whole = options.part === 'whole';
	const stand = (r.bracketSize ?? 0) + brokenOff.standing / 2;
	return {
		title: `${whole ? 'Section' : 'Section at the head'} of ${options.mark}, looking ${options.looking}`,
		description: describe(f),
		measures: options.measures,
		shapes,
		bounds: boundsOf(shapes),
		caption: {
			x: (options.looking === 'left' ? -1 : 1) * (whole ? stand : f.reach / 2),
			texts: whole ? ['You stand here (coil side)', 'You stand here', 'coil side'] : ['Head, larger', 'head'],
			stand: whole
		}
	};
}
