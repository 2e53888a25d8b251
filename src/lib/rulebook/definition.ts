/** What a rule book is written in. The data of `takeoff/`, `price/` and `shopbook/` is made of these. */

/** Where a rule or a figure comes from, said honestly. */
export interface Source {
	readonly basis: 'published' | 'commonPractice' | 'fromMemory' | 'shop' | 'invented' | 'definition';
	/** Title, edition and clause of a publication; or one sentence. */
	readonly text: string;
}

/** One quantity the book speaks of: something typed, looked up, chosen or computed. */
export interface QuantityDefinition {
	/** Identifier used in formulas, columns, files and JSON. */
	readonly id: string;
	/** Heading a person reads. */
	readonly title: string;
	/** `number` any figure, `count` a whole number, `flag` yes or no (1 or 0), `key` one word of a vocabulary. */
	readonly kind: 'number' | 'count' | 'flag' | 'key';
	/** Unit it is shown in (`quantity/units`); `1` for counts, flags and keys. */
	readonly unit: string;
	/** Unit for metric jobs where it differs. */
	readonly metricUnit?: string;
	/** For keys: the vocabulary (see {@link Vocabulary}). */
	readonly vocabulary?: string;
	/** Chapter of the trade: 1 inputs … 8 price. */
	readonly chapter: number;
	/** One plain sentence: what it is and why. */
	readonly sentence: string;
}

/** A quantity with the formula that gives it. */
export interface RuleDefinition extends QuantityDefinition {
	/**
	 * Plain arithmetic: `+ - * / ( )`, comparisons `< <= > >= == !=`, `and or not` written as `&& || !`, names,
	 * `scope.attribute`, numbers, quoted keys, and the functions of the language.
	 */
	readonly formula: string;
	readonly source: Source;
}

/** The words a key may be. */
export interface Vocabulary {
	readonly id: string;
	readonly keys: readonly string[];
}

/** A table of the shop book as the rules see it: rows by key, attributes with units. */
export interface TableDefinition {
	/** Also the name of the vocabulary of its keys. */
	readonly id: string;
	readonly title: string;
	readonly keys: readonly string[];
	/** Where its figures come from, where they are not the shop's own. */
	readonly source?: Source;
	readonly attributes: readonly TableAttribute[];
}

export interface TableAttribute {
	readonly id: string;
	readonly title: string;
	readonly kind: 'number' | 'key';
	readonly unit: string;
	readonly vocabulary?: string;
	/** One value a row: a decimal as text (exact) in `unit`, or a key. */
	readonly values: readonly string[];
}

/** A row of a table chosen by a key quantity: `guideLeft.setback` is the `setback` of the row `guideLeft` names. */
export interface ScopeDefinition {
	readonly name: string;
	readonly table: string;
	/** Id of the key quantity that picks the row. */
	readonly key: string;
}

/** One value of the shop book that is not in a table: `shop.friction`. */
export interface ConstantDefinition {
	readonly id: string;
	readonly title: string;
	readonly unit: string;
	/** Decimal as text, exact, in `unit`. */
	readonly value: string;
	readonly source: Source;
}

/** What arithmetic cannot say: a pure function with units, callable from a formula. */
export interface NamedFunction {
	readonly name: string;
	/** Units of the arguments, in order; arguments are handed over in these units. */
	readonly parameters: readonly { readonly name: string; readonly unit: string }[];
	/** Unit of the result. */
	readonly unit: string;
	readonly compute: (...values: number[]) => number;
	/** The steps of the working, for the same arguments. */
	readonly explain: (...values: number[]) => readonly string[];
	readonly sentence: string;
	readonly source: Source;
}
