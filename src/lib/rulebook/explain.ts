/** The working of one figure: the formula, the same with this opening's numbers, and where they come from. */
import { formatQuantity } from '../quantity/format.ts';
import type { Typed } from './check-formula.ts';
import type { Source } from './definition.ts';
import { childrenOf } from './children.ts';
import type { Folded } from './fold-units.ts';
import { interpretNumber, type ReadValue } from './interpret.ts';
import { printFormula, type Style } from './print-formula.ts';

/** The working of a figure, ready to be shown or sent. */
export interface Explanation {
	/** Name of the figure: a quantity id, `scope.attribute` or `shop.constant`. */
	readonly id: string;
	readonly title: string;
	/** Unit of `value` and of the result of `substituted`. */
	readonly unit: string;
	/** The formula as a person reads it; empty for what is typed or looked up. */
	readonly formula: string;
	/** The same with this opening's figures, and the factors between their units. */
	readonly substituted: string;
	/** In `unit`; a flag is 1 or 0, a key its word; null when it is not known. */
	readonly value: number | string | null;
	/** The value with its unit. */
	readonly text: string;
	/** One sentence: what it is and why. */
	readonly why: string;
	readonly source: Source;
	/** What it was made from. */
	readonly from: readonly ExplainedName[];
	/** Working of the named functions in it. */
	readonly steps: readonly string[];
}

interface ExplainedName {
	readonly name: string;
	readonly title: string;
	readonly text: string;
	/** There is a working for it too. */
	readonly canOpen: boolean;
}

/** The unit's sign for people, with a space before it where it has one: what `formatQuantity` writes after a figure. */
const signOf = (text: string): string => formatQuantity(0, text).replace(/^[\d.]+/u, '');

/**
 * A figure in a unit as it stands in a working: as many decimals as it takes to reckon on with it, at most six digits.
 */
export function figure(value: number, text: string): string {
	if (!Number.isFinite(value)) return 'not known';
	const size = Math.abs(value);
	const rounded = size >= 100_000 ? Math.round(size) : Number(size.toPrecision(6));
	const shown = rounded >= 0.01 ? Number(rounded.toFixed(4)) : rounded;
	const digits = shown.toString().includes('e') ? shown.toFixed(12).replace(/0+$/u, '') : shown.toString();
	return `${value < 0 && shown > 0 ? '−' : ''}${digits}${signOf(text)}`;
}

export const plainStyle: Style = {
	leaf: (node) => {
		if (node.kind === 'pi') return 'π';
		if (node.kind === 'unknown') return 'not known';
		if (node.kind === 'word') return node.text === '' ? 'none' : node.text;
		return node.kind === 'name' || node.kind === 'unit' ? node.name : node.text;
	},
	applies: () => null
};

/** The folded formula with figures in place of names; an `if` shows the branch that applied, and why. */
export function substitute(
	tree: Folded,
	read: ReadValue,
	showValue: (name: string, unit: string) => string
): string {
	const style: Style = {
		leaf: (node) => {
			if (node.kind === 'pi') return 'π';
			if (node.kind === 'unknown') return 'not known';
			if (node.kind === 'word') return node.text === '' ? 'none' : node.text;
			if (node.kind === 'unit') return node.name;
			if (node.kind === 'name') return showValue(node.name, 'unit' in node ? node.unit : '1');
			const own = 'unit' in node ? node.unit : null;
			return own === null ? node.text : figure(Number(node.text), own);
		},
		applies: (node) => {
			if (!isFolded(node)) return null;
			const condition = interpretNumber(node.condition, read);
			if (Number.isNaN(condition)) return null;
			const asked = printFormula(node.condition, style);
			return condition === 0
				? { since: `since not (${asked})`, branch: node.otherwise }
				: { since: `since ${asked}`, branch: node.then };
		}
	};
	return printFormula(tree, style);
}

const isFolded = (node: Typed | Folded): node is Folded => !('type' in node);

/** Lines of the named functions that the value went through, in the order of the formula. */
export function stepsOf(tree: Folded, read: ReadValue): string[] {
	const below = (nodes: readonly Folded[]): string[] => nodes.flatMap((node) => stepsOf(node, read));
	if (tree.kind === 'function') {
		const values = tree.arguments.map((argument) => interpretNumber(argument, read));
		const own = values.some(Number.isNaN) ? [] : tree.function.explain(...values);
		return [...below(tree.arguments), ...own];
	}
	if (tree.kind === 'if') {
		const condition = interpretNumber(tree.condition, read);
		if (Number.isNaN(condition)) return below([tree.condition]);
		return below([tree.condition, condition === 0 ? tree.otherwise : tree.then]);
	}
	return below(childrenOf(tree));
}
