/** The first columns of Takeoff: which opening, how many, whether everything is there, what is raised, what was chosen. */
import type { CellValue } from 'exceljs';
import { inputs } from '../../takeoff/inputs.ts';
import { picks } from '../../takeoff/picks.ts';
import type { Severity } from '../../takeoff/result.ts';
import { barrelCriteria, driveCriteria } from '../../takeoff/search.ts';
import { chosenQuantities, inputQuantities } from '../../takeoff/vocabulary.ts';
import { none } from '../../shopbook/tables.ts';
import { flagCodes, raisedCount } from './check-flags.ts';
import { countFormat, look, textFormat } from './look.ts';
import { here, rowText } from './places.ts';
import type { PlannedColumn } from './planned-column.ts';
import { headPositions, inputCell, inputColumn, vocabularyOf } from './sheet-openings.ts';
import { longestKey, type Column } from './sheet-writing.ts';
import {
	complete,
	computed,
	live,
	openingAt,
	openingsCount,
	resultsOf,
	type Result,
	type WorkbookJob
} from './workbook-job.ts';

const sheetName = 'Takeoff';

/** What the search chooses, and everything else waits for. */
const searched = ['barrel', 'bracket', 'drive'] as const;

const passes = 'passes';
export const chooseAgain = 'choose again in the app';
/** Nothing of the shop book passed in the app, and what it was asked for is what it was. */
export const nothingFits = 'nothing fits';
const notNeeded = 'not needed';
const inputsMissing = 'inputs missing';
const asExported = 'as exported';
export const openAgain = 'open again in the app';

/** What a choice has to pass, and without which flag there is nothing to choose. */
interface Test {
	readonly flags: readonly string[];
	readonly when?: string;
	/** Count that has to be more than 0, or it does not matter what was chosen. */
	readonly forAny?: string;
	/** Counts: the least there may be, whatever holds. */
	readonly least?: string;
	/** What stands where there is nothing to choose. */
	readonly nothing?: string;
}

/** The choices of the search, which everything else waits for, and then the picks. */
const tests: ReadonlyMap<string, Test> = new Map<string, Test>([
	['barrel', { flags: barrelCriteria.map(({ flag }) => flag).filter((flag) => flag !== 'bracketFits') }],
	['bracket', { flags: ['bracketFits'] }],
	['drive', { flags: driveCriteria.map(({ flag }) => flag), when: 'motorised', nothing: none }],
	...picks.map(({ id, flag, when, between }): [string, Test] => [
		id,
		{
			flags: [flag],
			...(when === undefined ? {} : { when }),
			...(id === 'anchorStockHead' ? { forAny: 'hoodSupports' } : {}),
			...(between ? { least: between[0] } : {})
		}
	])
]);

/** Column that tests a choice: `barrelPasses`. */
const passName = (chosen: string): string => `${chosen}Passes`;

/** Column that says whether the values of named functions are still those of their figures. */
export const valuesStand = 'valuesStand';

export const stopsNow = 'stopsNow';
export const cautionsNow = 'cautionsNow';

export function openingColumns(job: WorkbookJob): PlannedColumn[] {
	const band = 'Opening';
	const number = inputCell('openingNumber', here);
	const mark = inputCell('mark', here);
	const cell = (name: string): string => job.places.cell(name, sheetName);
	const words = look('worked', { align: 'left' });
	const flag = look('worked', { align: 'center' });
	const count = look('worked', countFormat);
	return [
		{
			name: 'rowMark',
			id: 'mark',
			band,
			column: () => ({
				heading: 'Mark',
				width: 12,
				style: words,
				cell: live(`${mark}&""`, (at) => openingAt(job, at).mark)
			})
		},
		{
			name: 'rowOpening',
			id: 'openingId',
			band,
			column: () => ({
				heading: 'Opening with a row of its own',
				width: 13,
				style: words,
				cell: live(
					`IF(OR(${number}="",${mark}=""),"",${mark}&"."&${number})`,
					(at) => openingAt(job, at).openingId ?? ''
				)
			})
		},
		{ name: openingsCount, band, column: () => countColumn(job) },
		{
			name: complete,
			band,
			column: () => ({
				heading: 'Inputs complete',
				width: 10,
				style: flag,
				cell: live(`AND(${completeTests(job).join(',')})`, (at) => isComplete(job, at))
			})
		},
		{
			name: computed,
			band,
			column: () => ({
				heading: 'Choice made',
				width: 9,
				style: flag,
				cell: live(
					`AND(${cell(complete)},${searched.map((id) => `${cell(id)}<>""`).join(',')})`,
					(at) => openingAt(job, at).computed
				)
			})
		},
		{
			name: stopsNow,
			band,
			column: () => ({
				heading: 'Stops, live',
				width: 8,
				style: count,
				cell: live(
					`${countFlags(job, 'stop')}+IF(AND(${searched
						.map(
							(id) => `OR(${[passes, notNeeded].map((word) => `${cell(passName(id))}="${word}"`).join(',')})`
						)
						.join(',')}),0,1)`,
					(at) => raisedCount(job, at, 'stop') + (openingAt(job, at).computed ? 0 : 1)
				)
			})
		},
		{
			name: cautionsNow,
			band,
			column: () => ({
				heading: 'Cautions, live',
				width: 9,
				style: count,
				cell: live(countFlags(job, 'caution'), (at) => raisedCount(job, at, 'caution'))
			})
		}
	];
}

/** Openings of the mark less those with rows of their own; an opening of its own is one. */
function countColumn(job: WorkbookJob): ReturnType<PlannedColumn['column']> {
	const { lastRow } = job.places;
	const headOf = headPositions(job.openings);
	const number = inputCell('openingNumber', here);
	const typed = inputCell('quantity', here);
	const quantity = `IF(ISNUMBER(${typed}),${typed},1)`;
	const numbers = inputColumn('openingNumber', lastRow);
	const own = `SUMPRODUCT(--EXACT(${inputColumn('mark', lastRow)},${inputCell('mark', here)}),--(${numbers}<>""),--(${numbers}<=${quantity}))`;
	const counted = (at: number): number => openingAt(job, at).quantity;
	const asHead = live(`IF(${number}="",${quantity}-${own},1)`, counted);
	const asRow = live(`IF(${number}="",${quantity},1)`, counted);
	return {
		heading: 'Openings this row stands for',
		width: 11,
		style: look('worked', countFormat),
		cell: (at, row) => (headOf(at) === at ? asHead(at, row) : asRow(at, row)),
		total: {
			value: {
				formula: `SUM(${job.places.column(openingsCount, sheetName)})`,
				result: job.openings.reduce((sum, opening) => sum + opening.quantity, 0)
			},
			style: look('total', countFormat)
		}
	};
}

/** What makes the inputs complete: the required ones are there, and every key is in the Shop book. */
function completeTests(job: WorkbookJob): string[] {
	return inputs.flatMap((input): string[] => {
		if (input.id === 'quantity') return [];
		const cell = inputCell(input.id, here);
		if (input.kind === 'key') {
			const known = `ISNUMBER(MATCH(${cell},${job.book.keys(vocabularyOf(input.id))},0))`;
			return [input.required ? known : `OR(${cell}="",${known})`];
		}
		if (!input.required) return [];
		return input.kind === 'text' ? [`${cell}<>""`] : [`ISNUMBER(${cell})`, `N(${cell})>0`];
	});
}

/** Nothing is missing and no key is unknown. */
const isComplete = (job: WorkbookJob, at: number): boolean =>
	!openingAt(job, at).checks.some(({ code }) => code === 'inputMissing' || code === 'keyUnknown');

/** The flags of one severity stand side by side, in the same row of Checks. */
function countFlags(job: WorkbookJob, severity: Severity): string {
	const codes = flagCodes(severity);
	const [first, last] = [codes[0], codes.at(-1)];
	if (first === undefined || last === undefined) return '0';
	const from = job.places.cell(first, sheetName);
	const to = job.places.cell(last, 'Checks');
	return `COUNTIF(${from}:${to},TRUE)`;
}

/** Every choice as a value, each with a live test beside it. */
export function choiceColumns(job: WorkbookJob): PlannedColumn[] {
	const band = 'Chosen by the app';
	return chosenQuantities.flatMap(({ id, title, kind }): PlannedColumn[] => [
		{
			name: id,
			band,
			column: () => ({
				heading: `${title} (value, chosen by the app)`,
				width: Math.max(12, longestKey(job.engine.rules.keysOf(id) ?? []) * 0.8),
				style: look('value', kind === 'count' ? countFormat : { format: textFormat, align: 'left' }),
				cell: (at) => openingAt(job, at).get(id)
			})
		},
		{
			name: passName(id),
			band,
			column: () => ({
				heading: `${title}: passes still?`,
				width: 13,
				style: look('worked', { align: 'left', wrap: true }),
				cell: passCells(job, id)
			})
		}
	]);
}

/** What the live test of a choice says as exported. */
function verdict(job: WorkbookJob, at: number, chosen: string): string {
	const opening = openingAt(job, at);
	if (!opening.computed) return isComplete(job, at) ? chooseAgain : inputsMissing;
	const { flags, when, forAny, least } = testOf(chosen);
	const count = (id: string): number => {
		const value = opening.get(id);
		return typeof value === 'number' ? value : 0;
	};
	if (when !== undefined && count(when) !== 1) return notNeeded;
	if (forAny !== undefined && count(forAny) === 0) return notNeeded;
	const enough = least === undefined || count(chosen) >= count(least);
	return enough && flags.every((flag) => count(flag) === 1) ? passes : nothingFits;
}

function testOf(chosen: string): Test {
	const test = tests.get(chosen);
	if (!test) throw new Error(`${chosen} has no test`);
	return test;
}

/** The live test of a choice. Where nothing fitted, it also asks whether what it was asked for is what it was. */
function passCells(job: WorkbookJob, chosen: string): Column['cell'] {
	const result = (at: number): string => verdict(job, at, chosen);
	const failed = job.openings.some((_, at) => result(at) === nothingFits);
	const usual = live(passFormula(job, chosen, `"${chooseAgain}"`), result);
	if (!failed) return usual;
	const { rules } = job.engine;
	const [flag = ''] = testOf(chosen).flags;
	const asked = [...inputQuantities, ...chosenQuantities].flatMap(({ id }) =>
		rules.dependsOn(flag, new Set([id]))
			? [{ cell: job.places.cell(id, sheetName), figure: resultsOf(job, id) }]
			: []
	);
	return (at, row) => {
		if (result(at) !== nothingFits) return usual(at, row);
		const same = asked.map(({ cell, figure }) => equals(cell, figure(at)));
		const otherwise = `IF(AND(${same.join(',')}),"${nothingFits}","${chooseAgain}")`;
		return { formula: rowText(passFormula(job, chosen, otherwise))(row), result: nothingFits };
	};
}

/** @param otherwise what is said where the choice does not pass */
function passFormula(job: WorkbookJob, chosen: string, otherwise: string): string {
	const cell = (name: string): string => job.places.cell(name, sheetName);
	const { flags, when, forAny, least, nothing = '' } = testOf(chosen);
	// AND passes over an empty text, so each is compared.
	const conditions = flags.map((flag) => `${cell(flag)}=TRUE`);
	if (least !== undefined) conditions.push(`N(${cell(chosen)})>=N(${cell(least)})`);
	const [only = '', ...others] = conditions;
	const all = others.length === 0 ? only : `AND(${conditions.join(',')})`;
	let word = `IF(${all},"${passes}",${otherwise})`;
	if (forAny !== undefined) word = `IF(N(${cell(forAny)})>0,${word},"${notNeeded}")`;
	if (when !== undefined)
		word = `IF(${cell(when)}=TRUE,${word},IF(${cell(chosen)}="${nothing}","${notNeeded}","${chooseAgain}"))`;
	return whereComputed(job, word, chooseAgain);
}

const whereComputed = ({ places }: WorkbookJob, word: string, otherwise: string): string =>
	`IF(${places.cell(complete, sheetName)},IF(${places.cell(computed, sheetName)},${word},"${otherwise}"),"${inputsMissing}")`;

/**
 * One word for all values of an opening that no formula works out: whether the figures they were worked out from are
 * what they were.
 */
export function valuesColumn(job: WorkbookJob): PlannedColumn {
	return {
		name: valuesStand,
		band: 'Chosen by the app',
		column: () => {
			const figures = figuresOfValues(job).map((name) => ({ name, result: resultsOf(job, name) }));
			const cell = (name: string): string =>
				name.startsWith('shop.') ? name : job.places.cell(name, sheetName);
			return {
				heading: 'Figures under “value, computed by the app”: as exported?',
				width: 15,
				style: look('worked', { align: 'left', wrap: true }),
				cell: (at, row): CellValue => {
					const same = figures.map(({ name, result }) => equals(cell(name), result(at)));
					const word = `IF(AND(${same.join(',')}),"${asExported}","${openAgain}")`;
					const { computed: done } = openingAt(job, at);
					return {
						formula: rowText(whereComputed(job, word, openAgain))(row),
						result: done ? asExported : isComplete(job, at) ? openAgain : inputsMissing
					};
				}
			};
		}
	};
}

/** What the rules that are no formula read. */
function figuresOfValues({ engine: { rules }, places }: WorkbookJob): string[] {
	const values = rules.order.filter((id) => places.formula(rules, id, sheetName) === null);
	return [...new Set(values.flatMap((id) => rules.namesIn(id)))];
}

/** Whether a cell holds a figure, but for what another program rounds otherwise. */
function equals(cell: string, figure: Result): string {
	if (typeof figure === 'boolean') return `${cell}=${figure ? 'TRUE' : 'FALSE'}`;
	if (typeof figure === 'string') return `${cell}="${figure}"`;
	const allowed = 1e-9 * Math.max(1, Math.abs(figure));
	return `IF(ISNUMBER(${cell}),ABS(${cell}-(${String(figure)}))<${String(allowed)},FALSE)`;
}
