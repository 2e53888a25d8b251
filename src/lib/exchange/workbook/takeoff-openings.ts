/** The first columns of Takeoff: which opening, how many, whether everything is there, what is raised, what was chosen. */
import { inputs } from '../../takeoff/inputs.ts';
import type { Severity } from '../../takeoff/result.ts';
import { barrelCriteria, driveCriteria } from '../../takeoff/search.ts';
import { chosenQuantities } from '../../takeoff/vocabulary.ts';
import { none } from '../../shopbook/tables.ts';
import { flagCodes, raisedCount } from './check-flags.ts';
import { countFormat, look } from './look.ts';
import { here } from './places.ts';
import type { PlannedColumn } from './planned-column.ts';
import { headPositions, inputCell, inputColumn, vocabularyOf } from './sheet-openings.ts';
import { complete, computed, live, openingAt, openingsCount, type WorkbookJob } from './workbook-job.ts';

const sheetName = 'Takeoff';

const passes = 'passes';
export const chooseAgain = 'choose again in the app';
const inputsMissing = 'inputs missing';

/** What each choice of the search has to pass. */
const tests: ReadonlyMap<string, readonly string[]> = new Map([
	['barrel', barrelCriteria.map(({ flag }) => flag).filter((flag) => flag !== 'bracketFits')],
	['bracket', ['bracketFits']],
	['drive', driveCriteria.map(({ flag }) => flag)]
]);

/** Column that tests a choice: `barrelPasses`. */
const passName = (chosen: string): string => `${chosen}Passes`;

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
					`AND(${cell(complete)},${chosenQuantities.map(({ id }) => `${cell(id)}<>""`).join(',')})`,
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
					`${countFlags(job, 'stop')}+IF(AND(${chosenQuantities
						.map(({ id }) => `${cell(passName(id))}="${passes}"`)
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

/** The choices of the search as values, each with a live test beside it. */
export function choiceColumns(job: WorkbookJob): PlannedColumn[] {
	const band = 'Chosen by the app';
	return chosenQuantities.flatMap(({ id, title }): PlannedColumn[] => [
		{
			name: id,
			band,
			column: () => ({
				heading: `${title} (value, chosen by the app)`,
				width: 12,
				style: look('value', { align: 'left' }),
				cell: (at) => {
					const key = openingAt(job, at).get(id);
					return typeof key === 'string' ? key : null;
				}
			})
		},
		{
			name: passName(id),
			band,
			column: () => ({
				heading: `${title}: passes still?`,
				width: 13,
				style: look('worked', { align: 'left', wrap: true }),
				cell: live(passFormula(job, id), (at) =>
					openingAt(job, at).computed ? passes : isComplete(job, at) ? chooseAgain : inputsMissing
				)
			})
		}
	]);
}

function passFormula(job: WorkbookJob, chosen: string): string {
	const cell = (name: string): string => job.places.cell(name, sheetName);
	// AND passes over an empty text, so each is compared.
	const all = `AND(${(tests.get(chosen) ?? []).map((flag) => `${cell(flag)}=TRUE`).join(',')})`;
	const good =
		chosen === 'drive' ? `IF(${cell('operation')}="tubeMotor",${all},${cell('drive')}="${none}")` : all;
	return `IF(${cell(complete)},IF(${cell(computed)},IF(${good},"${passes}","${chooseAgain}"),"${chooseAgain}"),"${inputsMissing}")`;
}
