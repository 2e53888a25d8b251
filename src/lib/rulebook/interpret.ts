/** The value of a folded formula, a node at a time: the second way to the figure, for the working. */
import { toNumber } from '../quantity/units.ts';
import type { OneArgument } from './check-formula.ts';
import type { Folded } from './fold-units.ts';
import { powerOf } from './power.ts';
import { centsOf, ceilOf, comparisonNoise, floorOf, roundOf } from './rounding.ts';
import type { ComparisonSign } from './tree.ts';

/** A number in its unit (NaN: not known), a flag as 1 or 0, a key as its word (null: none). */
export type Value = number | string | null;

/** Gives the value of a name in the unit asked for. */
export type ReadValue = (name: string, unit: string) => Value;

const one: Record<OneArgument, (x: number) => number> = {
	ceil: ceilOf,
	floor: floorOf,
	cents: centsOf,
	abs: Math.abs,
	sqrt: Math.sqrt,
	square: (x) => x * x
};

/** 1, 0, or NaN when the difference is not known. */
function compare(sign: ComparisonSign, difference: number): number {
	if (Number.isNaN(difference)) return NaN;
	const order = difference >= comparisonNoise ? 1 : difference <= -comparisonNoise ? -1 : 0;
	const holds = {
		'<': order < 0,
		'<=': order <= 0,
		'>': order > 0,
		'>=': order >= 0,
		'==': order === 0,
		'!=': order !== 0
	};
	return holds[sign] ? 1 : 0;
}

export function interpretNumber(tree: Folded, read: ReadValue): number {
	const value = interpret(tree, read);
	return typeof value === 'number' ? value : NaN;
}

/**
 * A division by 0 and a root or power of a negative number are not known (NaN). `&&` is 0 and `||` is 1 as soon as one side
 * says so, even when the other is not known. A key that is none equals no word.
 */
export function interpret(tree: Folded, read: ReadValue): Value {
	const at = (node: Folded): number => interpretNumber(node, read);
	switch (tree.kind) {
		case 'number':
			return Number(tree.text);
		case 'pi':
			return Math.PI;
		case 'unknown':
			return NaN;
		case 'word':
			return tree.text === '' ? null : tree.text;
		case 'name':
			return read(tree.name, tree.unit);
		case 'scale':
			return tree.by.n === 1n
				? at(tree.of) / toNumber({ n: tree.by.d, d: 1n })
				: at(tree.of) * toNumber(tree.by);
		case 'negate':
			return 0 - at(tree.of);
		case 'arithmetic': {
			const [left, right] = [at(tree.left), at(tree.right)];
			if (tree.sign === '+') return left + right;
			if (tree.sign === '-') return left - right;
			if (tree.sign === '*') return left * right;
			return right === 0 ? NaN : left / right;
		}
		case 'comparison':
			return compare(tree.sign, (at(tree.left) - at(tree.right)) * toNumber(tree.toReference));
		case 'sameKey':
			return (interpret(tree.left, read) === interpret(tree.right, read)) === tree.same ? 1 : 0;
		case 'logic': {
			const [left, right] = [at(tree.left), at(tree.right)];
			const settles = tree.sign === '&&' ? 0 : 1;
			if (left === settles || right === settles) return settles;
			return Number.isNaN(left) || Number.isNaN(right) ? NaN : 1 - settles;
		}
		case 'not':
			return 1 - at(tree.of);
		case 'extreme': {
			const values = tree.arguments.map(at);
			return tree.name === 'min' ? Math.min(...values) : Math.max(...values);
		}
		case 'one':
			return one[tree.name](at(tree.of));
		case 'round':
			return roundOf(at(tree.of), tree.digits);
		case 'power':
			return powerOf(at(tree.base), at(tree.exponent));
		case 'known': {
			const value = interpret(tree.of, read);
			return value === null || Number.isNaN(value) ? 0 : 1;
		}
		case 'keyOf': {
			const words = tree.arguments.map((argument) => interpret(argument, read));
			const key = words.join('.');
			return words.every((word) => typeof word === 'string') && tree.keys.includes(key) ? key : null;
		}
		case 'if': {
			const condition = at(tree.condition);
			if (Number.isNaN(condition)) return NaN;
			return interpret(condition === 0 ? tree.otherwise : tree.then, read);
		}
		case 'function': {
			const values = tree.arguments.map(at);
			return values.some(Number.isNaN) ? NaN : tree.function.compute(...values);
		}
	}
}
