/**
 * Units and dimensions. Every unit is an exact fraction of the base units the engine computes in:
 * length nm, force lbf, time min, potential V, current A, money (the currency of the price book).
 *
 * Weights are forces: `lb` is pound-force and `kg` is the weight of a kilogram at standard gravity, so
 * 1 lb = 0.45359237 kg exactly. Definitions: NIST SP 811 (2008), B.8 (1 in = 25.4 mm, 1 lb = 0.453 592 37 kg,
 * g = 9.806 65 m/s²; all exact).
 */

/** Exponents of length, force, time, potential, current, money. */
export type Dimension = readonly [number, number, number, number, number, number];

/** An exact positive ratio, always in lowest terms. */
export interface Fraction {
	readonly n: bigint;
	readonly d: bigint;
}

export interface Unit {
	/** As written, e.g. `lb/ft2`. */
	readonly text: string;
	readonly dimension: Dimension;
	/** Base units in one of this unit, exact. */
	readonly factor: Fraction;
	/** The same as a float, for the engine. */
	readonly scale: number;
}

export const dimensionless: Dimension = [0, 0, 0, 0, 0, 0];

export function fraction(n: bigint, d = 1n): Fraction {
	let [a, b] = [n, d];
	while (b !== 0n) [a, b] = [b, a % b];
	return { n: n / a, d: d / a };
}

export const one = fraction(1n);

export const times = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.n, a.d * b.d);
export const over = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d, a.d * b.n);
export const sameFraction = (a: Fraction, b: Fraction): boolean => a.n === b.n && a.d === b.d;

export function power(a: Fraction, exponent: number): Fraction {
	let result = one;
	for (let i = 0; i < Math.abs(exponent); i++) result = times(result, a);
	return exponent < 0 ? over(one, result) : result;
}

/**
 * The float nearest to an exact positive fraction. Where a part is beyond 2^53 the quotient is taken with 64 bits or
 * more and a last bit for what is left over, so that it is rounded once only.
 */
export function toNumber({ n, d }: Fraction): number {
	if (n <= Number.MAX_SAFE_INTEGER && d <= Number.MAX_SAFE_INTEGER) return Number(n) / Number(d);
	const shift = Math.max(0, 64 + d.toString(2).length - n.toString(2).length);
	const scaled = n << BigInt(shift);
	const quotient = scaled / d;
	return Number(scaled % d === 0n ? quotient : quotient | 1n) / 2 ** shift;
}

export const sameDimension = (a: Dimension, b: Dimension): boolean => a.every((v, i) => v === b[i]);
export const isDimensionless = (a: Dimension): boolean => a.every((v) => v === 0);

/** A dimension from what its exponent of each base is. */
const dimensionOf = (exponent: (base: 0 | 1 | 2 | 3 | 4 | 5) => number): Dimension => [
	exponent(0),
	exponent(1),
	exponent(2),
	exponent(3),
	exponent(4),
	exponent(5)
];

export const combine = (a: Dimension, b: Dimension, sign: 1 | -1): Dimension =>
	dimensionOf((base) => a[base] + sign * b[base]);

export const raise = (a: Dimension, exponent: number): Dimension => dimensionOf((base) => a[base] * exponent);

const length: Dimension = [1, 0, 0, 0, 0, 0];
const force: Dimension = [0, 1, 0, 0, 0, 0];
const time: Dimension = [0, 0, 1, 0, 0, 0];
const potential: Dimension = [0, 0, 0, 1, 0, 0];
const current: Dimension = [0, 0, 0, 0, 1, 0];
const resistance: Dimension = [0, 0, 0, 1, -1, 0];
const money: Dimension = [0, 0, 0, 0, 0, 1];

const inch = fraction(25_400_000n);
const foot = fraction(304_800_000n);
const metre = fraction(1_000_000_000n);
const newton = fraction(10_000_000_000_000n, 44_482_216_152_605n);
const kilogram = fraction(100_000_000n, 45_359_237n);
const pascal = over(newton, times(metre, metre));

const symbols = new Map<string, readonly [Dimension, Fraction]>([
	['1', [dimensionless, one]],
	['each', [dimensionless, one]],
	['turn', [dimensionless, one]],
	['nm', [length, one]],
	['mm', [length, fraction(1_000_000n)]],
	['cm', [length, fraction(10_000_000n)]],
	['m', [length, metre]],
	['in', [length, inch]],
	['ft', [length, foot]],
	['yd', [length, fraction(914_400_000n)]],
	['lb', [force, one]],
	['N', [force, newton]],
	['kN', [force, times(newton, fraction(1000n))]],
	['kg', [force, kilogram]],
	['s', [time, fraction(1n, 60n)]],
	['min', [time, one]],
	['h', [time, fraction(60n)]],
	['day', [time, fraction(480n)]],
	['rpm', [[0, 0, -1, 0, 0, 0], one]],
	['psi', [[-2, 1, 0, 0, 0, 0], over(one, times(inch, inch))]],
	['ksi', [[-2, 1, 0, 0, 0, 0], over(fraction(1000n), times(inch, inch))]],
	['psf', [[-2, 1, 0, 0, 0, 0], over(one, times(foot, foot))]],
	['Pa', [[-2, 1, 0, 0, 0, 0], pascal]],
	['kPa', [[-2, 1, 0, 0, 0, 0], times(pascal, fraction(1000n))]],
	['MPa', [[-2, 1, 0, 0, 0, 0], times(pascal, fraction(1_000_000n))]],
	['V', [potential, one]],
	['A', [current, one]],
	['ohm', [resistance, one]],
	['money', [money, one]]
]);

const known = new Map<string, Unit>();

/**
 * Reads a unit as written: symbols with whole exponents (`in4`, `ft2`, `m²`), multiplied by `-`, `·` or `*`;
 * everything after a `/` divides (`lb/ft2`, `lb-ft`, `N·m`, `money/h`). A working day (`day`) is eight hours.
 * @throws Error naming the part that is not a known unit.
 */
export function unit(text: string): Unit {
	const cached = known.get(text);
	if (cached) return cached;
	let dimension = dimensionless;
	let factor = one;
	text.split('/').forEach((side, index) => {
		const sign = index === 0 ? 1 : -1;
		for (const term of side.split(/[-·*]/u)) {
			const plain = term.replace('²', '2').replace('³', '3').replace('⁴', '4');
			const match = /^(1|[A-Za-z]+)([1-9]?)$/u.exec(plain);
			const symbol = match ? symbols.get(match[1] ?? '') : undefined;
			if (!match || !symbol) throw new Error(`"${term}" in "${text}" is not a known unit`);
			const exponent = sign * Number(match[2] === '' ? 1 : match[2]);
			dimension = combine(dimension, raise(symbol[0], exponent), 1);
			factor = times(factor, power(symbol[1], exponent));
		}
	});
	const result: Unit = { text, dimension, factor, scale: toNumber(factor) };
	known.set(text, result);
	return result;
}

/** Converts between units of one dimension. @throws Error when the dimensions differ. */
export function convert(value: number, from: string, to: string): number {
	const [a, b] = [unit(from), unit(to)];
	if (!sameDimension(a.dimension, b.dimension)) throw new Error(`${from} and ${to} measure different things`);
	return value * toNumber(over(a.factor, b.factor));
}

const dimensionNames: readonly (readonly [string, Dimension])[] = [
	['plain number', dimensionless],
	['length', length],
	['area', [2, 0, 0, 0, 0, 0]],
	['weight', force],
	['torque', [1, 1, 0, 0, 0, 0]],
	['weight per length', [-1, 1, 0, 0, 0, 0]],
	['pressure', [-2, 1, 0, 0, 0, 0]],
	['second moment of area', [4, 0, 0, 0, 0, 0]],
	['section modulus', [3, 0, 0, 0, 0, 0]],
	['time', time],
	['speed of rotation', [0, 0, -1, 0, 0, 0]],
	['time per length', [-1, 0, 1, 0, 0, 0]],
	['time per weight', [0, -1, 1, 0, 0, 0]],
	['voltage', potential],
	['current', current],
	['resistance', resistance],
	['resistance per length', [-1, 0, 0, 1, -1, 0]],
	['money', money],
	['money per length', [-1, 0, 0, 0, 0, 1]],
	['money per area', [-2, 0, 0, 0, 0, 1]],
	['money per weight', [0, -1, 0, 0, 0, 1]],
	['money per time', [0, 0, -1, 0, 0, 1]]
];

/** The dimension in words, for messages: `length`, `area`, or its exponents where it has no name of its own. */
export function nameOfDimension(dimension: Dimension): string {
	const named = dimensionNames.find(([, d]) => sameDimension(d, dimension));
	if (named) return named[0];
	const bases = ['length', 'force', 'time', 'voltage', 'current', 'money'];
	return dimension
		.map((exponent, i) => (exponent === 0 ? '' : `${bases[i] ?? ''}^${String(exponent)}`))
		.filter(Boolean)
		.join(' · ');
}

/** Base units in one reference unit of this dimension. Reference units (inch, pound, minute) are what noise is taken up in. */
export function referenceScale(dimension: Dimension): number {
	return toNumber(power(inch, dimension[0]));
}
