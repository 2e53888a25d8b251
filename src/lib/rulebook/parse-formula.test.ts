import { describe, expect, test } from 'vitest';
import { parseFormula } from './parse-formula.ts';
import type { Tree } from './tree.ts';

function tree(text: string): Tree {
	const parsed = parseFormula(text);
	if (!parsed.ok) throw new Error(parsed.reason);
	return parsed.tree;
}

/** The tree with every pair of parentheses written. */
function full(node: Tree): string {
	switch (node.kind) {
		case 'number':
			return node.text;
		case 'word':
			return `"${node.text}"`;
		case 'name':
			return node.name;
		case 'negate':
			return `(-${full(node.of)})`;
		case 'not':
			return `(!${full(node.of)})`;
		case 'call':
			return `${node.name}(${node.arguments.map(full).join(',')})`;
		default:
			return `(${full(node.left)}${node.sign}${full(node.right)})`;
	}
}

describe('what is read', () => {
	test.each([
		['a + b * 2', '(a+(b*2))'],
		['a - b - c', '((a-b)-c)'],
		['a / b / c', '((a/b)/c)'],
		['a / (b / c)', '(a/(b/c))'],
		// A minus before a name binds tighter than the product; the value is the same either way.
		['-a * b', '((-a)*b)'],
		['2 - -x', '(2-(-x))'],
		['a + b >= c * 2 && !d || e', '((((a+b)>=(c*2))&&(!d))||e)'],
		['a < b == c', '((a<b)==c)'],
		['min(a, max(b, 2))', 'min(a,max(b,2))'],
		['guideLeft.setback + shop.gap', '(guideLeft.setback+shop.gap)'],
		['operation == "tubeMotor"', '(operation=="tubeMotor")'],
		["operation != 'steel-24ga'", '(operation!="steel-24ga")'],
		['x == ""', '(x=="")'],
		['  1.50\n+ .5 ', '(1.50+.5)'],
		['1e3', '1e3']
	])('%s', (text, expected) => {
		expect(full(tree(text))).toBe(expected);
	});

	test('a decimal keeps its text, to the last zero', () => {
		expect(tree('0.10000000000000000001')).toEqual({ kind: 'number', text: '0.10000000000000000001' });
	});
});

describe('what is refused, with what would be right', () => {
	test.each([
		['a ^ 2', /power\(x, p\), square\(x\)/u],
		['a ** 2', /power\(x, p\)/u],
		['a % 2', /0\.05/u],
		['a = b', /write ==/u],
		['a === b', /compare with ==/u],
		['a !== b', /compare with ==/u],
		['a & b', /&&/u],
		['a | b', /\|\|/u],
		['a << 2', /not part of the language/u],
		['a ? b : c', /if\(condition, a, b\)/u],
		['a × b', /multiply with \*/u],
		['a ≥ b', />=/u],
		['[1, 2]', /not part of the language/u],
		['a[0]', /not part of the language/u],
		['{a}', /not part of the language/u],
		['`a`', /not part of the language/u],
		['a; b', /not part of the language/u],
		['a b', /sign is missing between a and b/u],
		['2 (a)', /sign is missing/u],
		['(a) (b)', /sign is missing/u],
		['f(a)(b)', /sign is missing/u],
		['max(a b)', /sign is missing/u],
		['a, b', /comma/u],
		['(a, b)', /comma/u],
		['max(a,)', /Unexpected token \)/u],
		['a,', /comma/u],
		['a.b.c', /scope and its attribute/u],
		['a.b(c)', /scope and its attribute/u],
		['"a".length', /scope and its attribute/u],
		['(a + b).c', /scope and its attribute/u],
		['this', /not one formula/u],
		['_a', /letters and digits/u],
		['$a', /letters and digits/u],
		['+a', /character 1/u],
		['a +', /after \+/u],
		['(a', /\(/u],
		['a)', /\)/u],
		['()', /not one formula/u],
		['"a', /not closed/u],
		['"a\\n"', /not closed/u],
		['', /empty/u],
		['   ', /empty/u],
		['1+'.repeat(500) + '1', /longer than 1000/u],
		['constructor.constructor("return 1")()', /scope and its attribute|sign is missing/u]
	])('%s', (text, reason) => {
		const parsed = parseFormula(text);
		expect(parsed.ok ? 'read' : parsed.reason).toMatch(reason);
	});
});
