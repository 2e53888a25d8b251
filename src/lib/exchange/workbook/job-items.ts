/** What the job comes to by item and phase: live sums below the openings of Takeoff. */
import type { Worksheet } from 'exceljs';
import { none, technicalTables } from '../../shopbook/tables.ts';
import { countFormat, formatOf, look, unitSign } from './look.ts';
import { inputColumn } from './sheet-openings.ts';
import { put } from './sheet-writing.ts';
import {
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

const sheetName = 'Takeoff';

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

/** Openings, or an amount, of the rows where a key column has one word. Text counts as nothing in SUMPRODUCT. */
function sumWhere(
	job: WorkbookJob,
	condition: string,
	where: (at: number) => boolean,
	amount: string | null
): Sum {
	const count = job.places.column(openingsCount, sheetName);
	const one = (): Result => 1;
	return amount === null
		? { formula: `SUMPRODUCT(${condition},${count})`, result: sumOfResults(job, one, where) }
		: {
				formula: sumOver(job, amount, sheetName, condition),
				result: sumOfResults(job, resultsOf(job, amount), where)
			};
}

/** @param top row of their heading */
export function jobItems(job: WorkbookJob, top: number): readonly Item[] {
	const row = top + 2;
	const tables = new Map(technicalTables(job.engine.book).map((table) => [table.id, table]));
	const items: Item[] = [];
	const add = (item: (row: number) => Item): void => {
		items.push(item(row + items.length));
	};
	for (const [kind, table, keys, amount] of kinds)
		for (const key of tables.get(table)?.keys ?? []) {
			if (key === none) continue;
			add((at) => {
				const summed = (what: string | null): Sum =>
					plus(
						keys.map((name) =>
							sumWhere(
								job,
								// Only rows with a choice are in the sums.
								`--(${job.places.column(name, sheetName)}=$B${String(at)}),--${job.places.column('choiceMade', sheetName)}`,
								(position) => {
									const opening = openingAt(job, position);
									return opening.computed && opening.get(name) === key;
								},
								what
							)
						)
					);
				return {
					kind,
					item: key,
					count: summed(null),
					amount: summed(amount),
					unit: job.places.unit(amount),
					like: amount
				};
			});
		}
	for (const consumable of job.engine.book.consumables) {
		const result = sumOfResults(job, resultsOf(job, consumable.key));
		const waste = job.book.values('consumables', 'waste');
		const keys = job.book.keys('consumables');
		add((at) => ({
			kind: 'To buy, waste included',
			item: consumable.key,
			count: {
				formula: `ROUNDUP(ROUND(ROUND(D${String(at)},6)*(1+INDEX(${waste},MATCH($B${String(at)},${keys},0))),6),0)`,
				result: Math.ceil(Number((Number(result.toFixed(6)) * (1 + Number(consumable.waste))).toFixed(6)))
			},
			amount: { formula: sumOver(job, consumable.key, sheetName), result },
			unit: consumable.unit,
			like: consumable.key
		}));
	}
	const phases = [...new Set(job.openings.map(({ phase }) => phase))];
	for (const phase of phases)
		for (const amount of phaseAmounts)
			add((at) => {
				const condition = `--EXACT(${inputColumn('phase', job.places.lastRow)},$B${String(at)})`;
				const inPhase = (position: number): boolean => openingAt(job, position).phase === phase;
				return {
					kind: `Phase: ${job.engine.rules.definition(amount)?.title.toLowerCase() ?? amount}`,
					item: phase,
					count: sumWhere(job, condition, inPhase, null),
					amount: sumWhere(job, condition, inPhase, amount),
					unit: job.places.unit(amount),
					like: amount
				};
			});
	return items;
}

export const lastItemRow = (items: readonly Item[], top: number): number => top + 1 + items.length;

export function writeItems(sheet: Worksheet, job: WorkbookJob, items: readonly Item[], top: number): void {
	put(sheet, top, 1, 'The whole job, by item and phase', look('band'));
	for (let column = 2; column <= 5; column++) put(sheet, top, column, null, look('band'));
	['Kind', 'Item or phase', 'Count or openings', 'Amount', 'Unit'].forEach((title, i) =>
		put(sheet, top + 1, i + 1, title, look('heading', { wrap: true }))
	);
	items.forEach(({ kind, item, count, amount, unit, like }, i) => {
		const row = top + 2 + i;
		const definition = job.engine.rules.definition(like);
		put(sheet, row, 1, kind, look('text', { wrap: true }));
		put(sheet, row, 2, item, look('text', { wrap: true }));
		put(sheet, row, 3, count, look('worked', countFormat));
		put(sheet, row, 4, amount, look('worked', formatOf(definition ?? { kind: 'number' }, unit)));
		put(sheet, row, 5, unitSign(unit), look('text'));
	});
}
