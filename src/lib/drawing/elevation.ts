/** The elevation: the opening seen by a person who stands on the coil side. x = 0 is the left jamb, y = 0 the sill. */
import type { Measures } from '../takeoff/inputs.ts';
import { names, readingsOf, type Read, type Readings } from './readings.ts';
import {
	boundsOf,
	brokenOff,
	dimension,
	holeColumns,
	holeRows,
	lengthText,
	line,
	rect,
	roomShown,
	roomTexts,
	spread,
	words,
	type DimensionShape,
	type NoteShape,
	type Point,
	type Scene,
	type Shape,
	type Side
} from './shapes.ts';

export interface ElevationOptions {
	readonly measures: Measures;
	/** Bar at the head instead of on the sill. */
	readonly open: boolean;
	/** Mark or opening, for the title. */
	readonly mark: string;
}

/** One side of the opening, positions seen from the coil side. `out` is -1 on the left and 1 on the right. */
interface SideOfOpening {
	readonly side: Side;
	readonly out: -1 | 1;
	readonly jamb: number;
	readonly between: boolean;
	readonly mouth: number | null;
	/** Inner face of the bracket, an end of barrel and hood. */
	readonly bracket: number | null;
	/** Back of the guide. */
	readonly back: number | null;
	/** Line of the guide's anchors, and the far edge of the leg they go through: only on the face of the wall. */
	readonly anchorLine: number | null;
	readonly heel: number | null;
	/** Edge of the curtain inside the guide. */
	readonly edge: number | null;
	readonly anchors: number | null;
	readonly endDistance: number | null;
	readonly substrate: string | null;
	readonly guide: string | null;
	readonly room: number | null;
	readonly requiredRoom: number | null;
}

const half = (whole: number | null, part: number | null): number | null =>
	whole === null || part === null ? null : (whole - part) / 2;

function sideOf(side: Side, width: number, r: Readings): SideOfOpening {
	const left = side === 'left';
	const out = left ? -1 : 1;
	const jamb = left ? 0 : width;
	const between = (left ? r.mountingLeft : r.mountingRight) === 'betweenJambs';
	const wallOffset = left ? r.mouthLeft : r.mouthRight;
	const offset = (left ? r.offsetLeft : r.offsetRight) ?? half(r.bracketDistance, r.guideDistance);
	const engagement = (left ? r.engagementLeft : r.engagementRight) ?? half(r.curtainWidth, r.guideDistance);
	const mouth = wallOffset === null ? null : jamb + out * wallOffset;
	const gauge = left ? r.anchorGaugeLeft : r.anchorGaugeRight;
	const toHeel = left ? r.heelLeft : r.heelRight;
	const beyond = (distance: number | null): number | null =>
		mouth === null || distance === null ? null : mouth + out * distance;
	return {
		side,
		out,
		jamb,
		between,
		mouth,
		bracket: beyond(offset),
		back: between ? jamb : beyond(offset),
		anchorLine: between ? null : beyond(gauge),
		heel: between || gauge === null || toHeel === null ? null : beyond(gauge + toHeel),
		edge: beyond(engagement),
		anchors: left ? r.anchorsLeft : r.anchorsRight,
		endDistance: left ? r.endDistanceLeft : r.endDistanceRight,
		substrate: left ? r.substrateLeft : r.substrateRight,
		guide: left ? r.guideLeft : r.guideRight,
		room: left ? r.sideRoomLeft : r.sideRoomRight,
		requiredRoom: left ? r.requiredSideRoomLeft : r.requiredSideRoomRight
	};
}

const span = (a: number, b: number): readonly [number, number] => [Math.min(a, b), Math.max(a, b)];

/** Heights of the guide anchors above the sill: from end distance to end distance, equally spaced. */
function anchorHeights(s: SideOfOpening, guideLength: number | null): number[] {
	if (guideLength === null || s.anchors === null || s.endDistance === null) return [];
	return spread(s.anchors, s.endDistance, guideLength - s.endDistance);
}

function guideShapes(s: SideOfOpening, guideLength: number | null): Shape[] {
	if (s.mouth === null || s.back === null || guideLength === null) return [];
	const [from, to] = span(s.mouth, s.back);
	const role = s.side === 'left' ? 'guideLeft' : 'guideRight';
	const at = s.between ? s.jamb : (s.anchorLine ?? (s.mouth + s.back) / 2);
	const leg = s.heel === null ? [] : [rect('guideLeg', ...span(s.mouth, s.heel), 0, guideLength)];
	return [
		...leg,
		rect(role, from, to, 0, guideLength),
		...anchorHeights(s, guideLength).map((y): Shape => ({
			kind: 'symbol',
			role: 'anchor',
			at: { x: at, y },
			points: s.between ? s.side : 'end',
			side: s.side
		}))
	];
}

function bracketShapes(s: SideOfOpening, r: Readings): Shape[] {
	const { guideLength, bracketSize } = r;
	if (s.bracket === null || guideLength === null || bracketSize === null) return [];
	const outer = s.bracket + s.out * (r.plateThickness ?? 0);
	const [from, to] = span(s.bracket, outer);
	const role = s.side === 'left' ? 'bracketLeft' : 'bracketRight';
	return [
		...holeShapes(s, s.bracket, guideLength, bracketSize, r),
		rect(role, from, to, guideLength, guideLength + bracketSize)
	];
}

/**
 * The bracket's anchors in their rows and columns: in the plate on the face of the wall, or sideways into the jamb, where
 * the columns stand one behind the other.
 */
function holeShapes(s: SideOfOpening, face: number, low: number, size: number, r: Readings): Shape[] {
	const { holeGauge: gauge, holeAcross, holeEdge: edge, holeColumns: columns } = r;
	if (gauge === null || holeAcross === null || edge === null || columns === null) return [];
	const away = holeColumns(columns, gauge, holeAcross);
	const places = s.between ? [s.jamb] : away.map((distance) => face + s.out * distance);
	const plateEdge = face + s.out * ((away.at(-1) ?? 0) + edge);
	return [
		...(s.between ? [] : [rect('bracketPlate', ...span(face, plateEdge), low, low + size)]),
		...holeRows(size, edge).flatMap((y) =>
			places.map((x): Shape => ({
				kind: 'symbol',
				role: 'bracketAnchor',
				at: { x, y: low + y },
				points: s.between ? s.side : 'end',
				side: s.side
			}))
		)
	];
}

/** Where hood joints and supports stand: one support under every joint, the others evenly in every piece. */
function hoodPlaces(from: number, to: number, r: Readings): { joints: number[]; supports: number[] } {
	const pieces = Math.round(r.hoodPieces ?? 0);
	const piece = r.hoodPieceLength ?? (to - from) / Math.max(1, pieces);
	const step = pieces > 1 ? (to - from - piece) / (pieces - 1) : 0;
	const starts = Array.from({ length: pieces }, (_, i) => from + i * step);
	const joints = starts.slice(1).map((start) => start + (piece - step) / 2);
	const more = Math.max(0, Math.round(r.hoodSupports ?? 0) - joints.length);
	const within = starts.flatMap((start, i) => {
		const count = Math.floor((more * (i + 1)) / pieces) - Math.floor((more * i) / pieces);
		return Array.from({ length: count }, (_, k) => start + (piece * (k + 1)) / (count + 1));
	});
	return { joints, supports: [...joints, ...within].sort((a, b) => a - b) };
}

function coilShapes(left: SideOfOpening, right: SideOfOpening, r: Readings, open: boolean): Shape[] {
	const { openingHeight, throat, wrap } = r;
	if (openingHeight === null || throat === null) return [];
	const y = openingHeight + throat;
	const hooded = (r.hoodPieces ?? 0) > 0;
	const closed = r.coilDiameterClosed === null || wrap === null ? null : r.coilDiameterClosed + wrap;
	const diameter = open ? r.swingDiameter : closed;
	const shapes: Shape[] = [];
	if (diameter !== null && left.edge !== null && right.edge !== null)
		shapes.push(rect('coil', left.edge, right.edge, y - diameter / 2, y + diameter / 2, { hidden: hooded }));
	if (left.bracket !== null && right.bracket !== null) {
		if (r.barrelDiameter !== null)
			shapes.push(
				rect('barrel', left.bracket, right.bracket, y - r.barrelDiameter / 2, y + r.barrelDiameter / 2, {
					hidden: true
				})
			);
		shapes.push(line('centre', { x: left.bracket, y }, { x: right.bracket, y }));
	}
	return shapes;
}

function hoodShapes(left: SideOfOpening, right: SideOfOpening, r: Readings): Shape[] {
	const { guideLength, bracketSize } = r;
	if ((r.hoodPieces ?? 0) < 1 || guideLength === null || bracketSize === null) return [];
	if (left.bracket === null || right.bracket === null) return [];
	const top = guideLength + bracketSize;
	const { joints, supports } = hoodPlaces(left.bracket, right.bracket, r);
	return [
		rect('hood', left.bracket, right.bracket, guideLength, top),
		...supports.map((x) => line('hoodSupport', { x, y: guideLength }, { x, y: top }, true)),
		...joints.map((x) => line('hoodJoint', { x, y: guideLength }, { x, y: top }))
	];
}

function driveShape(s: SideOfOpening, r: Readings): Shape[] {
	const { openingHeight, throat } = r;
	if (s.bracket === null || openingHeight === null || throat === null) return [];
	const y = openingHeight + throat;
	const inner = s.bracket + s.out * (r.plateThickness ?? 0);
	const overhang = r.overhang ?? 0;
	if (overhang <= 0 || r.barrelDiameter === null)
		return [{ kind: 'symbol', role: 'drive', at: { x: inner, y }, points: s.side, side: s.side }];
	const [from, to] = span(inner, inner + s.out * overhang);
	return [rect('drive', from, to, y - r.barrelDiameter / 2, y + r.barrelDiameter / 2)];
}

function curtainShapes(left: SideOfOpening, right: SideOfOpening, r: Readings, open: boolean): Shape[] {
	const { openingHeight, throat, barHeight } = r;
	if (left.edge === null || right.edge === null || openingHeight === null) return [];
	if (throat === null || barHeight === null) return [];
	const bar = open ? openingHeight : 0;
	const top = openingHeight + throat;
	const rows: Shape[] = [];
	if (r.pitch !== null && r.pitch > 0)
		for (let i = 1; bar + barHeight + i * r.pitch < top; i++) {
			const y = bar + barHeight + i * r.pitch;
			rows.push(line('curtainRow', { x: left.edge, y }, { x: right.edge, y }));
		}
	return [
		rect('curtain', left.edge, right.edge, bar + barHeight, Math.max(top, bar + barHeight)),
		...rows,
		rect('bottomBar', left.edge, right.edge, bar, bar + barHeight)
	];
}

/** Edge of the free room beside the guide, where it is near enough to be drawn. */
function sideLimit(s: SideOfOpening, bottom: number, top: number): Shape[] {
	const room = roomShown(s.room, s.requiredRoom);
	if (s.mouth === null || room === null) return [];
	const x = s.mouth + s.out * room;
	const [from, to] = span(x, x + s.out * brokenOff.room);
	return [rect('limit', from, to, bottom, top), line('limit', { x, y: bottom }, { x, y: top })];
}

function openingShapes(
	width: number,
	height: number,
	headroomTop: number,
	sides: readonly SideOfOpening[]
): Shape[] {
	const clearOnly = sides.some((s) => s.between);
	return [
		rect('opening', 0, width, 0, height),
		...sides.map((s) =>
			line('jamb', { x: s.jamb, y: 0 }, { x: s.jamb, y: s.between ? headroomTop : height })
		),
		line('head', { x: 0, y: height }, { x: width, y: height }, clearOnly)
	];
}

function groundShapes(r: Readings, from: number, to: number): Shape[] {
	if (r.sillHeight === null) return [];
	const floor = -r.sillHeight;
	const buildUp = r.floorBuildUp ?? 0;
	return [
		...(buildUp > 0 ? [rect('buildUp', from, to, floor - buildUp, floor)] : []),
		rect('ground', from, to, floor - buildUp - brokenOff.ground, floor - buildUp)
	];
}

interface Sizes {
	readonly width: number;
	readonly height: number;
}

function dimensionsOf(
	{ width, height }: Sizes,
	left: SideOfOpening,
	right: SideOfOpening,
	r: Readings,
	measures: Measures
): (DimensionShape | NoteShape)[] {
	const shapes: (DimensionShape | NoteShape)[] = [];
	const add = (
		quantity: string,
		title: string,
		edge: DimensionShape['edge'],
		from: Point,
		to: Point,
		priority: DimensionShape['priority'],
		room?: { texts: string[]; short: boolean }
	): void => {
		shapes.push(dimension({ quantity, title, edge, from, to, priority }, measures, room));
	};
	const leftOut = Math.min(left.back ?? 0, 0);
	const rightOut = Math.max(right.back ?? width, width);
	add(names.openingWidth, 'Opening width', 'bottom', { x: 0, y: 0 }, { x: width, y: 0 }, 1);
	if (left.mouth !== null && right.mouth !== null)
		add(
			names.guideDistance,
			'Guide distance',
			'bottom',
			{ x: left.mouth, y: 0 },
			{ x: right.mouth, y: 0 },
			1
		);
	if (left.edge !== null && right.edge !== null)
		add(names.curtainWidth, 'Curtain width', 'bottom', { x: left.edge, y: 0 }, { x: right.edge, y: 0 }, 3);
	add(names.openingHeight, 'Opening height', 'left', { x: leftOut, y: 0 }, { x: leftOut, y: height }, 1);
	if (r.sillHeight !== null && r.sillHeight > 0)
		add(names.sillHeight, 'Sill height', 'left', { x: leftOut, y: -r.sillHeight }, { x: leftOut, y: 0 }, 1);
	const { guideLength, bracketSize, throat } = r;
	if (guideLength !== null)
		add(
			names.guideLength,
			'Guide length',
			'right',
			{ x: rightOut, y: 0 },
			{ x: rightOut, y: guideLength },
			2
		);
	if (throat !== null)
		add(names.throat, 'Throat', 'left', { x: leftOut, y: height }, { x: leftOut, y: height + throat }, 3);
	const brackets =
		left.bracket !== null && right.bracket !== null ? ([left.bracket, right.bracket] as const) : null;
	if (guideLength !== null && bracketSize !== null) {
		const top = guideLength + bracketSize;
		const x = right.bracket ?? rightOut;
		add(names.bracketSize, 'Bracket size', 'right', { x, y: guideLength }, { x, y: top }, 2);
		if (brackets)
			add(
				names.bracketDistance,
				'Bracket distance',
				'top',
				{ x: brackets[0], y: top },
				{ x: brackets[1], y: top },
				2
			);
	}
	if (r.requiredHeadroom !== null)
		add(
			names.requiredHeadroom,
			'Headroom needed',
			'right',
			{ x: rightOut, y: height },
			{ x: rightOut, y: height + r.requiredHeadroom },
			2,
			roomTexts('headroom', r.requiredHeadroom, r.headroom, measures)
		);
	const topOfBracket = (guideLength ?? height) + (bracketSize ?? 0);
	for (const s of [left, right]) {
		if (s.mouth === null || s.requiredRoom === null) continue;
		const quantity = s.side === 'left' ? names.requiredSideRoomLeft : names.requiredSideRoomRight;
		add(
			quantity,
			`Side room needed ${s.side}`,
			'top',
			{ x: s.mouth, y: topOfBracket },
			{ x: s.mouth + s.out * s.requiredRoom, y: topOfBracket },
			3,
			roomTexts('side room', s.requiredRoom, s.room, measures)
		);
	}
	for (const s of [left, right]) {
		const count = s.anchors;
		if (count === null || guideLength === null) continue;
		const anchors = `${count} ${count === 1 ? 'anchor' : 'anchors'}`;
		shapes.push({
			kind: 'note',
			role: `note:anchors`,
			quantity: s.side === 'left' ? names.anchorsLeft : names.anchorsRight,
			title: `Anchors, guide ${s.side}`,
			edge: s.side,
			at: { x: s.back ?? s.jamb, y: guideLength / 2 },
			texts: s.substrate === null ? [anchors] : [`${anchors}, ${words(s.substrate)}`, anchors],
			priority: 2
		});
	}
	const driven = r.driveSide === 'left' ? left : r.driveSide === 'right' ? right : null;
	const driveEnd = driven?.bracket ?? null;
	if (driven && driveEnd !== null && throat !== null) {
		const by = r.operation === null ? 'drive' : words(r.operation);
		shapes.push({
			kind: 'note',
			role: 'note:drive',
			quantity: names.driveSide,
			title: 'Drive side',
			edge: 'top',
			at: { x: driveEnd, y: height + throat },
			texts: [`${by}, ${driven.side}`],
			priority: 1
		});
	}
	const pieces = r.hoodPieces ?? 0;
	if (pieces > 0 && brackets) {
		const supports = r.hoodSupports ?? 0;
		const hood = `hood in ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}`;
		const held = `${supports} ${supports === 1 ? 'support' : 'supports'}`;
		shapes.push({
			kind: 'note',
			role: 'note:hood',
			quantity: names.hoodPieces,
			title: 'Hood pieces',
			edge: 'top',
			at: { x: (brackets[0] + brackets[1]) / 2, y: topOfBracket },
			texts: supports > 0 ? [`${hood}, ${held}`, hood] : [hood],
			priority: 2
		});
	}
	return shapes;
}

function describe(
	{ width, height }: Sizes,
	left: SideOfOpening,
	right: SideOfOpening,
	r: Readings,
	options: ElevationOptions
): string {
	const text = (value: number): string => lengthText(value, options.measures);
	const sentences = [`Opening ${text(width)} wide and ${text(height)} high`];
	if (r.sillHeight !== null && r.sillHeight > 0) sentences.push(`sill ${text(r.sillHeight)} above the floor`);
	if (r.guideDistance !== null) sentences.push(`guides ${text(r.guideDistance)} apart`);
	if (r.guideLength !== null) sentences.push(`each ${text(r.guideLength)} long`);
	for (const s of [left, right]) {
		const where = s.between ? 'between the jambs' : 'on the face of the wall';
		const count = s.anchors === null ? '' : `, ${s.anchors} anchors`;
		const wall = s.substrate === null ? '' : ` in ${words(s.substrate)}`;
		sentences.push(`${s.side} guide ${where}${count}${wall}`);
	}
	if (r.bracketSize !== null) {
		const holes = r.bracketAnchors === null ? '' : `, ${r.bracketAnchors} anchors each`;
		sentences.push(`brackets ${text(r.bracketSize)}${holes}`);
	}
	if (r.barrelDiameter !== null) sentences.push(`barrel ${text(r.barrelDiameter)}`);
	if ((r.hoodPieces ?? 0) > 0)
		sentences.push(`hood in ${r.hoodPieces ?? 0} with ${r.hoodSupports ?? 0} supports`);
	if (r.driveSide !== null) sentences.push(`drive on the ${r.driveSide}`);
	if (r.requiredHeadroom !== null)
		sentences.push(roomTexts('headroom', r.requiredHeadroom, r.headroom, options.measures).texts[0] ?? '');
	sentences.push(options.open ? 'drawn open, bar at the head' : 'drawn closed, bar on the sill');
	return `${sentences.join('; ')}.`;
}

/**
 * The elevation to scale, or null while the size of the opening is not known. What is not known is left out.
 * @param read quantities of the opening: lengths in nm (see `readings.ts` for the names).
 */
export function elevationScene(read: Read, options: ElevationOptions): Scene | null {
	const r = readingsOf(read);
	const { openingWidth: width, openingHeight: height } = r;
	if (width === null || height === null || width <= 0 || height <= 0) return null;
	const left = sideOf('left', width, r);
	const right = sideOf('right', width, r);
	const topOfBracket = (r.guideLength ?? height) + (r.bracketSize ?? 0);
	const headroom = roomShown(r.headroom, r.requiredHeadroom);
	const headroomTop = height + (headroom ?? r.requiredHeadroom ?? 0);
	const sides = [left, right];
	const parts: Shape[] = [
		...openingShapes(width, height, headroomTop, sides),
		...curtainShapes(left, right, r, options.open),
		...sides.flatMap((s) => guideShapes(s, r.guideLength)),
		...((r.hoodPieces ?? 0) > 0 ? [] : coilShapes(left, right, r, options.open)),
		...hoodShapes(left, right, r),
		...((r.hoodPieces ?? 0) > 0 ? coilShapes(left, right, r, options.open) : []),
		...sides.flatMap((s) => bracketShapes(s, r)),
		...sides.flatMap((s) => (s.side === r.driveSide ? driveShape(s, r) : []))
	];
	const floor = r.sillHeight === null ? 0 : -r.sillHeight;
	const limits = sides.flatMap((s) => sideLimit(s, floor, Math.max(topOfBracket, headroomTop)));
	const reach = boundsOf([...parts, ...limits]);
	const from = reach.left - brokenOff.around;
	const to = reach.right + brokenOff.around;
	const structure =
		headroom === null ? [] : [rect('structure', from, to, headroomTop, headroomTop + brokenOff.structure)];
	const sill = line('sill', { x: left.back ?? 0, y: 0 }, { x: right.back ?? width, y: 0 });
	const wallTop = headroom === null ? reach.top + brokenOff.around : headroomTop;
	const face = rect('wallFace', from, to, floor, wallTop);
	const drawn = [face, ...groundShapes(r, from, to), ...structure, ...parts, sill, ...limits];
	const size = { width, height };
	return {
		title: `Elevation of ${options.mark} from the coil side`,
		description: describe(size, left, right, r, options),
		measures: options.measures,
		shapes: [...drawn, ...dimensionsOf(size, left, right, r, options.measures)],
		bounds: boundsOf(drawn),
		caption: {
			x: width / 2,
			texts:
				r.drawnFrom === 'farSide'
					? [
							'You stand here (coil side); the job’s drawing is seen from the far side',
							'You stand here (coil side, turned)',
							'You stand here'
						]
					: ['You stand here (coil side)', 'You stand here'],
			stand: true
		}
	};
}
