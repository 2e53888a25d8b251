/**
 * One anchor cut along its axis, to scale: the wall, what lies on it, and the anchor through all of it. x = 0 is the face
 * of the structure, the wall to the left of it; y = 0 is the edge of the wall that is nearest to the anchor.
 */
import type { Measures } from '../takeoff/inputs.ts';
import { spaced } from '../takeoff/show.ts';
import type { Read } from './readings.ts';
import {
	boundsOf,
	breakLine,
	dimension,
	line,
	path,
	rect,
	thicknessText,
	type DimensionShape,
	type NoteShape,
	type PathShape,
	type Scene,
	type Shape,
	type Side
} from './shapes.ts';

export type Place = 'guide' | 'bracket';

export interface StackOptions {
	readonly measures: Measures;
	readonly mark: string;
	readonly place: Place;
	/** Standing on the coil side. */
	readonly side: Side;
}

/** Names of the takeoff that the drawing reads. */
export function stackNames(place: Place, side: Side) {
	const at = side === 'left' ? 'Left' : 'Right';
	const where = place === 'guide' ? 'Guide' : 'Bracket';
	return {
		through: `through${at}`,
		tip: `anchor${at}.tip`,
		nut: `anchor${at}.nut`,
		diameter: `anchor${at}.diameter`,
		headDiameter: `anchor${at}.headDiameter`,
		length: `anchorLength${at}`,
		needed: `anchorLengthNeeded${at}`,
		leg: `guide${at}.legThickness`,
		plate: 'shop.plateThickness',
		shim: 'shop.shimAllowance',
		finish: 'finishBuildUp',
		edge: `edge${where}${at}`,
		edgeNeeded: `edgeNeeded${at}`,
		thickness: `wallThickness${at}`,
		kind: `anchor${at}.kind`,
		mounting: `mounting${at}`,
		substrate: `substrate${at}`
	} as const;
}

type Name = Exclude<keyof ReturnType<typeof stackNames>, 'kind' | 'mounting' | 'substrate'>;

/** A wall this many times as deep as the anchor reaches is broken off. */
const deepWall = 3.2;

/** The drawing, or null where there is no anchor for the wall. What is not known is left out. */
export function stackScene(read: Read, options: StackOptions): Scene | null {
	const { measures, place, side } = options;
	const names = stackNames(place, side);
	const known = (name: Name): number | null => {
		const value = read(names[name]);
		return typeof value === 'number' && Number.isFinite(value) ? value / 1e6 : null;
	};
	const through = known('through');
	const diameter = known('diameter');
	const head = known('headDiameter');
	const needed = known('needed');
	if (through === null || diameter === null || head === null || needed === null || diameter <= 0) return null;
	const [tip, nut, shim, finish] = [
		known('tip') ?? 0,
		known('nut') ?? 0,
		known('shim') ?? 0,
		known('finish') ?? 0
	];
	const [leg, plate] = [known('leg') ?? 0, known('plate') ?? 0];
	const thicker = Math.max(leg, plate);
	const length = known('length');
	const edge = known('edge');
	const thickness = known('thickness');
	const kind = read(names.kind);
	const inSteel = kind === 'throughBolt' || kind === 'selfDrillingScrew';
	const between = read(names.mounting) === 'betweenJambs';
	const substrate = read(names.substrate);
	const material = typeof substrate === 'string' ? { material: substrate } : {};

	const stack = finish + shim + thicker;
	// What is bought over what is needed stands out beyond a nut; under a head it goes further in.
	const end = stack + nut;
	const bought = length ?? needed;
	const outer = nut > 0 ? bought - through - tip : stack;
	const inner = outer - bought;
	const reach = through + tip;

	const acrossDepth = between && !inSteel;
	const whole = inSteel ? through : thickness;
	const broken = acrossDepth || whole === null || whole > deepWall * reach;
	const depth = broken ? Math.max(-inner, reach) * 1.5 : whole;
	const at = edge !== null && edge > 0 ? edge : 0;
	const low = edge !== null && edge > 0 ? 0 : -2 * head;
	const high = acrossDepth && thickness !== null && thickness > at ? thickness : at + 2 * head;
	const highBroken = !(acrossDepth && thickness !== null && thickness > at);

	const wall: Shape[] = [
		rect('wall', -depth, 0, low, high, material),
		...(broken ? [breakLine(-depth, low, high, depth / 2)] : []),
		...(highBroken ? [levelBreak(high, -depth, 0, (high - low) / 2)] : [])
	];
	const layers: Shape[] = [
		...(finish > 0 ? [rect('finish', 0, finish, low, high)] : []),
		...(shim > 0 ? [rect('shim', finish, finish + shim, at - head, at + head)] : []),
		...(thicker > 0 ? [rect('leg', finish + shim, stack, Math.max(low, at - 2 * head), at + 2 * head)] : [])
	];
	const radius = diameter / 2;
	const headDepth = diameter * 0.75;
	const onLeg = rect(
		'anchorHead',
		stack,
		stack + Math.min(headDepth, nut > 0 ? nut : headDepth),
		at - head / 2,
		at + head / 2
	);
	const behind =
		kind === 'throughBolt'
			? [rect('anchorHead', inner - headDepth, inner, at - head / 2, at + head / 2)]
			: [];
	const point: Shape[] =
		tip > 0
			? [
					path(
						'shank',
						[
							{ x: inner + tip, y: at + radius },
							{ x: inner, y: at },
							{ x: inner + tip, y: at - radius }
						],
						true
					)
				]
			: [];
	const anchor: Shape[] = [
		rect('shank', inner + tip, outer, at - radius, at + radius),
		...point,
		onLeg,
		...behind,
		line('centre', { x: inner - headDepth, y: at }, { x: outer + headDepth, y: at })
	];
	const drawn = [...wall, ...layers, ...anchor];

	const shapes: (DimensionShape | NoteShape)[] = [];
	const add = (
		name: Name,
		title: string,
		on: 'top' | 'bottom' | 'left',
		from: number,
		to: number,
		said?: { texts: readonly string[]; short?: boolean }
	): void => {
		const upright = on === 'left';
		const bounds = boundsOf(drawn);
		const line = on === 'top' ? bounds.top : bounds.bottom;
		shapes.push(
			dimension(
				{
					quantity: names[name],
					title,
					edge: on,
					from: upright ? { x: bounds.left, y: from } : { x: from, y: line },
					to: upright ? { x: bounds.left, y: to } : { x: to, y: line },
					priority: 1
				},
				measures,
				said ?? { texts: [thicknessText(to - from, measures)] }
			)
		);
	};
	const say = (word: string, size: number): { texts: string[] } => ({
		texts: [`${word} ${thicknessText(size, measures)}`]
	});

	add(
		'through',
		inSteel ? 'Through the wall' : 'Embedment',
		'bottom',
		-through,
		0,
		say(inSteel ? 'steel' : 'in the wall', through)
	);
	if (tip > 0) add('tip', 'Tip', 'bottom', -through - tip, -through, say('tip', tip));
	if (finish > 0) add('finish', 'Wall finish', 'bottom', 0, finish, say('finish', finish));
	if (shim > 0) add('shim', 'Shims', 'bottom', finish, finish + shim, say('shims', shim));
	if (thicker > 0)
		add(
			leg >= plate ? 'leg' : 'plate',
			leg >= plate ? 'Leg of the guide' : 'Wall plate',
			'bottom',
			finish + shim,
			stack,
			say(leg >= plate ? 'leg' : 'plate', thicker)
		);
	if (nut > 0) add('nut', 'Nut and tail', 'bottom', stack, end, say('nut', nut));
	add('needed', 'Length needed', 'top', -reach, end, say('needed', needed));
	if (length !== null) add('length', 'Length bought', 'top', inner, outer, say('bought', length));
	const leastEdge = known('edgeNeeded');
	const close = edge !== null && leastEdge !== null && edge < leastEdge;
	if (edge !== null && edge > 0)
		add(
			'edge',
			'Edge distance',
			'left',
			0,
			edge,
			close
				? {
						texts: [`edge ${thicknessText(edge, measures)}, needs ${thicknessText(leastEdge, measures)}`],
						short: true
					}
				: say('edge', edge)
		);
	shapes.push({
		kind: 'note',
		role: 'note:diameter',
		quantity: names.diameter,
		title: 'Diameter of the anchor',
		edge: 'right',
		at: { x: outer, y: at },
		texts: [`${thicknessText(diameter, measures)} thick`],
		priority: 1
	});

	const text = (value: number): string => thicknessText(value, measures);
	const sentences = [
		`Anchor ${text(diameter)} thick in ${typeof substrate === 'string' ? spaced(substrate) : 'the wall'}`,
		`${text(through)} ${inSteel ? 'of wall' : 'embedded'}`,
		...(tip > 0 ? [`tip ${text(tip)}`] : []),
		...(finish > 0 ? [`finish ${text(finish)}`] : []),
		`shims ${text(shim)}`,
		`${leg >= plate ? 'leg of the guide' : 'wall plate'} ${text(thicker)}`,
		...(nut > 0 ? [`nut and tail ${text(nut)}`] : []),
		`length needed ${text(needed)}`,
		length === null ? 'no length that is bought reaches' : `length bought ${text(length)}`,
		...(edge === null ? [] : [`${text(edge)} from the edge`])
	];
	return {
		title: `Anchor of the ${side} ${place} of ${options.mark}`,
		description: `${sentences.join('; ')}.`,
		measures,
		shapes: [...drawn, ...shapes],
		bounds: boundsOf(drawn),
		caption: {
			x: end / 2,
			texts: [
				length === null
					? 'No length that is bought reaches; drawn as needed'
					: 'Cut along the anchor, wall on the left',
				'Wall on the left'
			],
			stand: false
		}
	};
}

/** The edge of what is broken off upwards. */
function levelBreak(y: number, from: number, to: number, height: number): PathShape {
	const upright = breakLine(y, from, to, height);
	return { ...upright, points: upright.points.map((point) => ({ x: point.y, y: point.x })) };
}
