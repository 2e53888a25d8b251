/** The Price sheet: the build-up of every row in the currency of the price book, live, rounded as the rules round. */
import type { Workbook, Worksheet } from 'exceljs';
import { inUnit } from '../../quantity/format.ts';
import { Money } from '../../quantity/money.ts';
import type { JobPrice, Pricing } from '../../price/price.ts';
import { priceInputs } from '../../price/rules.ts';
import { priceScopes } from '../../price/tables.ts';
import type { RuleDefinition } from '../../rulebook/definition.ts';
import { otherPhases } from './job-items.ts';
import { formatOf, headingOf, look, moneyFormat } from './look.ts';
import { firstRow } from './places.ts';
import { finishColumns, type PlannedColumn } from './planned-column.ts';
import { leadColumns } from './sheet-labour.ts';
import { inputColumn } from './sheet-openings.ts';
import {
	openSheet,
	printedColumns,
	put,
	setColumns,
	widthFor,
	writeColumns,
	writeTitle,
	type Printing
} from './sheet-writing.ts';
import {
	computed,
	live,
	lookUp,
	openingAt,
	openingsCount,
	resultsOf,
	type Result,
	type WorkbookJob
} from './workbook-job.ts';

const sheetName = 'Price';
const boxRounding = 'boxRounding';
/** Column that says whether a row has a price. */
const isPriced = 'isPriced';

/** A job with its price, reckoned once. */
interface Priced {
	readonly job: WorkbookJob;
	readonly pricing: Pricing;
	readonly price: JobPrice;
	readonly hasPrice: (at: number) => boolean;
}

/** The amount of a money line for a row; empty where the row could not be priced. */
const amounts =
	({ price }: Priced, id: string) =>
	(at: number): Result => {
		const amount = price.marks[at]?.amounts?.[id];
		return amount === undefined ? '' : Number(amount);
	};

/** What is bought of curtain and hood sheet: a rule of the price that is no money. */
const quantities =
	({ job, pricing, hasPrice }: Priced, id: string) =>
	(at: number): Result => {
		const opening = openingAt(job, at);
		if (!hasPrice(at)) return '';
		const exact = pricing.rules.evaluateExact(id, (name) => {
			if (name === openingsCount) return new Money(opening.quantity);
			const definition = pricing.rules.definition(name);
			if (name.includes('.') || !definition) return null;
			const value = opening.get(name);
			return typeof value === 'number' ? new Money(inUnit(value, definition.unit).toFixed(9)) : value;
		});
		return exact.toNumber();
	};

/** `Material`, up to its sum; then what direct cost adds; then the build-up on it. */
function bandsOf(rules: readonly string[]): (id: string) => string {
	const material = rules.indexOf('materialCost');
	const direct = rules.indexOf('directCost');
	return (id) => {
		const at = rules.indexOf(id);
		return at <= material ? 'Material' : at <= direct ? 'Direct cost' : 'Build-up';
	};
}

function ruleColumn(priced: Priced, rule: RuleDefinition, band: string): PlannedColumn {
	const { job, pricing } = priced;
	const { id, unit, title } = rule;
	const isMoney = unit === 'money';
	const heading = headingOf(title, unit, pricing.prices.currency);
	return {
		name: id,
		band,
		column: () => {
			const formula = job.places.formula(pricing.rules, id, sheetName);
			const result = isMoney ? amounts(priced, id) : quantities(priced, id);
			const guarded = `IF(${job.places.cell(isPriced, sheetName)},IFERROR(${formula ?? ''},""),"")`;
			return {
				heading,
				width: widthFor(heading, 11),
				style: look(formula === null ? 'value' : 'worked', isMoney ? moneyFormat : formatOf(rule, unit)),
				cell: formula === null ? result : live(guarded, result),
				...(isMoney ? { total: sumOf(priced, id) } : {})
			};
		}
	};
}

/** The sum of all rows, as the rows stand in the file. */
function sumOf({ job, price }: Priced, id: string) {
	return {
		value: { formula: `SUM(${job.places.column(id, sheetName)})`, result: Number(price.totals[id] ?? 0) },
		style: look('total', moneyFormat)
	};
}

/** Chosen, and bought for every wall it is fixed to. */
function pricedColumn({ job, hasPrice }: Priced): PlannedColumn {
	return {
		name: isPriced,
		band: 'Opening',
		column: () => {
			const cell = (name: string): string => job.places.cell(name, sheetName);
			const walls = ['anchorStockLeft', 'anchorStockRight'].map((name) => `${cell(name)}<>""`);
			const head = `OR(N(${cell('hoodSupportAnchors')})=0,${cell('anchorStockHead')}<>"")`;
			return {
				heading: 'Has a price',
				width: 8,
				style: look('worked', { align: 'center' }),
				cell: live(`AND(${[cell(computed), ...walls, head].join(',')})`, hasPrice)
			};
		}
	};
}

function boxColumn(priced: Priced): PlannedColumn {
	const title = priceInputs.find(({ id }) => id === boxRounding)?.title ?? boxRounding;
	const heading = headingOf(
		`${title}: value, shared out by the app`,
		'money',
		priced.pricing.prices.currency
	);
	const amount = amounts(priced, boxRounding);
	return {
		name: boxRounding,
		band: 'Material',
		column: () => ({
			heading,
			width: widthFor(heading, 12),
			style: look('value', moneyFormat),
			cell: (at) => {
				const value = amount(at);
				return value === '' ? null : value;
			},
			total: sumOf(priced, boxRounding)
		})
	};
}

const tableOf: ReadonlyMap<string, string> = new Map(priceScopes.map(({ name, table }) => [name, table]));

/** Prices looked up in the Shop book, by what picks their row. */
function priceColumns({ job, pricing }: Priced): PlannedColumn[] {
	const { rules, prices } = pricing;
	const used = new Set(rules.order.flatMap((id) => rules.namesIn(id)));
	const names = priceScopes.flatMap((scope) => [...used].filter((name) => name.startsWith(`${scope.name}.`)));
	return names.map((name): PlannedColumn => {
		const [scope = '', attribute = ''] = name.split('.');
		const table = tableOf.get(scope) ?? '';
		const key = rules.keyOfName(name) ?? '';
		const definition = rules.definition(name);
		const heading = headingOf(definition?.title ?? name, definition?.unit ?? '1', prices.currency);
		return {
			name,
			band: `From the Shop book: ${scope}`,
			aside: true,
			column: () => ({
				heading,
				width: widthFor(heading, 11),
				style: look('worked', moneyFormat),
				cell: live(
					lookUp(
						job.places.cell(key, sheetName),
						job.book.priceKeys(table),
						job.book.prices(table, attribute),
						false
					),
					resultsOf(job, name, rules)
				)
			})
		};
	});
}

export interface PriceSheet {
	readonly planned: readonly PlannedColumn[];
	write(workbook: Workbook, printing: Printing): Promise<void>;
}

export function planPrice(job: WorkbookJob, pricing: Pricing): PriceSheet {
	const price = pricing.price(job.takeoff);
	const hasPrice = (at: number): boolean => (price.marks[at]?.amounts ?? null) !== null;
	const priced: Priced = { job, pricing, price, hasPrice };
	const { order } = pricing.rules;
	const bandOf = bandsOf(order);
	const rules = order.flatMap((id) => {
		const rule = pricing.rules.rule(id);
		if (!rule) return [];
		const column = ruleColumn(priced, rule, bandOf(id));
		return id === 'materialCost' ? [boxColumn(priced), column] : [column];
	});
	const planned = [...leadColumns(job, sheetName), pricedColumn(priced), ...rules, ...priceColumns(priced)];
	return { planned, write: (workbook, printing) => writePrice(workbook, priced, planned, printing) };
}

async function writePrice(
	workbook: Workbook,
	priced: Priced,
	planned: readonly PlannedColumn[],
	printing: Printing
): Promise<void> {
	const { job, pricing, price } = priced;
	const columns = finishColumns(planned);
	const phasesFrom = job.places.lastRow + 4;
	const text = {
		name: sheetName,
		title: `${job.name}: price`,
		lead: `Price in ${pricing.prices.currency}, for all openings of the row, every amount rounded to the cent once. Rows add up to the job.`
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		...printedColumns(columns),
		headingsFrom: firstRow - 3,
		frozenColumns: 3,
		frozenRows: firstRow - 1,
		lastRow: phasesFrom + 1 + Math.max(price.byPhase.length, price.notIncluded.length),
		outlined: true
	});
	setColumns(sheet, columns);
	writeTitle(sheet, text);
	await writeColumns(sheet, columns, job.openings.length, {
		ids: true,
		legend: [
			['live formula', look('worked')],
			['value: shared out by the app, not live', look('value')]
		]
	});
	writePhases(sheet, priced, phasesFrom);
	writeNotes(sheet, priced, phasesFrom);
	sheet.commit();
}

function writePhases(sheet: Worksheet, { job, price }: Priced, top: number): void {
	['Phase', null, 'Price'].forEach((title, i) =>
		put(sheet, top, i + 1, title, look('band', i === 2 ? { align: 'right' } : {}))
	);
	const write = (row: number, phase: string, formula: string, result: number): void => {
		put(sheet, row, 1, phase, look('text'));
		put(sheet, row, 2, null, look('text'));
		put(sheet, row, 3, { formula, result }, look('worked', moneyFormat));
	};
	const prices = job.places.column('price', sheetName);
	price.byPhase.forEach(({ phase, price: amount }, i) => {
		const row = top + 1 + i;
		const where = `--EXACT(${inputColumn('phase', job.places.lastRow)},$A${String(row)})`;
		write(row, phase, `SUMPRODUCT(${where},${prices})`, Number(amount));
	});
	const last = top + 1 + price.byPhase.length;
	// The heading's cell is a text, which SUM passes over.
	const listed = `SUM(C${String(top)}:C${String(last - 1)})`;
	write(last, otherPhases, `ROUND(SUM(${prices})-${listed},2)`, 0);
}

function writeNotes(sheet: Worksheet, { job, price }: Priced, top: number): void {
	// Beside the phases, where no repeated column cuts the words on the next page.
	const column = 5;
	put(sheet, top, column, 'Not in the price', look('band'));
	price.notIncluded.forEach((text, i) => put(sheet, top + 1 + i, column, text, look('lead')));
	const words = 'Rows without a price, live: ';
	put(
		sheet,
		top + 1 + price.notIncluded.length,
		column,
		{
			formula: `"${words}"&COUNTIF(${job.places.column(isPriced, sheetName)},FALSE)`,
			result: `${words}${String(price.notPriced.length)}`
		},
		look('lead')
	);
}
