/** The job as the sheets see it: its openings in order, and the results that stand in the file beside the formulas. */
import type { CellValue } from 'exceljs';
import { unit } from '../../quantity/units.ts';
import type { RuleBook } from '../../rulebook/rule-book.ts';
import type { Pricing } from '../../price/price.ts';
import type { Engine, JobTakeoff } from '../../takeoff/engine.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { chosenQuantities } from '../../takeoff/vocabulary.ts';
import { rowText, type Places, type SheetName } from './places.ts';
import type { ShopBookPlan } from './sheet-shop-book.ts';

/** What a formula cell shows before anything recalculates it; an empty text for what is not known. */
export type Result = number | string | boolean;

export interface WorkbookJob {
	readonly name: string;
	readonly engine: Engine;
	readonly measures: Measures;
	readonly openings: readonly OpeningTakeoff[];
	readonly takeoff: JobTakeoff;
	/** Null: nothing of the price goes into the file. */
	readonly pricing: Pricing | null;
	readonly places: Places;
	readonly book: ShopBookPlan;
}

/** An opening of the job by its position. */
export function openingAt(job: WorkbookJob, at: number): OpeningTakeoff {
	const opening = job.openings[at];
	if (!opening) throw new Error(`the job has no row ${String(at + 1)}`);
	return opening;
}

/** Gives the result of a name for the opening at a position, in the unit of its cells. */
export function resultsOf(
	job: WorkbookJob,
	name: string,
	rules: RuleBook = job.engine.rules
): (at: number) => Result {
	const definition = rules.definition(name);
	if (!definition) throw new Error(`${name} is not a name of this rule book`);
	const { scale } = unit(job.places.unit(name, rules));
	const shown = (value: number | string | null): Result => {
		if (value === null) return '';
		if (typeof value === 'string') return value;
		if (definition.kind === 'flag') return value === 1;
		return value / scale;
	};
	const keyName = rules.keyOfName(name);
	if (keyName === null) return (at) => shown(openingAt(job, at).get(name));
	const byKey = new Map<string, Result>();
	return (at) => {
		const key = openingAt(job, at).get(keyName);
		if (typeof key !== 'string') return '';
		const known = byKey.get(key);
		if (known !== undefined) return known;
		const result = shown(rules.bookValue(name, key));
		byKey.set(key, result);
		return result;
	};
}

/** Formula cells for every row of a column. */
export interface Live {
	(at: number, row: number): CellValue;
	/** What all of them say, with the row left open. */
	readonly template: string;
	readonly result: (at: number) => Result;
}

/** A formula cell for every row of a column. */
export function live(template: string, result: (at: number) => Result): Live {
	const text = rowText(template);
	const cell = (at: number, row: number): CellValue => ({ formula: text(row), result: result(at) });
	return Object.assign(cell, { template, result });
}

/**
 * A rule's formula, empty (or `unknown`) where the inputs are not complete, where nothing was chosen for something that
 * depends on what the app chose, and where a figure in it is not known.
 *
 * @param names what the cell is about: the rule, and what else has to be there
 */
export function guarded(
	job: WorkbookJob,
	formula: string,
	names: readonly string[],
	sheet: SheetName,
	unknown = '""'
): string {
	const { rules } = job.engine;
	const ready = names.some((name) => rules.dependsOn(name, chosenNames)) ? computed : complete;
	return `IF(${job.places.cell(ready, sheet)},IFERROR(${formula},${unknown}),${unknown})`;
}

const chosenNames: ReadonlySet<string> = new Set(chosenQuantities.map(({ id }) => id));

/** Names of columns of Takeoff that are no quantities. */
export const openingsCount = 'openings';
export const complete = 'inputsComplete';
export const computed = 'choiceMade';

/** The value of a key's row in a table of the Shop book sheet; empty for a key that is blank or not in it. */
export function lookUp(keyCell: string, keys: string, values: string, isKey: boolean): string {
	return `IFERROR(INDEX(${values},MATCH(${keyCell},${keys},0))${isKey ? '&""' : ''},"")`;
}

/**
 * Sum over the openings of a column, each as often as it is there. Rows without a choice are left out, as they are in
 * the totals of the app; what is not known counts as nothing.
 *
 * @param where a condition on the rows, as an array of 1 and 0
 */
export function sumOver(job: WorkbookJob, name: string, sheet: SheetName, where?: string): string {
	return `SUMPRODUCT(${[...rowsThatCount(job, sheet, where), job.places.column(name, sheet)].join(',')})`;
}

/** Openings of the rows that count. */
export const countOver = (job: WorkbookJob, sheet: SheetName, where?: string): string =>
	`SUMPRODUCT(${rowsThatCount(job, sheet, where).join(',')})`;

const rowsThatCount = ({ places }: WorkbookJob, sheet: SheetName, where?: string): string[] => [
	...(where === undefined ? [] : [where]),
	`--${places.column(computed, sheet)}`,
	places.column(openingsCount, sheet)
];

/** The same over the results. */
export function sumOfResults(
	job: WorkbookJob,
	result: (at: number) => Result,
	where: (at: number) => boolean = () => true
): number {
	return job.openings.reduce((sum, opening, at) => {
		const value = result(at);
		return opening.computed && typeof value === 'number' && where(at) ? sum + value * opening.quantity : sum;
	}, 0);
}
