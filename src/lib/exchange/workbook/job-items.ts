/** What the job comes to by item and phase: live sums below the fasteners of Anchors. */
import type { Worksheet } from 'exceljs';
import { totalsOf } from '../../takeoff/totals.ts';
import { none, technicalTables } from '../../shopbook/tables.ts';
import { countFormat, formatOf, look, unitSign } from './look.ts';
import { inputColumn } from './sheet-openings.ts';
import { put } from './sheet-writing.ts';
import {
	countOver,
	openingAt,
	openingsCount,
	resultsOf,
	sumOfResults,
	sumOver,
	type Result,
	type WorkbookJob
} from './workbook-job.ts';

interface Sum {
	readonly formula: string;
	readonly result: number;
}

export interface Item {
	readonly kind: string;
	readonly item: string;
	readonly count: Sum;
	readonly amount: Sum;
	readonly unit: string;
	/** Quantity whose number format the amount has. */
	readonly like: string;
}

const sheetName = 'Anchors';

/** Kinds of items: heading, table of the Shop book, columns with the key, and what is summed. */
const kinds: readonly (readonly [kind: string, table: string, keys: readonly string[], amount: string])[] = [
	['Curtain area', 'curtains', ['curtain'], 'curtainArea'],
	['Guides, length', 'guides', ['guideLeft', 'guideRight'], 'guideLength'],
	['Barrels, length', 'barrels', ['barrel'], 'bracketDistance'],
	['Bracket pairs, weight', 'brackets', ['bracket'], 'bracketWeight'],
	['Drives, weight', 'drives', ['drive'], 'driveWeight'],
	['Hoods, area', 'hoods', ['hood'], 'hoodArea']
];

const phaseAmounts = ['curtainArea', 'shippingWeight', 'labourHours'] as const;

function plus(sums: readonly Sum[]): Sum {
	return {
		formula: sums.map(({ formula }) => formula).join('+'),
		result: sums.reduce((sum, { result }) => sum + result, 0)
	};
}

/** An item once its row is known. */
type ItemInRow = (row: number) => Item;

function byKey(job: WorkbookJob): ItemInRow[] {
	const tables = new Map(technicalTables(job.engine.book).map((table) => [table.id, table]));
	return kinds.flatMap(([kind, table, keyNames, amount]) => {
		const keys = (tables.get(table)?.keys ?? []).filter((key) => key !== none);
		return keys.map((key): ItemInRow => (row) => {
			const summed = (formula: (where: string) => string, result: (at: number) => Result): Sum =>
				plus(
					keyNames.map((name) => ({
						formula: formula(`--(${job.places.column(name, sheetName)}=$B${String(row)})`),
						result: sumOfResults(job, result, (at) => openingAt(job, at).get(name) === key)
					}))
				);
			return {
				kind,
				item: key,
				count: summed(
					(where) => countOver(job, sheetName, where),
					() => 1
				),
				amount: summed((where) => sumOver(job, amount, sheetName, where), resultsOf(job, amount)),
				unit: job.places.unit(amount),
				like: amount
			};
		});
	});
}

/** The count is what is bought: the sum with its waste, rounded up once for the job. */
function toBuy(job: WorkbookJob): ItemInRow[] {
	const waste = job.book.values('consumables', 'waste');
	const keys = job.book.keys('consumables');
	const { consumables } = totalsOf(job.engine, job.takeoff);
	return consumables.map(({ id, unit, value }): ItemInRow => (row) => ({
		kind: 'To buy, waste included',
		item: id,
		count: {
			formula: `ROUNDUP(ROUND(ROUND(D${String(row)},6)*(1+INDEX(${waste},MATCH($B${String(row)},${keys},0))),6),0)`,
			result: value
		},
		amount: { formula: sumOver(job, id, sheetName), result: sumOfResults(job, resultsOf(job, id)) },
		unit,
		like: id
	}));
}

export const otherPhases = 'other phases';

/** Phases as they are typed, and what is left for those typed into the file later. */
function byPhase(job: WorkbookJob): ItemInRow[] {
	const phases = [...new Set(job.openings.map(({ phase }) => phase))];
	const openings = job.places.column(openingsCount, sheetName);
	return phaseAmounts.flatMap((amount) => {
		const kind = `Phase: ${job.engine.rules.definition(amount)?.title.toLowerCase() ?? amount}`;
		const like = { kind, unit: job.places.unit(amount), like: amount };
		const listed = phases.map((phase): ItemInRow => (row) => {
			const where = `--EXACT(${inputColumn('phase', job.places.lastRow)},$B${String(row)})`;
			const inPhase = job.openings.filter((opening) => opening.phase === phase);
			return {
				...like,
				item: phase,
				count: {
					formula: `SUMPRODUCT(${where},${openings})`,
					result: inPhase.reduce((sum, { quantity }) => sum + quantity, 0)
				},
				amount: {
					formula: sumOver(job, amount, sheetName, where),
					result: sumOfResults(job, resultsOf(job, amount), (at) => openingAt(job, at).phase === phase)
				}
			};
		});
		const others: ItemInRow = (row) => {
			const above = (column: string): string =>
				`SUM(${column}${String(row - phases.length)}:${column}${String(row - 1)})`;
			const [count, sum] = [`SUM(${openings})`, sumOver(job, amount, sheetName)];
			return {
				...like,
				item: otherPhases,
				count: { formula: phases.length === 0 ? count : `${count}-${above('E')}`, result: 0 },
				amount: { formula: phases.length === 0 ? sum : `ROUND(${sum}-${above('D')},9)`, result: 0 }
			};
		};
		return [...listed, others];
	});
}

/** @param top row of their heading */
export const jobItems = (job: WorkbookJob, top: number): readonly Item[] =>
	[...byKey(job), ...toBuy(job), ...byPhase(job)].map((item, i) => item(top + 2 + i));

export const lastItemRow = (items: readonly Item[], top: number): number => top + 1 + items.length;

export function writeItems(sheet: Worksheet, job: WorkbookJob, items: readonly Item[], top: number): void {
	put(sheet, top, 1, 'The whole job, by item and phase', look('band'));
	for (let column = 2; column <= 5; column++) put(sheet, top, column, null, look('band'));
	const right = { align: 'right', wrap: true } as const;
	const headings = ['Kind', 'Item or phase', 'Amount in', 'Amount', 'Count or openings'];
	headings.forEach((title, i) =>
		put(sheet, top + 1, i + 1, title, look('heading', i >= 3 ? right : { wrap: true }))
	);
	sheet.getRow(top + 1).height = 28;
	items.forEach(({ kind, item, count, amount, unit, like }, i) => {
		const row = top + 2 + i;
		const definition = job.engine.rules.definition(like);
		put(sheet, row, 1, kind, look('text'));
		put(sheet, row, 2, item, look('text'));
		put(sheet, row, 3, unitSign(unit), look('text'));
		put(sheet, row, 4, amount, look('worked', formatOf(definition ?? { kind: 'number' }, unit)));
		put(sheet, row, 5, count, look('worked', countFormat));
	});
}
