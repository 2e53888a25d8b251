/** How far an opening leans, from its two diagonals. */
import type { FieldReadings } from './field-measure.ts';
import type { SayLength } from './sentence.ts';

export type Skew =
	/** Whole nm the head stands to the right of the sill, over the height; minus: to the left. Seen from the coil side. */
	| { readonly state: 'known'; readonly lean: number }
	/** The diagonals can't belong to this width and height. */
	| { readonly state: 'impossible'; readonly reason: string }
	| { readonly state: 'notMeasured' };

/** Numerator over a positive denominator, to the nearest whole number, halves away from zero. */
function nearestQuotient(n: bigint, d: bigint): bigint {
	const size = n < 0n ? -n : n;
	const quotient = (2n * size + d) / (2n * d);
	return n < 0n ? -quotient : quotient;
}

/**
 * The lean of a parallelogram: `(d₁² − d₂²) / 4W`.
 *
 * Sill from (0, 0) to (W, 0), head shifted by s: from (s, H) to (W + s, H). The rising diagonal ends at the right:
 * d₁² = (W + s)² + H², the falling one d₂² = (W − s)² + H²; their difference is 4Ws, whatever the height. Heads of
 * different heights show in it too. Exact in whole numbers, rounded once.
 *
 * @param rising d₁, bottom left to top right, whole nm
 * @param falling d₂, bottom right to top left, whole nm
 * @param widths one or more, whole nm, more than 0; W is their mean
 * @throws RangeError without a width
 */
export function leanOf(rising: number, falling: number, widths: readonly number[]): number {
	const sum = widths.reduce((total, width) => total + BigInt(width), 0n);
	if (sum <= 0n) throw new RangeError('a lean needs a width');
	const [a, b] = [BigInt(rising), BigInt(falling)];
	return Number(nearestQuotient((a - b) * (a + b) * BigInt(widths.length), 4n * sum));
}

const mean = (values: readonly number[]): number =>
	values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * The skew of an opening. W is the mean of sill and head, else of the widths there are.
 *
 * @param closure what the diagonals may differ from those of the measured sizes, nm
 */
export function skewOf(
	{ diagonals, widths, heights }: Pick<FieldReadings, 'diagonals' | 'widths' | 'heights'>,
	closure: number,
	say: SayLength
): Skew {
	const { rising, falling } = diagonals;
	const ends = [widths.bottom, widths.top].flatMap((width) => width ?? []);
	const across = ends.length === 2 ? ends : [...ends, ...(widths.middle === null ? [] : [widths.middle])];
	if (rising === null || falling === null || across.length === 0) return { state: 'notMeasured' };
	const lean = leanOf(rising, falling, across);
	const width = mean(across);
	const diagonalsSay = `Diagonals of ${say(rising)} and ${say(falling)}`;
	const again = 'one of them, or a width or height, is misread';
	// d₁² + d₂² = 2 (W² + s² + H²): what is left for the height.
	const middle = (rising ** 2 + falling ** 2) / 2;
	const flat = width ** 2 + lean ** 2;
	if (middle <= flat)
		return {
			state: 'impossible',
			reason: `${diagonalsSay} can’t belong to a width of ${say(Math.round(width))}: ${again}.`
		};
	const { left, right } = heights;
	if (left !== null && right !== null) {
		const expected = Math.sqrt(flat + (left ** 2 + right ** 2) / 2);
		const off = Math.sqrt(middle) - expected;
		if (Math.abs(off) > closure)
			return {
				state: 'impossible',
				reason: `${diagonalsSay} are ${say(Math.round(Math.abs(off)))} too ${off > 0 ? 'long' : 'short'} for a width of ${say(Math.round(width))} and heights of ${say(left)} and ${say(right)}: ${again}.`
			};
	}
	return { state: 'known', lean };
}
