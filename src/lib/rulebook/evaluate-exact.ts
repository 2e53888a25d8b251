/** The value of a folded formula in exact decimals (40 digits): for money, where no float may round a cent. */
import { Decimal } from 'decimal.js';
import type { OneArgument } from './check-formula.ts';
import type { Folded } from './fold-units.ts';
import type { ComparisonSign } from './tree.ts';

/** A number in its display unit, a key as its word, a flag; null for what is not known or none. */
export type ExactValue = Decimal | string | boolean | null;

const Exact = Decimal.clone({ precision: 40, rounding: Decimal.ROUND_HALF_UP });
const pi = new Exact('3.14159265358979323846264338327950288419716939937510');

/** Nine decimals, half away from zero: what the floats do before they round, done here too so that all agree. */
const nine = (x: Decimal): Decimal => x.toDecimalPlaces(9, Decimal.ROUND_HALF_UP);

const one: Record<OneArgument, (x: Decimal) => Decimal> = {
	ceil: (x) => nine(x).ceil(),
	floor: (x) => nine(x).floor(),
	cents: (x) => x.toDecimalPlaces(2, Decimal.ROUND_HALF_EVEN),
	abs: (x) => x.abs(),
	sqrt: (x) => x.sqrt(),
	square: (x) => x.times(x)
};

/** As `powerOf` in `power.ts`, to 40 digits. */
function power(x: Decimal, p: Decimal): Decimal {
	if (x.isZero() && p.greaterThan(0)) return x;
	if (x.isZero()) throw new Error('0 to the power of 0 or less');
	if (x.isNegative()) throw new Error('power of a negative number');
	const result = x.pow(p);
	if (!result.isFinite()) throw new Error('a power is too large');
	return result;
}

function holds(sign: ComparisonSign, order: number): boolean {
	switch (sign) {
		case '<':
			return order < 0;
		case '<=':
			return order <= 0;
		case '>':
			return order > 0;
		case '>=':
			return order >= 0;
		case '==':
			return order === 0;
		case '!=':
			return order !== 0;
	}
}

/**
 * Both branches of `if` need not be known, only the one that applies. `cents` is half to even of the exact value;
 * the program and the workbook first take up noise below a millionth of a cent, so they can differ from it only for
 * an exact value nearer than that to half a cent without being half a cent.
 * @throws Error for a division by zero, a root of a negative number a power that is not known (see
 * `powerOf`) or a function that is not arithmetic.
 */
export function evaluateExactly(tree: Folded, read: (name: string) => ExactValue): ExactValue {
	const value = (node: Folded): ExactValue => evaluateExactly(node, read);
	const number = (node: Folded): Decimal => {
		const result = value(node);
		if (result instanceof Exact) return result;
		if (result !== null) throw new Error(`${String(result)} is not a number`);
		throw new Error(node.kind === 'name' ? `${node.name} is not known` : 'a figure is not known');
	};
	const flag = (node: Folded): boolean => {
		const result = value(node);
		if (typeof result === 'boolean') return result;
		throw new Error(result === null ? 'a condition is not known' : `${result.toString()} is not a condition`);
	};
	switch (tree.kind) {
		case 'number':
			return new Exact(tree.text.replace(/\.$/u, ''));
		case 'pi':
			return pi;
		case 'unknown':
			return null;
		case 'word':
			return tree.text === '' ? null : tree.text;
		case 'name': {
			const result = read(tree.name);
			if (Decimal.isDecimal(result)) return new Exact(result);
			return result === '' ? null : result;
		}
		case 'scale':
			return number(tree.of).times(tree.by.n.toString()).div(tree.by.d.toString());
		case 'negate':
			return number(tree.of).neg();
		case 'arithmetic': {
			const [left, right] = [number(tree.left), number(tree.right)];
			if (tree.sign === '+') return left.plus(right);
			if (tree.sign === '-') return left.minus(right);
			if (tree.sign === '*') return left.times(right);
			if (right.isZero()) throw new Error('division by zero');
			return left.div(right);
		}
		case 'comparison': {
			const difference = number(tree.left).minus(number(tree.right));
			const { n, d } = tree.toReference;
			return holds(tree.sign, nine(difference.times(n.toString()).div(d.toString())).cmp(0));
		}
		case 'sameKey':
			return (value(tree.left) === value(tree.right)) === tree.same;
		case 'logic':
			return tree.sign === '&&' ? flag(tree.left) && flag(tree.right) : flag(tree.left) || flag(tree.right);
		case 'not':
			return !flag(tree.of);
		case 'extreme': {
			const values = tree.arguments.map(number);
			return tree.name === 'min' ? Exact.min(...values) : Exact.max(...values);
		}
		case 'one': {
			const x = number(tree.of);
			if (tree.name === 'sqrt' && x.isNegative() && !x.isZero()) throw new Error('root of a negative number');
			return one[tree.name](x);
		}
		case 'round':
			return nine(number(tree.of)).toDecimalPlaces(tree.digits, Decimal.ROUND_HALF_UP);
		case 'power':
			return power(number(tree.base), number(tree.exponent));
		case 'known':
			return value(tree.of) !== null;
		case 'keyOf': {
			const key = tree.arguments.map((argument) => value(argument) ?? '').join('.');
			return tree.keys.includes(key) ? key : null;
		}
		case 'if':
			return value(flag(tree.condition) ? tree.then : tree.otherwise);
		case 'function':
			throw new Error(`${tree.function.name} is not arithmetic and has no exact value`);
	}
}
