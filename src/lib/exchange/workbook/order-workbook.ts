/**
 * A purchase order as a workbook: its lines with amounts that are live, the total, and what changed since the last
 * revision. Texts go out as texts, whatever they begin with.
 */
import type { CellValue, Workbook } from 'exceljs';
import {
	handText,
	lengthText,
	lineAmount,
	marksText,
	orderFacts,
	orderTitle,
	orderTotal,
	toldChanges,
	viewpoint,
	type OrderPaper
} from '../order-paper.ts';
import type { PurchaseLine } from '../../delivery/ordering/purchase-order.ts';
import { columnLetter } from '../sheet.ts';
import { look, moneyFormat, textFormat, type LookOptions } from './look.ts';
import { literal } from './row-writing.ts';
import {
	fitHeight,
	openSheet,
	put,
	setColumns,
	takeTurns,
	writeTitle,
	type Printing,
	type SheetText
} from './sheet-writing.ts';
import { streamedWorkbook } from './streamed-workbook.ts';

interface Column {
	readonly heading: string;
	readonly width: number;
	readonly figure?: LookOptions;
	readonly value: (line: PurchaseLine, row: number) => CellValue;
}

const count: LookOptions = { format: '#,##0.##########', align: 'right' };
const price: LookOptions = { format: '#,##0.00####', align: 'right' };

/** Half to even, as the program rounds: the cents, less one where a half was taken up to an odd one. */
const centsFormula = (amount: string): string => {
	const inCents = `ROUND(${amount}*100,6)`;
	return `(INT(${inCents}+0.5)-IF(MOD(${inCents},2)=0.5,1,0))/100`;
};

function columnsOf({ order, withPrices, style }: OrderPaper): readonly Column[] {
	const text = (heading: string, width: number, of: (line: PurchaseLine) => string): Column => ({
		heading,
		width,
		value: (line) => literal(of(line))
	});
	const before: Column[] = [
		{ heading: 'Line', width: 6, figure: { format: '0', align: 'right' }, value: ({ number }) => number },
		text('Marks', 18, (line) => marksText(line)),
		text('What it is', 30, ({ title }) => title),
		text('Item', 16, ({ item }) => item),
		text('Size', 16, ({ size }) => size),
		text('Width', 12, ({ width }) => lengthText(width, style)),
		text('Length', 12, ({ length }) => lengthText(length, style)),
		text('Hand', 18, handText),
		text('Finish', 16, ({ finish }) => finish),
		{ heading: 'Quantity', width: 9, figure: count, value: ({ quantity }) => Number(quantity) }
	];
	const unit = text('Unit', 8, (line) => line.unit);
	const quantityAt = columnLetter(before.length - 1);
	const priceAt = columnLetter(before.length + 1);
	const money: Column[] = [
		{
			heading: `Unit price (${order.currency})`,
			width: 11,
			figure: price,
			value: ({ unitPrice }) => (unitPrice === null ? null : Number(unitPrice))
		},
		{
			heading: `Amount (${order.currency})`,
			width: 13,
			figure: moneyFormat,
			value: (line, row) => ({
				formula: `IF(${priceAt}${row}="","",${centsFormula(`${quantityAt}${row}*${priceAt}${row}`)})`,
				result: lineAmount(line)?.toNumber() ?? ''
			})
		}
	];
	return [
		...before,
		unit,
		...(withPrices ? money : []),
		text('Wanted on site', 12, ({ needBy }) => needBy ?? 'not set'),
		text('Note', 32, ({ note }) => note)
	];
}

const factsFrom = 3;

async function writeOrder(workbook: Workbook, paper: OrderPaper, printing: Printing): Promise<void> {
	const { order, withPrices } = paper;
	const columns = columnsOf(paper);
	const facts = orderFacts(paper);
	const headings = factsFrom + facts.length + 1;
	const first = headings + 1;
	const last = headings + Math.max(order.lines.length, 1);
	const text: SheetText = { name: 'Order', title: literal(orderTitle(order)), lead: viewpoint };
	const sheet = openSheet(workbook, text, printing, {
		columns: columns.length,
		width: columns.reduce((sum, { width }) => sum + width, 0),
		onePage: true,
		headingsFrom: headings,
		frozenColumns: 1,
		frozenRows: headings,
		lastRow: last + (withPrices ? 2 : 0)
	});
	setColumns(sheet, columns);
	writeTitle(sheet, text);
	facts.forEach(([name, value], i) => {
		put(sheet, factsFrom + i, 1, name, look('lead'));
		put(sheet, factsFrom + i, 3, literal(value), look('text', { format: textFormat }));
	});
	columns.forEach(({ heading, figure }, i) =>
		put(
			sheet,
			headings,
			i + 1,
			heading,
			look('heading', { wrap: true, ...(figure ? { align: 'right' } : {}) })
		)
	);
	sheet.getRow(headings).height = 30;
	const words = look('text', { format: textFormat, wrap: true });
	for (const [at, line] of order.lines.entries()) {
		const row = first + at;
		columns.forEach(({ figure, value }, i) => {
			const content = value(line, row);
			const isFormula = typeof content === 'object' && content !== null;
			put(sheet, row, i + 1, content, figure ? look(isFormula ? 'worked' : 'typed', figure) : words);
		});
		fitHeight(
			sheet.getRow(row),
			columns.flatMap(({ figure, value, width }) => {
				const content = figure ? null : value(line, row);
				return typeof content === 'string' ? [[content, width] as const] : [];
			})
		);
		await takeTurns(at);
	}
	if (withPrices) writeTotal(sheet, paper, columns, { first, last });
	sheet.commit();
}

function writeTotal(
	sheet: ReturnType<typeof openSheet>,
	{ order }: OrderPaper,
	columns: readonly Column[],
	{ first, last }: { readonly first: number; readonly last: number }
): void {
	const at = (heading: string): number =>
		columns.findIndex((column) => column.heading.startsWith(heading)) + 1;
	const range = (column: number): string => {
		const letter = columnLetter(column - 1);
		return `${letter}${first}:${letter}${last}`;
	};
	const [quantity, unitPrice, amount] = [at('Quantity'), at('Unit price'), at('Amount')];
	const { total, unpriced } = orderTotal(order);
	columns.forEach((_column, i) => put(sheet, last + 1, i + 1, i === 0 ? 'Total' : null, look('total')));
	put(
		sheet,
		last + 1,
		amount,
		{ formula: `SUM(${range(amount)})`, result: total.toNumber() },
		look('total', moneyFormat)
	);
	put(sheet, last + 2, 1, 'Lines without a price, which are not in the total', look('lead'));
	put(
		sheet,
		last + 2,
		amount,
		{ formula: `SUMPRODUCT((${range(quantity)}>0)*(${range(unitPrice)}=""))`, result: unpriced },
		look('worked', { format: '0', align: 'right' })
	);
}

async function writeChanges(workbook: Workbook, paper: OrderPaper, printing: Printing): Promise<void> {
	const { order } = paper;
	const changes = toldChanges(paper);
	const widths = [7, 16, 32, 32, 70];
	const headings = ['Line', 'What', 'Before', 'Now', 'In words'];
	const headingRow = 4;
	const text: SheetText = {
		name: 'Changes',
		title: literal(`${orderTitle(order)}: changes`),
		lead:
			order.revision === 1
				? 'The first revision: there is nothing it changes.'
				: `What is not as it was in revision ${order.revision - 1}.`
	};
	const sheet = openSheet(workbook, text, printing, {
		columns: headings.length,
		width: widths.reduce((sum, width) => sum + width, 0),
		onePage: true,
		headingsFrom: headingRow,
		frozenColumns: 0,
		frozenRows: headingRow,
		lastRow: headingRow + Math.max(changes.length, 1)
	});
	setColumns(
		sheet,
		widths.map((width) => ({ width }))
	);
	writeTitle(sheet, text);
	headings.forEach((heading, i) => put(sheet, headingRow, i + 1, heading, look('heading')));
	const words = look('text', { format: textFormat, wrap: true });
	for (const [at, change] of changes.entries()) {
		const row = headingRow + 1 + at;
		const cells = [
			change.line === null ? 'order' : String(change.line),
			change.attribute,
			change.before,
			change.after,
			change.text
		];
		cells.forEach((cell, i) => put(sheet, row, i + 1, literal(cell), words));
		fitHeight(
			sheet.getRow(row),
			cells.map((cell, i) => [cell, widths[i] ?? 10] as const)
		);
		await takeTurns(at);
	}
	sheet.commit();
}

/** @returns the bytes of an .xlsx with the sheets Order and Changes, without macros or links to anything outside it */
export function writeOrderWorkbook(paper: OrderPaper, madeAt: Date): Promise<Uint8Array> {
	const printing: Printing = { job: paper.jobName, madeAt, metric: paper.style === 'mm' };
	return streamedWorkbook(madeAt, async (workbook) => {
		await writeOrder(workbook, paper, printing);
		await writeChanges(workbook, paper, printing);
	});
}
