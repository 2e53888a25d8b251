/**
 * A folded formula as the text of a workbook cell. It reads the same in every program that reads .xlsx: only
 * IF IFERROR AND OR NOT MIN MAX ROUND INT ABS SQRT POWER MOD PI ISNUMBER MATCH NA and the four signs are
 * used. Rounding: see `rounding.ts`.
 *
 * Conditions are written as conditions, so a flag's own cell shows TRUE or FALSE; in a flag that a formula reads,
 * TRUE and 1 are the same, and so are FALSE and 0.
 */
import { one, sameFraction, type Fraction } from '../quantity/units.ts';
import type { OneArgument } from './check-formula.ts';
import { exactDecimal, factorTexts, nearestText } from './exact-decimal.ts';
import type { Folded } from './fold-units.ts';
import type { ArithmeticSign, ComparisonSign } from './tree.ts';

/** Where the names stand. */
export interface Cells {
	/** Reference of the cell (or a name, or a lookup that is one call) with the value of a name: `$C7`. */
	reference(name: string): string;
	/** The number's cell may be blank: it is then #N/A and not 0. Without this, none may be. */
	mayBeBlank?(name: string): boolean;
	/** Unit of the figure in that cell; for the rule itself, the unit its result is wanted in. */
	unit(name: string): string;
}

/** How strongly a text holds together: a sum least, then a product, then a single thing. */
type Strength = 0 | 1 | 2;

interface Written {
	readonly text: string;
	readonly strength: Strength;
	/** Calls inside calls. */
	readonly depth: number;
}

/** A program that reads .xlsx takes at most 8,192 characters and 64 calls inside one another. */
const limits = { characters: 8192, depth: 64 };

const signs: Record<ComparisonSign, string> = {
	'<': '<',
	'<=': '<=',
	'>': '>',
	'>=': '>=',
	'==': '=',
	'!=': '<>'
};

const single = (text: string, depth = 0): Written => ({ text, strength: 2, depth });

const inside = (part: Written, least: Strength): string =>
	part.strength < least ? `(${part.text})` : part.text;

function call(name: string, ...given: readonly Written[]): Written {
	const depth = 1 + Math.max(0, ...given.map((g) => g.depth));
	return single(`${name}(${given.map((g) => g.text).join(',')})`, depth);
}

function join(sign: ArithmeticSign, left: Written, right: Written): Written {
	const depth = Math.max(left.depth, right.depth);
	const product = sign === '*' || sign === '/';
	const least: Record<ArithmeticSign, Strength> = { '+': 0, '-': 1, '*': 1, '/': 2 };
	// A signed thing (-A1) gets parentheses wherever it does not come first.
	const text = right.text.startsWith('-') ? `(${right.text})` : inside(right, least[sign]);
	return { text: `${inside(left, product ? 1 : 0)}${sign}${text}`, strength: product ? 1 : 0, depth };
}

/** Times an exact factor: `*12`, `/144`, `/25.4`, `*0.45359237/12`. */
function scaled(of: Written, by: Fraction): Written {
	if (sameFraction(by, one)) return of;
	const { times, over } = factorTexts(by);
	const product = times === null ? of : join('*', of, single(times));
	return over === null ? product : join('/', product, single(over));
}

const round = (of: Written, digits: number): Written => call('ROUND', of, single(String(digits)));

function writeOne(name: OneArgument, of: Written): Written {
	switch (name) {
		case 'ceil': {
			const nine = round(of, 9);
			const whole = call('INT', { ...nine, text: `-${nine.text}` });
			return { text: `-${whole.text}`, strength: 1, depth: whole.depth };
		}
		case 'floor':
			return call('INT', round(of, 9));
		case 'abs':
			return call('ABS', of);
		case 'sqrt':
			return call('SQRT', of);
		case 'square': {
			const factor = single(inside(of, 2), of.depth);
			return join('*', factor, factor);
		}
		case 'cents': {
			const cents = round(scaled(of, { n: 100n, d: 1n }), 6);
			const up = call('INT', join('+', cents, single('0.5')));
			const tie = call('IF', single(`MOD(${cents.text},2)=0.5`, cents.depth + 1), single('1'), single('0'));
			return join('/', join('-', up, tie), single('100'));
		}
	}
}

/** `POWER` where that is known; see `powerOf`. A base or an exponent that is written out needs no question. */
function writePower(base: Written, exponent: Written): Written {
	const isNumber = (part: Written): boolean => /^\d/u.test(part.text) && !Number.isNaN(Number(part.text));
	const power = call('POWER', base, exponent);
	if (isNumber(base) && Number(base.text) > 0) return power;
	const compared = ({ text, depth }: Written, sign: string): Written => single(`${text}${sign}0`, depth);
	const notKnown = single('NA()', 1);
	if (isNumber(exponent) && Number(exponent.text) > 0) {
		return call('IF', compared(base, '<'), notKnown, power);
	}
	const zero = call('AND', compared(base, '='), compared(exponent, '>'));
	return call('IF', compared(base, '>'), power, call('IF', zero, single('0'), notKnown));
}

const isZero = (tree: Folded): boolean => tree.kind === 'number' && Number(tree.text) === 0;

function write(tree: Folded, cells: Cells): Written {
	const at = (node: Folded): Written => write(node, cells);
	switch (tree.kind) {
		case 'number':
			return single(nearestText(exactDecimal(tree.text)?.magnitude ?? { n: 0n, d: 1n }));
		case 'pi':
			return single('PI()', 1);
		case 'unknown':
			return single('NA()', 1);
		case 'word':
			return single(`"${tree.text.replaceAll('"', '""')}"`);
		case 'name':
			return writeName(tree, cells);
		case 'scale':
			return scaled(at(tree.of), tree.by);
		case 'negate': {
			const of = at(tree.of);
			// A sum is wrapped, and so is what begins with a sign already.
			const text = of.strength === 0 || of.text.startsWith('-') ? `(${of.text})` : of.text;
			return { text: `-${text}`, strength: 1, depth: of.depth };
		}
		case 'arithmetic':
			return join(tree.sign, at(tree.left), at(tree.right));
		case 'comparison': {
			const [left, right] = [at(tree.left), at(tree.right)];
			const difference = isZero(tree.right) ? left : join('-', left, right);
			const rounded = round(scaled(difference, tree.toReference), 9);
			return { text: `${rounded.text}${signs[tree.sign]}0`, strength: 0, depth: rounded.depth };
		}
		case 'sameKey': {
			const [left, right] = [at(tree.left), at(tree.right)];
			const depth = Math.max(left.depth, right.depth);
			return { text: `${left.text}${tree.same ? '=' : '<>'}${right.text}`, strength: 0, depth };
		}
		case 'logic':
			return writeLogic(tree, at);
		case 'not':
			return call('NOT', at(tree.of));
		case 'extreme':
			return call(tree.name.toUpperCase(), ...tree.arguments.map(at));
		case 'one':
			return writeOne(tree.name, at(tree.of));
		case 'round':
			return round(round(at(tree.of), 9), tree.digits);
		case 'power':
			return writePower(at(tree.base), at(tree.exponent));
		case 'if':
			return call('IF', at(tree.condition), filled(tree.then, cells), filled(tree.otherwise, cells));
		case 'known':
			return writeKnown(tree.of, cells);
		case 'keyOf':
			return writeKeyOf(tree.keys, tree.arguments.map(at));
		case 'function':
			throw new Error(`${tree.function.name} has no workbook formula`);
	}
}

/** A cell that may be blank would be read as 0; it is made #N/A, which every result from it then is too. */
function writeName({ name, type }: Folded & { kind: 'name' }, cells: Cells): Written {
	const reference = single(cells.reference(name));
	if (type !== 'number' || cells.mayBeBlank?.(name) !== true) return reference;
	return call('IF', call('ISNUMBER', reference), reference, single('NA()', 1));
}

/** A key as a result: a blank cell would come out as 0, so it is made an empty text. */
function filled(tree: Folded, cells: Cells): Written {
	const written = write(tree, cells);
	const key = tree.kind === 'name' && tree.type === 'key';
	return key ? { ...written, text: `${written.text}&""`, strength: 0 } : written;
}

/**
 * What is not known may be an error, which AND and OR always pass on, or an empty text in a flag's cell, which they pass
 * over. The answer is to be the program's: one condition that settles it settles it, whatever is not known beside it.
 */
function writeLogic(tree: Folded & { kind: 'logic' }, at: (node: Folded) => Written): Written {
	const parts = (node: Folded): Folded[] =>
		node.kind === 'logic' && node.sign === tree.sign ? [...parts(node.left), ...parts(node.right)] : [node];
	const conditions = parts(tree);
	const and = tree.sign === '&&';
	const name = and ? 'AND' : 'OR';
	const [settled, open] = [single(and ? 'FALSE' : 'TRUE'), single(and ? 'TRUE' : 'FALSE')];
	const sure = conditions.filter(isSure).map(at);
	const unsure = conditions.filter((node) => !isSure(node));
	const together = (all: readonly Written[]): Written =>
		all[0] !== undefined && all.length === 1 ? all[0] : call(name, ...all);
	if (unsure.length === 0) return call(name, ...sure);
	const answers = unsure.length === 1 ? unsure.map(at) : unsure.map((node) => filledFlag(node, at(node)));
	const asked = answers.length === 1 ? [] : answers.map((answer) => call('IFERROR', answer, open));
	const before = together([...sure, ...asked]);
	const rest = together(answers);
	return and ? call('IF', before, rest, settled) : call('IF', before, settled, rest);
}

/** A condition that is always answered: keys and whether something is known. */
function isSure(node: Folded): boolean {
	switch (node.kind) {
		case 'sameKey':
		case 'known':
			return true;
		case 'not':
			return isSure(node.of);
		case 'logic':
			return isSure(node.left) && isSure(node.right);
		default:
			return false;
	}
}

/** The cell of a flag that is not known is empty text. */
const filledFlag = (node: Folded, written: Written): Written =>
	node.kind === 'name'
		? call('IF', { ...written, text: `${written.text}=""` }, single('NA()', 1), written)
		: written;

function writeKnown(of: Folded, cells: Cells): Written {
	if (of.kind !== 'name') return single('TRUE');
	const reference = single(cells.reference(of.name));
	if (of.type === 'key') return { ...reference, text: `${reference.text}<>""`, strength: 0 };
	return call('ISNUMBER', reference);
}

function writeKeyOf(keys: readonly string[], parts: readonly Written[]): Written {
	const joined = { ...single(parts.map((part) => part.text).join('&"."&')), strength: 0 as const };
	const known = single(`{${keys.map((key) => `"${key.replaceAll('"', '""')}"`).join(',')}}`);
	const place = call('MATCH', joined, known, single('0'));
	return call('IF', call('ISNUMBER', place), joined, single('""'));
}

/** The formula without its `=`; null when it is longer or deeper than a spreadsheet takes. */
export function writeFolded(tree: Folded, cells: Cells): string | null {
	const { text, depth } = filled(tree, cells);
	return text.length > limits.characters || depth > limits.depth ? null : text;
}
