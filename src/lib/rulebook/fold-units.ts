/**
 * A formula with its names in display units. The program computes in base units and needs no factors; a person and a
 * spreadsheet read inches, square feet and pounds, so there the factors must stand: `123 in × 69 in ÷ 144` is an
 * area in ft². Factors are exact fractions. They are carried through products and quotients, so that only what does
 * not cancel appears, once.
 *
 * The folded tree serves the working, the workbook formula and the exact evaluation.
 */
import {
	dimensionless,
	fraction,
	one,
	over,
	power,
	sameFraction,
	times,
	unit,
	type Dimension,
	type Fraction
} from '../quantity/units.ts';
import type { OneArgument, Type, Typed } from './check-formula.ts';
import { childrenOf } from './children.ts';
import type { NamedFunction } from './definition.ts';
import { decimalText, exactDecimal } from './exact-decimal.ts';
import { unitNames } from './names.ts';
import type { ArithmeticSign, ComparisonSign, LogicSign } from './tree.ts';

/** Gives the display unit of a name. */
export type UnitOf = (name: string) => string;

export type Folded =
	/** A written number; `unit` is what it is one of, where it has one. */
	| { readonly kind: 'number'; readonly text: string; readonly unit: string | null }
	| { readonly kind: 'pi' }
	| { readonly kind: 'unknown' }
	| { readonly kind: 'word'; readonly text: string }
	/** The value of a name in its display unit, or its key, or its flag. */
	| { readonly kind: 'name'; readonly name: string; readonly unit: string; readonly type: Type['kind'] }
	/** Times an exact factor between units. */
	| { readonly kind: 'scale'; readonly of: Folded; readonly by: Fraction }
	| { readonly kind: 'negate'; readonly of: Folded }
	| {
			readonly kind: 'arithmetic';
			readonly sign: ArithmeticSign;
			readonly left: Folded;
			readonly right: Folded;
	  }
	/** Both sides in one unit; `toReference` makes reference units of their difference. */
	| {
			readonly kind: 'comparison';
			readonly sign: ComparisonSign;
			readonly left: Folded;
			readonly right: Folded;
			readonly toReference: Fraction;
	  }
	| { readonly kind: 'sameKey'; readonly same: boolean; readonly left: Folded; readonly right: Folded }
	| { readonly kind: 'logic'; readonly sign: LogicSign; readonly left: Folded; readonly right: Folded }
	| { readonly kind: 'not'; readonly of: Folded }
	| { readonly kind: 'extreme'; readonly name: 'min' | 'max'; readonly arguments: readonly Folded[] }
	| { readonly kind: 'one'; readonly name: OneArgument; readonly of: Folded }
	| { readonly kind: 'power'; readonly base: Folded; readonly exponent: Folded }
	| { readonly kind: 'round'; readonly of: Folded; readonly digits: number }
	| { readonly kind: 'known'; readonly of: Folded }
	| { readonly kind: 'keyOf'; readonly keys: readonly string[]; readonly arguments: readonly Folded[] }
	| { readonly kind: 'if'; readonly condition: Folded; readonly then: Folded; readonly otherwise: Folded }
	| { readonly kind: 'function'; readonly function: NamedFunction; readonly arguments: readonly Folded[] };

/** A folded tree and how many base units its 1 is. `null`: an exact 0, or not known, which is so in every unit. */
interface Scaled {
	readonly tree: Folded;
	readonly scale: Fraction | null;
}

/** Base units in one reference unit (inches, pounds, minutes) of a dimension, exact. */
const reference = (dimension: Dimension): Fraction => power(unit('in').factor, dimension[0]);

/** The square root when it is a fraction too. */
function root({ n, d }: Fraction): Fraction | null {
	const whole = (x: bigint): bigint | null => {
		let guess = 1n << (BigInt(x.toString(2).length + 1) / 2n);
		for (;;) {
			const next = (guess + x / guess) / 2n;
			if (next >= guess) break;
			guess = next;
		}
		return guess * guess === x ? guess : null;
	};
	const [a, b] = [whole(n), whole(d)];
	return a === null || b === null ? null : fraction(a, b);
}

class Folder {
	readonly #unitOf: UnitOf;
	/** The scale a node has when nothing else is asked of it. */
	readonly #natural = new Map<Typed, Fraction | null>();

	constructor(unitOf: UnitOf) {
		this.#unitOf = unitOf;
	}

	/** The node in the unit whose factor is `wanted`. */
	in(node: Typed, wanted: Fraction): Folded {
		return this.#scaled(this.fold(node, wanted), wanted);
	}

	fold(node: Typed, wanted?: Fraction): Scaled {
		const target = (): Fraction => wanted ?? this.natural(node) ?? one;
		switch (node.kind) {
			case 'number':
				return {
					tree: { kind: 'number', text: node.text, unit: null },
					scale: node.value.n === 0n ? null : one
				};
			case 'pi':
				return { tree: { kind: 'pi' }, scale: one };
			case 'unknown':
				return { tree: { kind: 'unknown' }, scale: null };
			case 'unit':
				return { tree: { kind: 'number', text: '1', unit: node.unit }, scale: unit(node.unit).factor };
			case 'word':
				return { tree: { kind: 'word', text: node.text }, scale: one };
			case 'name': {
				const text = node.type.kind === 'number' ? this.#unitOf(node.name) : '1';
				return {
					tree: { kind: 'name', name: node.name, unit: text, type: node.type.kind },
					scale: unit(text).factor
				};
			}
			case 'negate': {
				const { tree, scale } = this.fold(node.of, wanted);
				return { tree: { kind: 'negate', of: tree }, scale };
			}
			case 'arithmetic':
				return node.sign === '+' || node.sign === '-' ? this.#sum(node, target()) : this.#product(node);
			case 'extreme': {
				const scale = target();
				const given = node.arguments.map((argument) => this.in(argument, scale));
				return {
					tree: { kind: 'extreme', name: node.name, arguments: given },
					scale: this.#zeroOr(node, scale)
				};
			}
			case 'if': {
				const numeric = node.type.kind === 'number';
				const scale = numeric ? target() : one;
				const condition = this.in(node.condition, one);
				const then = this.in(node.then, scale);
				const otherwise = this.in(node.otherwise, scale);
				return {
					tree: { kind: 'if', condition, then, otherwise },
					scale: numeric ? this.#zeroOr(node, scale) : one
				};
			}
			case 'one':
				return this.#one(node, wanted);
			case 'round':
				return { tree: { kind: 'round', of: this.in(node.of, one), digits: node.digits }, scale: one };
			case 'power': {
				const [base, exponent] = [this.in(node.base, one), this.in(node.exponent, one)];
				return { tree: { kind: 'power', base, exponent }, scale: one };
			}
			case 'comparison':
				return this.#comparison(node);
			case 'sameKey':
				return {
					tree: {
						kind: 'sameKey',
						same: node.same,
						left: this.in(node.left, one),
						right: this.in(node.right, one)
					},
					scale: one
				};
			case 'logic':
				return {
					tree: {
						kind: 'logic',
						sign: node.sign,
						left: this.in(node.left, one),
						right: this.in(node.right, one)
					},
					scale: one
				};
			case 'known':
				return { tree: { kind: 'known', of: this.fold(node.of).tree }, scale: one };
			case 'keyOf': {
				const given = node.arguments.map((argument) => this.in(argument, one));
				return { tree: { kind: 'keyOf', keys: node.keys, arguments: given }, scale: one };
			}
			case 'not':
				return { tree: { kind: 'not', of: this.in(node.of, one) }, scale: one };
			case 'function': {
				const given = node.function.parameters.flatMap((parameter, i) => {
					const argument = node.arguments[i];
					return argument ? [this.in(argument, unit(parameter.unit).factor)] : [];
				});
				return {
					tree: { kind: 'function', function: node.function, arguments: given },
					scale: unit(node.function.unit).factor
				};
			}
		}
	}

	/** The scale that needs the fewest factors; null for an exact 0. */
	natural(node: Typed): Fraction | null {
		const cached = this.#natural.get(node);
		if (cached !== undefined) return cached;
		const result = this.#findNatural(node);
		this.#natural.set(node, result);
		return result;
	}

	#findNatural(node: Typed): Fraction | null {
		switch (node.kind) {
			case 'negate':
				return this.natural(node.of);
			case 'arithmetic':
				if (node.sign === '+' || node.sign === '-') return this.#mostCommon([node.left, node.right]);
				return this.#combined(node.sign, this.natural(node.left), this.natural(node.right));
			case 'extreme':
				return this.#mostCommon(node.arguments);
			case 'if':
				return node.type.kind === 'number' ? this.#mostCommon([node.then, node.otherwise]) : one;
			case 'one':
				if (node.name === 'abs') return this.natural(node.of);
				if (node.name === 'square') return power(this.natural(node.of) ?? one, 2);
				return node.name === 'sqrt' ? this.#rootScale(node).outside : one;
			default:
				return this.fold(node).scale;
		}
	}

	#mostCommon(nodes: readonly Typed[]): Fraction | null {
		const scales = nodes.map((node) => this.natural(node)).filter((scale) => scale !== null);
		const count = (scale: Fraction): number => scales.filter((other) => sameFraction(scale, other)).length;
		// Where two are equally common, a scale of 1 needs no factor; else the first.
		const rank = (scale: Fraction): number => count(scale) + (sameFraction(scale, one) ? 0.5 : 0);
		return scales.reduce<Fraction | null>(
			(best, scale) => (best === null || rank(scale) > rank(best) ? scale : best),
			null
		);
	}

	#combined(sign: ArithmeticSign, left: Fraction | null, right: Fraction | null): Fraction | null {
		if (left === null || right === null) return null;
		return sign === '/' ? over(left, right) : times(left, right);
	}

	#zeroOr(node: Typed, scale: Fraction): Fraction | null {
		return this.natural(node) === null ? null : scale;
	}

	#sum(node: Typed & { kind: 'arithmetic' }, scale: Fraction): Scaled {
		const left = this.in(node.left, scale);
		const right = this.in(node.right, scale);
		return { tree: { kind: 'arithmetic', sign: node.sign, left, right }, scale: this.#zeroOr(node, scale) };
	}

	#product({ sign, left: leftNode, right: rightNode }: Typed & { kind: 'arithmetic' }): Scaled {
		const left = this.fold(leftNode);
		const right = this.fold(rightNode);
		const scale = this.#combined(sign, left.scale, right.scale);
		const [a, b] = [left.tree, right.tree];
		// One of a unit only lends its unit: `2 * inch` is 2 in, `x / inch` is x counted in inches.
		if (isUnit(b)) {
			if (a.kind === 'number' && a.unit === null && sign === '*')
				return { tree: { ...a, unit: b.unit }, scale };
			return { tree: a.kind === 'number' ? { ...a, unit: null } : a, scale };
		}
		if (isUnit(a) && sign === '*') {
			return { tree: b.kind === 'number' ? { ...b, unit: b.unit === null ? a.unit : null } : b, scale };
		}
		return { tree: { kind: 'arithmetic', sign, left: a, right: b }, scale };
	}

	#one(node: Typed & { kind: 'one' }, wanted?: Fraction): Scaled {
		switch (node.name) {
			case 'abs': {
				const { tree, scale } = this.fold(node.of, wanted);
				return { tree: { kind: 'one', name: 'abs', of: tree }, scale };
			}
			case 'square': {
				const { tree, scale } = this.fold(node.of);
				return { tree: { kind: 'one', name: 'square', of: tree }, scale: scale && power(scale, 2) };
			}
			case 'sqrt': {
				const { inside, outside } = this.#rootScale(node);
				return { tree: { kind: 'one', name: 'sqrt', of: this.in(node.of, inside) }, scale: outside };
			}
			case 'ceil':
			case 'floor':
			case 'cents':
				return { tree: { kind: 'one', name: node.name, of: this.in(node.of, one) }, scale: one };
		}
	}

	/** The unit under the root: its own when that has an exact root, else reference units. */
	#rootScale({ of }: Typed & { kind: 'one' }): { inside: Fraction; outside: Fraction } {
		const inside = this.natural(of) ?? one;
		const outside = root(inside);
		if (outside) return { inside, outside };
		const dimension = of.type.kind === 'number' ? (of.type.dimension ?? dimensionless) : dimensionless;
		const squares = reference(dimension);
		return { inside: squares, outside: root(squares) ?? one };
	}

	#comparison({ sign, left, right, dimension }: Typed & { kind: 'comparison' }): Scaled {
		const scale = this.#mostCommon([left, right]) ?? one;
		const toReference = over(scale, reference(dimension));
		return {
			tree: {
				kind: 'comparison',
				sign,
				left: this.in(left, scale),
				right: this.in(right, scale),
				toReference
			},
			scale: one
		};
	}

	#scaled({ tree, scale }: Scaled, wanted: Fraction): Folded {
		if (scale === null || sameFraction(scale, wanted)) return tree;
		const by = over(scale, wanted);
		if (tree.kind === 'number') {
			const exact = exactDecimal(tree.text);
			const text = exact ? decimalText(times(exact.magnitude, by)) : null;
			if (text !== null) return { kind: 'number', text, unit: nameOfScale(tree, wanted) };
		}
		return { kind: 'scale', of: tree, by };
	}
}

const isUnit = (tree: Folded): tree is Folded & { kind: 'number'; unit: string } =>
	tree.kind === 'number' && tree.text === '1' && tree.unit !== null;

/** The plain unit that a number was brought to, when it is one that formulas name. */
function nameOfScale({ unit: was }: Folded & { kind: 'number' }, wanted: Fraction): string | null {
	if (was === null) return null;
	const { dimension } = unit(was);
	const names = [...unitNames.values()].filter(
		(text) =>
			sameFraction(unit(text).factor, wanted) &&
			unit(text).dimension.every((exponent, i) => exponent === dimension[i])
	);
	return names[0] ?? null;
}

/** Folds a formula so that its value is in the unit `result` when every name is in the unit `unitOf` gives. */
export function foldUnits(formula: Typed, result: string, unitOf: UnitOf): Folded {
	const numeric = formula.type.kind === 'number';
	return new Folder(unitOf).in(formula, numeric ? unit(result).factor : one);
}

/** Whether a node of this kind stands anywhere in a folded formula. */
export const contains = (node: Folded, kind: Folded['kind']): boolean =>
	node.kind === kind || childrenOf(node).some((child) => contains(child, kind));
