/** A formula as a tree: what was written, before names and dimensions are looked at. */

export type ArithmeticSign = '+' | '-' | '*' | '/';
export type ComparisonSign = '<' | '<=' | '>' | '>=' | '==' | '!=';
export type LogicSign = '&&' | '||';

export type Tree =
	/** A decimal literal, as its exact text. */
	| { readonly kind: 'number'; readonly text: string }
	/** A quoted key. */
	| { readonly kind: 'word'; readonly text: string }
	/** `openingWidth` or `guideLeft.setback`. */
	| { readonly kind: 'name'; readonly name: string }
	| { readonly kind: 'negate'; readonly of: Tree }
	| { readonly kind: 'not'; readonly of: Tree }
	| { readonly kind: 'arithmetic'; readonly sign: ArithmeticSign; readonly left: Tree; readonly right: Tree }
	| { readonly kind: 'comparison'; readonly sign: ComparisonSign; readonly left: Tree; readonly right: Tree }
	| { readonly kind: 'logic'; readonly sign: LogicSign; readonly left: Tree; readonly right: Tree }
	| { readonly kind: 'call'; readonly name: string; readonly arguments: readonly Tree[] };
