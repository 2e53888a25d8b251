/**
 * Formula text to tree. The parsing by precedence is jsep's; a scan of the words before it refuses whatever is not
 * part of the language, so that no formula means one thing to jsep and another to a reader (jsep takes `max(a b)`,
 * `a,` and `a; b`). Nothing is ever evaluated as code.
 *
 * jsep keeps its settings in one place for the whole program. They are set here, once, and nothing else uses jsep.
 */
import jsep from 'jsep';
import type { ArithmeticSign, ComparisonSign, LogicSign, Tree } from './tree.ts';

const arithmeticSigns: readonly string[] = ['+', '-', '*', '/'] satisfies ArithmeticSign[];
const comparisonSigns: readonly string[] = ['<', '<=', '>', '>=', '==', '!='] satisfies ComparisonSign[];
const logicSigns: readonly string[] = ['&&', '||'] satisfies LogicSign[];

const precedence: readonly (readonly [readonly string[], number])[] = [
	[['||'], 1],
	[['&&'], 2],
	[['==', '!='], 3],
	[['<', '<=', '>', '>='], 4],
	[['+', '-'], 5],
	[['*', '/'], 6]
];

jsep.removeAllUnaryOps();
jsep.removeAllBinaryOps();
jsep.removeAllLiterals();
jsep.addUnaryOp('-');
jsep.addUnaryOp('!');
for (const [signs, level] of precedence) for (const sign of signs) jsep.addBinaryOp(sign, level);

/** Longest formula that is read; the shop book's own limit is the same. */
const longestFormula = 1000;

const word =
	/\s+|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?|[A-Za-z][A-Za-z0-9]*|"[^"\\]*"|'[^'\\]*'|<=|>=|==|!=|&&|\|\||[-+*/()<>!,.]/uy;

const advice: readonly (readonly [RegExp, string])[] = [
	[/^(?:\^|\*\*)/u, 'this sign is not part of the language: write power(x, p), square(x) or x * x'],
	[/^[=!]==/u, 'three signs are one too many: compare with == or !='],
	[/^=/u, 'a single = compares nothing: write =='],
	[/^%/u, '% is not part of the language: write 5 % as 0.05'],
	[/^(?:<<|>>)/u, '<< and >> are not part of the language'],
	[/^&/u, 'a single & is not part of the language: write &&'],
	[/^\|/u, 'a single | is not part of the language: write ||'],
	[/^\?/u, '? is not part of the language: write if(condition, a, b)'],
	[/^["']/u, 'a quoted key is not closed (or has a backslash in it)'],
	[/^[×·]/u, 'multiply with *'],
	[/^÷/u, 'divide with /'],
	[/^[−–]/u, 'subtract with the plain - sign'],
	[/^[≥≤≠]/u, 'compare with >= <= !='],
	[/^[_$]/u, 'names are letters and digits only'],
	[/^[[\]{}`;:#@\\~]/u, 'this sign is not part of the language']
];

class FormulaError extends Error {}

function scan(text: string): void {
	const open: ('call' | 'group')[] = [];
	let before = '';
	word.lastIndex = 0;
	while (word.lastIndex < text.length) {
		const at = word.lastIndex;
		const rest = text.slice(at);
		const hint = advice.find(
			([pattern]) => pattern.test(rest) && !/^==(?!=)|^&&|^\|\||^"[^"\\]*"|^'[^'\\]*'/u.test(rest)
		);
		const token = hint ? undefined : word.exec(text)?.[0];
		if (token === undefined) {
			const sign = String.fromCodePoint(rest.codePointAt(0) ?? 0);
			throw new FormulaError(
				`${sign} at character ${at + 1}: ${hint?.[1] ?? 'this sign is not part of the language'}`
			);
		}
		if (/^\s/u.test(token)) continue;
		const afterValue = /[\w)"'.]$/u.test(before) && !before.endsWith('.');
		const afterName = /^[A-Za-z]/u.test(before);
		if (afterValue && (/^[\w"']/u.test(token) || /^\.\d/u.test(token) || (token === '(' && !afterName))) {
			throw new FormulaError(`a sign is missing between ${before} and ${token} at character ${at + 1}`);
		}
		if (token === '(') open.push(afterName ? 'call' : 'group');
		if (token === ')') open.pop();
		if (token === ',' && open.at(-1) !== 'call') {
			throw new FormulaError(
				`the comma at character ${at + 1} does not stand between arguments of a function`
			);
		}
		before = token;
	}
}

const isNode = (value: unknown): value is jsep.Expression =>
	typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string';

function node(value: unknown): jsep.Expression {
	if (!isNode(value)) throw new FormulaError('something is missing');
	return value;
}

function nameOf(value: unknown): string {
	const { type, name } = node(value);
	if (type !== 'Identifier' || typeof name !== 'string') {
		throw new FormulaError('a dot stands only between a scope and its attribute, as in guideLeft.setback');
	}
	return name;
}

const isArithmetic = (sign: string): sign is ArithmeticSign => arithmeticSigns.includes(sign);
const isComparison = (sign: string): sign is ComparisonSign => comparisonSigns.includes(sign);
const isLogic = (sign: string): sign is LogicSign => logicSigns.includes(sign);

function convert(expression: jsep.Expression): Tree {
	switch (expression.type) {
		case 'Literal': {
			const { raw, value } = expression;
			if (typeof value === 'string') return { kind: 'word', text: value };
			if (typeof raw === 'string') return { kind: 'number', text: raw };
			break;
		}
		case 'Identifier':
			return { kind: 'name', name: nameOf(expression) };
		case 'MemberExpression':
			return { kind: 'name', name: `${nameOf(expression.object)}.${nameOf(expression.property)}` };
		case 'UnaryExpression': {
			const of = convert(node(expression.argument));
			return expression.operator === '!' ? { kind: 'not', of } : { kind: 'negate', of };
		}
		case 'BinaryExpression': {
			const sign = expression.operator;
			if (typeof sign !== 'string') break;
			const left = convert(node(expression.left));
			const right = convert(node(expression.right));
			if (isArithmetic(sign)) return { kind: 'arithmetic', sign, left, right };
			if (isComparison(sign)) return { kind: 'comparison', sign, left, right };
			if (isLogic(sign)) return { kind: 'logic', sign, left, right };
			break;
		}
		case 'CallExpression': {
			const given = expression.arguments;
			const name = nameOf(expression.callee);
			return {
				kind: 'call',
				name,
				arguments: Array.isArray(given) ? given.map((a) => convert(node(a))) : []
			};
		}
	}
	throw new FormulaError('it is not one formula of the language');
}

/**
 * Reads a formula (at most 1,000 characters): `+ - * /`, comparisons, `&& || !`, calls, names, `scope.attribute`,
 * decimal literals and quoted keys. The answer is the tree, or the reason why it can't be read.
 */
export function parseFormula(text: string): { ok: true; tree: Tree } | { ok: false; reason: string } {
	if (text.trim() === '') return { ok: false, reason: 'the formula is empty' };
	if (text.length > longestFormula) {
		return { ok: false, reason: `the formula is longer than ${longestFormula} characters` };
	}
	try {
		scan(text);
		return { ok: true, tree: convert(jsep(text)) };
	} catch (error) {
		if (!(error instanceof Error)) throw error;
		// jsep counts characters from 0.
		const reason = error.message.replace(/(?<=character )\d+$/u, (n) =>
			error instanceof FormulaError ? n : String(Number(n) + 1)
		);
		return { ok: false, reason };
	}
}
