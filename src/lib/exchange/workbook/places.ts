/** Where every name of the rule book stands in the workbook, and formulas written once for a whole column. */
import type { Engine } from '../../takeoff/engine.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { chosenQuantities, unitFor } from '../../takeoff/vocabulary.ts';
import type { Cells, RuleBook } from '../../rulebook/rule-book.ts';

export type SheetName =
	'Openings' | 'Takeoff' | 'Anchors' | 'Labour' | 'Price' | 'Checks' | 'Shop book' | 'Material list';

/** Openings stand in the same row of Openings, Takeoff, Labour and Price. The first one in this. */
export const firstRow = 7;

/** Stands for the number of the row in a formula that is written once for a column. */
export const here = '\uE000';

/** A formula, or a part of one, for every row of its column. */
export type RowText = (row: number) => string;

export function rowText(template: string): RowText {
	const parts = template.split(here);
	return (row) => parts.join(String(row));
}

const sheetPrefix = (sheet: SheetName): string => (sheet.includes(' ') ? `'${sheet}'!` : `${sheet}!`);

interface Place {
	readonly sheet: SheetName;
	readonly letter: string;
}

export class Places {
	readonly lastRow: number;
	readonly #engine: Engine;
	readonly #measures: Measures;
	readonly #places = new Map<string, Place>();

	/** @param count rows of openings */
	constructor(engine: Engine, measures: Measures, count: number) {
		this.#engine = engine;
		this.#measures = measures;
		this.lastRow = firstRow + Math.max(count, 1) - 1;
	}

	put(name: string, sheet: SheetName, letter: string): void {
		if (this.#places.has(name)) throw new Error(`${name} stands in the workbook twice`);
		this.#places.set(name, { sheet, letter });
	}

	#place(name: string): Place {
		const place = this.#places.get(name);
		if (!place) throw new Error(`${name} has no place in the workbook`);
		return place;
	}

	/** The cell of a name in the row of the formula, seen from a sheet: `X7`, `Takeoff!X7`. */
	cell(name: string, from: SheetName): string {
		const { sheet, letter } = this.#place(name);
		return `${sheet === from ? '' : sheetPrefix(sheet)}${letter}${here}`;
	}

	/** The cell of a name in one row, whatever becomes of the formula: `Takeoff!$X$7`. */
	fixed(name: string, row: number, from: SheetName): string {
		const { sheet, letter } = this.#place(name);
		return `${sheet === from ? '' : sheetPrefix(sheet)}$${letter}$${String(row)}`;
	}

	/** All openings' cells of a name: `Takeoff!$X$7:$X$46`. */
	column(name: string, from: SheetName): string {
		const { sheet, letter } = this.#place(name);
		const range = `$${letter}$${String(firstRow)}:$${letter}$${String(this.lastRow)}`;
		return `${sheet === from ? '' : sheetPrefix(sheet)}${range}`;
	}

	/** All openings' cells of the columns from one name to another: `Takeoff!$X$7:$AB$46`. */
	block(first: string, last: string, from: SheetName): string {
		const { sheet, letter } = this.#place(first);
		const range = `$${letter}$${String(firstRow)}:$${this.#place(last).letter}$${String(this.lastRow)}`;
		return `${sheet === from ? '' : sheetPrefix(sheet)}${range}`;
	}

	/** Unit of the figure in a name's cells: the job's for quantities, the book's own for what is looked up. */
	unit(name: string, rules: RuleBook = this.#engine.rules): string {
		const definition = this.#engine.rules.definition(name) ?? rules.definition(name);
		if (!definition) throw new Error(`${name} is not a name of this rule book`);
		return name.includes('.') ? definition.unit : unitFor(definition, this.#measures);
	}

	/**
	 * The formula of a rule for the rows of a sheet, without `=`; null for a named function.
	 * A constant of the shop book goes by its name, `shop.friction`.
	 */
	formula(rules: RuleBook, id: string, sheet: SheetName): string | null {
		const bare = bareInExtremes(rules.rule(id)?.formula ?? '');
		const cells: Cells = {
			reference: (name) => (name.startsWith('shop.') ? name : this.cell(name, sheet)),
			unit: (name) => this.unit(name, rules),
			// An empty text beside numbers makes an error, which is what is wanted; MIN and MAX pass over it. A count that
			// was chosen is a cell without a formula, and blank where nothing was.
			mayBeBlank: (name) => bare.has(name) || chosenCounts.has(name)
		};
		return rules.writeFormula(id, cells);
	}
}

const chosenCounts: ReadonlySet<string> = new Set(
	chosenQuantities.filter(({ kind }) => kind === 'count').map(({ id }) => id)
);

/** Names that stand alone as an argument of `min` or `max`. */
function bareInExtremes(formula: string): ReadonlySet<string> {
	const names = new Set<string>();
	for (const start of formula.matchAll(/\b(?:min|max)\s*\(/gu)) {
		let depth = 0;
		let argument = '';
		for (const sign of formula.slice(start.index + start[0].length)) {
			if (depth === 0 && (sign === ',' || sign === ')')) {
				if (/^[A-Za-z][\w.]*$/u.test(argument.trim())) names.add(argument.trim());
				argument = '';
				if (sign === ')') break;
				continue;
			}
			if (sign === '(') depth++;
			if (sign === ')') depth--;
			argument += sign;
		}
	}
	return names;
}
