/** Formulas as people read them: × ÷ ≥ ≠, spaces, and no more parentheses than needed. */
import type { OneArgument, Typed } from './check-formula.ts';
import type { Folded } from './fold-units.ts';
import { factorTexts } from './exact-decimal.ts';
import type { Fraction } from '../quantity/units.ts';
import type { ArithmeticSign, ComparisonSign } from './tree.ts';

type Node = Typed | Folded;
type Leaf = Node & { kind: 'number' | 'pi' | 'unknown' | 'unit' | 'word' | 'name' };

export interface Style {
	/** Text of a number, a name, a word. */
	leaf(node: Leaf): string;
	/** What to say of an `if`: the part that applies, and that it does; null to write the whole. */
	applies(node: Node & { kind: 'if' }): { readonly since: string; readonly branch: Node } | null;
}

/** or, and, comparison, sum, product, single thing. */
type Strength = 0 | 1 | 2 | 3 | 4 | 5;

interface Printed {
	readonly text: string;
	readonly strength: Strength;
}

const comparisons: Record<ComparisonSign, string> = {
	'<': '<',
	'<=': '≤',
	'>': '>',
	'>=': '≥',
	'==': '=',
	'!=': '≠'
};

/** `after`: how strongly what follows the sign must hold together. */
const arithmetic: Record<ArithmeticSign, { sign: string; strength: Strength; after: Strength }> = {
	'+': { sign: '+', strength: 3, after: 3 },
	'-': { sign: '−', strength: 3, after: 4 },
	'*': { sign: '×', strength: 4, after: 4 },
	'/': { sign: '÷', strength: 4, after: 5 }
};

const single = (text: string): Printed => ({ text, strength: 5 });

function scaleText(of: string, by: Fraction): string {
	const { times, over } = factorTexts(by);
	return `${of}${times === null ? '' : ` × ${times}`}${over === null ? '' : ` ÷ ${over}`}`;
}

function oneArgument(name: OneArgument, of: Printed): Printed {
	if (name === 'abs') return single(`|${of.text}|`);
	if (name === 'sqrt') return single(`√(${of.text})`);
	if (name === 'square') return single(/^[\w.]+$/u.test(of.text) ? `${of.text}²` : `(${of.text})²`);
	return single(`${name}(${of.text})`);
}

/** `x^1.5`, `(a ÷ b)^1.5`, `x^(p − 1)`. */
function powerText(base: Printed, exponent: Printed): string {
	const wrapped = ({ text }: Printed): string => (/^[\w.]+$/u.test(text) ? text : `(${text})`);
	return `${wrapped(base)}^${wrapped(exponent)}`;
}

function print(node: Node, style: Style): Printed {
	const at = (part: Node): Printed => print(part, style);
	const least = (part: Node, strength: Strength): string => {
		const printed = at(part);
		return printed.strength < strength ? `(${printed.text})` : printed.text;
	};
	/** Right of a sign: a signed thing gets parentheses too. */
	const right = (part: Node, strength: Strength): string => {
		const text = least(part, strength);
		return text.startsWith('−') ? `(${text})` : text;
	};
	switch (node.kind) {
		case 'number':
		case 'pi':
		case 'unknown':
		case 'unit':
		case 'word':
		case 'name':
			return single(style.leaf(node));
		case 'scale':
			return { text: scaleText(least(node.of, 4), node.by), strength: 4 };
		case 'negate':
			return { text: `−${right(node.of, 4)}`, strength: 4 };
		case 'arithmetic': {
			const { sign, strength, after } = arithmetic[node.sign];
			return { text: `${least(node.left, strength)} ${sign} ${right(node.right, after)}`, strength };
		}
		case 'comparison':
			return {
				text: `${least(node.left, 3)} ${comparisons[node.sign]} ${least(node.right, 3)}`,
				strength: 2
			};
		case 'sameKey':
			return { text: `${least(node.left, 3)} ${node.same ? '=' : '≠'} ${least(node.right, 3)}`, strength: 2 };
		case 'logic':
			return node.sign === '&&'
				? { text: `${least(node.left, 1)} and ${least(node.right, 1)}`, strength: 1 }
				: { text: `${least(node.left, 0)} or ${least(node.right, 0)}`, strength: 0 };
		case 'not':
			return single(`not (${at(node.of).text})`);
		case 'extreme':
			return single(`${node.name}(${node.arguments.map((part) => at(part).text).join(', ')})`);
		case 'one':
			return oneArgument(node.name, at(node.of));
		case 'round':
			return single(`round(${at(node.of).text}${node.digits === 0 ? '' : `, ${node.digits}`})`);
		case 'power':
			return single(powerText(at(node.base), at(node.exponent)));
		case 'known':
			return { text: `${node.of.kind === 'name' ? node.of.name : at(node.of).text} is known`, strength: 2 };
		case 'keyOf':
			return single(`key of (${node.arguments.map((part) => at(part).text).join(', ')})`);
		case 'if': {
			const applied = style.applies(node);
			if (applied) return { text: `${applied.since}: ${at(applied.branch).text}`, strength: 0 };
			const parts = [node.condition, node.then, node.otherwise].map((part) => at(part).text);
			return single(`if(${parts.join(', ')})`);
		}
		case 'function':
			return single(`${node.function.name}(${node.arguments.map((part) => at(part).text).join(', ')})`);
	}
}

export const printFormula = (node: Node, style: Style): string => print(node, style).text;
