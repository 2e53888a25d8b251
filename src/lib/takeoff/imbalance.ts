/** The curtain against its springs over the travel, point by point: what a plot draws. */

/** A hanging curtain. Any one unit of length and one of force for everything here. */
interface Hanging {
	/** W₀: curtain and bottom bar that hang with the bar on the sill; ≥ 0. */
	readonly closedWeight: number;
	/** λ: weight of the curtain for each length of travel; ≥ 0. */
	readonly runWeight: number;
	/** C₀: centreline diameter of the outer turn with the bar on the sill; > 0. */
	readonly coilDiameterClosed: number;
	/** t: thickness of one wrap; > 0. */
	readonly wrap: number;
	/** Travel from sill to head; > 0. */
	readonly openingHeight: number;
}

/** Torsion springs, and where the hand acts. */
interface Counterbalance {
	/** k: torque that all springs together gain with each turn; > 0. */
	readonly rate: number;
	/** n₀: turns wound up with the bar on the sill; ≥ 0. */
	readonly woundTurns: number;
	/** f: guide friction as a share of the hanging weight; ≥ 0. */
	readonly friction: number;
	/** Gearing times arm of a crank or chain wheel, > 0; `null` where the bar is pushed, at the coil’s radius. */
	readonly lever: number | null;
}

interface TravelCurve {
	/** s from 0 (bar on the sill) to the opening height, equally apart. */
	readonly travel: readonly number[];
	readonly curtainTorque: readonly number[];
	/** `null` without springs. */
	readonly balance: {
		readonly springTorque: readonly number[];
		/** Curtain less springs; positive where the curtain wants down. */
		readonly imbalance: readonly number[];
		/** Upwards, with friction. */
		readonly handForce: readonly number[];
	} | null;
}

/**
 * Torque of the curtain, torque of the springs, imbalance and hand force over the travel s:
 *
 * - coil C(s) = √(C₀² + 4ts/π) and turns n(s) = (C − C₀)/2t, the mean-diameter form of the Archimedean spiral (within
 *   0.1 % of the exact length for three turns and more)
 * - curtain (W₀ − λs)·C/2
 * - springs k·(n₀ − n), a straight line over the turns
 * - hand ((1 + f)·curtain − springs)/lever, on the way up
 *
 * @param springs `null` for a tube motor, whose barrel has none
 * @param points how many, ends included; a whole number of at least 2
 * @throws RangeError for a figure outside its range
 */
export function travelCurve(hanging: Hanging, springs: Counterbalance | null, points: number): TravelCurve {
	const { closedWeight, runWeight, coilDiameterClosed, wrap, openingHeight } = hanging;
	atLeastZero({ closedWeight, runWeight });
	aboveZero({ coilDiameterClosed, wrap, openingHeight });
	if (!Number.isInteger(points) || points < 2)
		throw new RangeError(`a curve has two points or more, not ${points}`);
	const travel = Array.from({ length: points }, (_, i) => (openingHeight * i) / (points - 1));
	const diameter = travel.map((s) => Math.sqrt(coilDiameterClosed ** 2 + (4 * wrap * s) / Math.PI));
	const each = (reckon: (s: number, coil: number) => number): number[] =>
		travel.map((s, i) => reckon(s, diameter[i] ?? NaN));

	const curtain = (s: number, coil: number): number => ((closedWeight - runWeight * s) * coil) / 2;
	const curtainTorque = each(curtain);
	if (springs === null) return { travel, curtainTorque, balance: null };

	const { rate, woundTurns, friction, lever } = springs;
	aboveZero({ rate, ...(lever === null ? {} : { lever }) });
	atLeastZero({ woundTurns, friction });
	const spring = (coil: number): number => rate * (woundTurns - (coil - coilDiameterClosed) / (2 * wrap));
	return {
		travel,
		curtainTorque,
		balance: {
			springTorque: each((_, coil) => spring(coil)),
			imbalance: each((s, coil) => curtain(s, coil) - spring(coil)),
			handForce: each((s, coil) => ((1 + friction) * curtain(s, coil) - spring(coil)) / (lever ?? coil / 2))
		}
	};
}

type Figures = Readonly<Record<string, number>>;

function aboveZero(figures: Figures): void {
	for (const [name, value] of Object.entries(figures))
		if (!(value > 0 && value < Infinity))
			throw new RangeError(`${name} must be greater than 0, not ${value}`);
}

function atLeastZero(figures: Figures): void {
	for (const [name, value] of Object.entries(figures))
		if (!(value >= 0 && value < Infinity)) throw new RangeError(`${name} must not be negative, is ${value}`);
}
