/** Shims behind the guides, so that they stand plumb on walls that do not. */
import { anchorStockOf } from '../takeoff/anchors.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import type { Measures } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import type { Side } from './governing.ts';
import { offAt, rangeOf, turnsBetween, type Knot, type Plane } from './jamb-line.ts';
import { lengthOf } from './taken-sizes.ts';

/** The plane a guide is shimmed in: out of the wall on its face, in the wall between jambs. */
export const shimPlane = (mounting: unknown): Plane =>
	mounting === 'betweenJambs' ? 'inPlane' : 'outOfPlane';

/** A guide with the anchors through it, as the takeoff has it. Lengths in whole nm. */
export interface StandingGuide {
	readonly side: Side;
	readonly plane: Plane;
	readonly length: number;
	/** Heights of the anchors above the finished sill, from the sill up. */
	readonly anchors: readonly number[];
	readonly anchor: GuideAnchor | null;
}

/** What is bought to hold a guide, nm. */
interface GuideAnchor {
	readonly length: number;
	/** In or through the wall. */
	readonly through: number;
	/** Solid walls hold it by its embedment; through steel or backing it has to reach. */
	readonly embedded: boolean;
	/** The thickest shims it passes with all of that. */
	readonly mostShim: number;
	/** Shims the shop reckons with. */
	readonly allowance: number;
	/** Other lengths it is bought in, nm. */
	readonly lengths: readonly number[];
}

function anchorOf(opening: OpeningTakeoff, at: 'Left' | 'Right', book: TechnicalBook): GuideAnchor | null {
	const stock = opening.get(`anchorStock${at}`);
	const length = lengthOf(opening, `anchorLength${at}`);
	const through = lengthOf(opening, `through${at}`);
	const others = [`anchor${at}.tip`, `guide${at}.legThickness`, `anchor${at}.nut`].map((id) =>
		lengthOf(opening, id)
	);
	const allowance = lengthOf(opening, 'shop.shimAllowance');
	if (typeof stock !== 'string' || length === null || through === null || allowance === null) return null;
	let taken = through + (lengthOf(opening, 'finishBuildUp') ?? 0);
	for (const one of others) {
		if (one === null) return null;
		taken += one;
	}
	const kind = opening.get(`anchor${at}.kind`);
	return {
		length,
		through,
		embedded: kind !== 'throughBolt' && kind !== 'selfDrillingScrew',
		// The guide’s own leg: the takeoff’s length serves the wall plate of the bracket as well.
		mostShim: length - taken,
		allowance,
		lengths: (anchorStockOf(book, stock)?.anchor.lengths ?? []).map((text) =>
			Math.round(Number(text) * 25_400_000)
		)
	};
}

/** The guide of a side; null where the takeoff has no guide or no anchors for it. */
export function standingGuide(
	opening: OpeningTakeoff,
	side: Side,
	book: TechnicalBook
): StandingGuide | null {
	const at = side === 'left' ? 'Left' : 'Right';
	const length = lengthOf(opening, 'guideLength');
	const end = lengthOf(opening, `guide${at}.endDistance`);
	const count = opening.get(`anchorsPerGuide${at}`);
	if (length === null || end === null || typeof count !== 'number' || count < 2) return null;
	return {
		side,
		plane: shimPlane(opening.get(`mounting${at}`)),
		length,
		anchors: Array.from({ length: count }, (_, i) =>
			Math.round(end + ((length - 2 * end) * i) / (count - 1))
		),
		anchor: anchorOf(opening, at, book)
	};
}

/** Shims at one anchor, whole nm. */
export interface ShimAt {
	/** From 1 at the sill. */
	readonly anchor: number;
	readonly height: number;
	/** Gap between guide and wall. */
	readonly exact: number;
	/** The same in the sizes shims come in, never less. */
	readonly made: number;
}

export interface GuideShims {
	readonly side: Side;
	readonly plane: Plane;
	readonly length: number;
	/** Gap between the plumb guide and the wall from the sill to the top of the guide, straight between these points. */
	readonly wall: readonly { readonly height: number; readonly gap: number }[];
	/** Heights at which the guide touches the wall. */
	readonly touches: readonly number[];
	/** From the sill up. */
	readonly at: readonly ShimAt[];
	readonly thickest: ShimAt | null;
}

const inch = 25_400_000;

/** Steps shims come in: 1/16 in, 1 mm. *Common practice, no source.* */
export const shimStep = (measures: Measures): number => (measures === 'metric' ? 1_000_000 : inch / 16);

/**
 * Shims at every anchor of a guide that stands plumb on the proudest point of its wall, anywhere along its length:
 * thickness = proudest − wall at the anchor, the wall straight between readings, and beyond the outermost as the
 * outermost (see `offAt`).
 *
 * @param knots readings of the guide’s plane
 * @param step sizes shims come in, nm, more than 0
 * @returns null without readings
 */
export function shimsOf(guide: StandingGuide, knots: readonly Knot[], step: number): GuideShims | null {
	const range = rangeOf(knots, 0, guide.length);
	if (!range) return null;
	const gapAt = (height: number): number => range.most - (offAt(knots, height) ?? range.most);
	const wall = turnsBetween(knots, 0, guide.length).map((height) => ({ height, gap: gapAt(height) }));
	const at = guide.anchors.map((height, i): ShimAt => {
		const exact = gapAt(height);
		return { anchor: i + 1, height, exact, made: Math.ceil(exact / step) * step };
	});
	return {
		side: guide.side,
		plane: guide.plane,
		length: guide.length,
		wall,
		touches: wall.filter(({ gap }) => gap === 0).map(({ height }) => height),
		at,
		thickest: at.reduce<ShimAt | null>((most, one) => (most && most.exact >= one.exact ? most : one), null)
	};
}
