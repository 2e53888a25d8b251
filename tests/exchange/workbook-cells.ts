/** A workbook's cells for the tests: what is written in it, what LibreOffice makes of it, and where the two differ. */
import Excel from 'exceljs';
import { inUnit } from '../../src/lib/quantity/format.ts';
import { readSchedule, scheduleRows } from '../../src/lib/exchange/schedule.ts';
import { columnLetter, type Sheet } from '../../src/lib/exchange/sheet.ts';
import { inputs, type InputId, type Measures, type OpeningRow } from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';
import type { Engine } from '../../src/lib/takeoff/engine.ts';
import type { OpeningTakeoff } from '../../src/lib/takeoff/result.ts';
import { chosenQuantities, unitFor } from '../../src/lib/takeoff/vocabulary.ts';

export type Recalculated = ReadonlyMap<string, readonly (readonly string[])[]>;
export type Figure = number | string | boolean;

/** Openings begin in this row of Openings, Takeoff, Labour and Price; ids stand in the row above. */
export const firstRow = 7;

export async function open(bytes: Uint8Array): Promise<Excel.Workbook> {
	const workbook = new Excel.Workbook();
	await workbook.xlsx.load(Buffer.from(bytes) as unknown as Excel.Buffer);
	return workbook;
}

export const save = async (workbook: Excel.Workbook): Promise<Uint8Array> =>
	new Uint8Array(await workbook.xlsx.writeBuffer());

export interface FormulaCell {
	readonly sheet: string;
	readonly address: string;
	/** From 0. */
	readonly row: number;
	readonly column: number;
	readonly formula: string;
	readonly stored: Figure;
}

/** Every formula cell with the result that is stored beside it. */
export function formulaCells(workbook: Excel.Workbook): FormulaCell[] {
	const cells: FormulaCell[] = [];
	workbook.eachSheet((sheet) => {
		sheet.eachRow((row) => {
			row.eachCell((cell) => {
				const { value } = cell;
				if (typeof value !== 'object' || value === null) return;
				if (!('formula' in value) && !('sharedFormula' in value)) return;
				const { formula } = cell;
				// The copy in `value` leaves out 0 and FALSE.
				const { result } = cell;
				const stored =
					typeof result === 'number' || typeof result === 'string' || typeof result === 'boolean'
						? result
						: '';
				cells.push({
					sheet: sheet.name,
					address: cell.address,
					row: Number(cell.row) - 1,
					column: Number(cell.col) - 1,
					formula,
					stored
				});
			});
		});
	});
	return cells;
}

/** The same to 1e-9 of the figure, or 1e-9. */
export function agree(text: string, expected: Figure): boolean {
	if (typeof expected === 'boolean') return text === (expected ? 'TRUE' : 'FALSE');
	if (typeof expected === 'string') return text === expected;
	return text !== '' && Math.abs(Number(text) - expected) <= 1e-9 * Math.max(1, Math.abs(expected));
}

export const textAt = (sheets: Recalculated, sheet: string, row: number, column: number): string =>
	sheets.get(sheet)?.[row]?.[column] ?? '';

/** Formula cells whose stored result is not what LibreOffice works out. */
export const differences = (cells: readonly FormulaCell[], sheets: Recalculated): string[] =>
	cells.flatMap(({ sheet, address, row, column, formula, stored }) => {
		const text = textAt(sheets, sheet, row, column);
		return agree(text, stored)
			? []
			: [
					`${sheet}!${address} stored ${JSON.stringify(stored)}, recalculated ${JSON.stringify(text)}: ${formula.slice(0, 160)}`
				];
	});

/** Columns of a sheet by the ids under the headings; a second column of one id (its length in feet) is not among them. */
export function idColumns(sheets: Recalculated, sheet: string): Map<string, number> {
	const columns = new Map<string, number>();
	(sheets.get(sheet)?.[firstRow - 2] ?? []).forEach((id, column) => {
		if (id !== '' && !columns.has(id)) columns.set(id, column);
	});
	return columns;
}

/** An opening's figure in the unit of its cells, straight from the engine. */
function engineFigure(
	engine: Engine,
	name: string,
	value: number | string | null,
	measures: Measures
): Figure {
	const definition = engine.rules.definition(name);
	if (!definition) throw new Error(`${name} is not a name of the book`);
	if (value === null) return '';
	if (typeof value === 'string') return value;
	if (definition.kind === 'flag') return value === 1;
	return inUnit(value, name.includes('.') ? definition.unit : unitFor(definition, measures));
}

/** Where Takeoff, Labour and the flags of Checks are not what `read` says of an opening, for every rule, check, input and book value. */
export function engineDifferences(
	engine: Engine,
	openings: readonly OpeningTakeoff[],
	measures: Measures,
	sheets: Recalculated,
	read: (opening: OpeningTakeoff, name: string) => number | string | null = (opening, name) =>
		opening.get(name),
	raised: (opening: OpeningTakeoff, code: string) => boolean = (opening, code) =>
		opening.checks.some((check) => check.code === code)
): { readonly compared: number; readonly found: string[] } {
	const found: string[] = [];
	let compared = 0;
	const codes = new Set(engine.rules.order.filter((id) => engine.rules.rule(id)?.chapter === 9));
	for (const sheet of ['Takeoff', 'Labour', 'Checks'])
		for (const [name, column] of idColumns(sheets, sheet)) {
			if (!engine.rules.definition(name)) continue;
			openings.forEach((opening, at) => {
				// What is typed is shown though the row is not complete.
				if (!opening.computed && inputs.some(({ id }) => id === name)) return;
				const expected = codes.has(name)
					? raised(opening, name)
					: engineFigure(engine, name, read(opening, name), measures);
				const text = textAt(sheets, sheet, firstRow - 1 + at, column);
				compared++;
				if (!agree(text, expected))
					found.push(
						`${sheet} ${opening.openingId ?? opening.mark} ${name}: ${JSON.stringify(text)} for ${JSON.stringify(expected)}`
					);
			});
		}
	return { compared, found };
}

/** Rules that are no formula, whose values stand in the file. */
export const valueRules = ({ rules }: Engine): string[] =>
	rules.order.filter(
		(id) =>
			rules.writeFormula(id, {
				reference: (name) => name,
				unit: (name) => rules.definition(name)?.unit ?? '1'
			}) === null
	);

/**
 * What a file exported with `before` has to show once its inputs are those of `changed`: every rule from the new inputs,
 * with the choices and the values of the old ones.
 */
export function withValuesOf(
	engine: Engine,
	before: readonly OpeningTakeoff[],
	changed: readonly OpeningTakeoff[]
): (opening: OpeningTakeoff, name: string) => number | string | null {
	const { rules } = engine;
	const kept = new Set([...chosenQuantities.map(({ id }) => id), ...valueRules(engine)]);
	const order = rules.order.filter((id) => !kept.has(id));
	const program = rules.program({ rules: order, given: [...kept], capacity: 1 });
	const worked = new Map<OpeningTakeoff, ReadonlyMap<string, number>>();
	const source = (opening: OpeningTakeoff, id: string): number | string | null =>
		(kept.has(id) ? before[changed.indexOf(opening)] : opening)?.get(id) ?? null;
	const work = (opening: OpeningTakeoff): ReadonlyMap<string, number> => {
		for (const id of program.given) {
			const value = source(opening, id);
			const keys = rules.keysOf(id);
			program.column(id)[0] = keys
				? keys.indexOf(String(value ?? ''))
				: typeof value === 'number'
					? value
					: Number.NaN;
		}
		program.run(1);
		return new Map(order.map((id) => [id, program.column(id)[0] ?? Number.NaN]));
	};
	const read = (opening: OpeningTakeoff, id: string): number | string | null => {
		if (kept.has(id) || !rules.rule(id)) return source(opening, id);
		const figures = worked.get(opening) ?? work(opening);
		worked.set(opening, figures);
		const figure = figures.get(id) ?? Number.NaN;
		const keys = rules.keysOf(id);
		if (keys) return keys[figure] ?? null;
		return Number.isFinite(figure) ? figure : null;
	};
	return (opening, name) => {
		const key = rules.keyOfName(name);
		if (key === null) return read(opening, name);
		const word = read(opening, key);
		return rules.bookValue(name, typeof word === 'string' ? word : null);
	};
}

/** Address of an input's cell for the row at a position. */
export const inputAddress = (id: InputId, at: number): string =>
	`${columnLetter(inputs.findIndex((input) => input.id === id))}${String(firstRow + at)}`;

/** Rows of a schedule, read as the app reads it. */
export function rowsOf(sheets: readonly Sheet[], engine: Engine, measures: Measures): OpeningRow[] {
	const preview = readSchedule(sheets, { measures, keysFor: (input) => keysFor(engine.book, input) });
	return scheduleRows(preview).map(({ line, cells }) => ({ id: `line-${String(line)}`, cells }));
}
