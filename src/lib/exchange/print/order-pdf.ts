/** A purchase order on paper: its lines, then what changed since the revision before. */
import type { Content, CustomTableLayout, TableCell } from 'pdfmake/interfaces.js';
import { printed } from '../../drawing/svg-text.ts';
import type { PurchaseLine } from '../../delivery/ordering/purchase-order.ts';
import { Money } from '../../quantity/money.ts';
import {
	handText,
	lengthText,
	lineAmount,
	marksText,
	orderFacts,
	orderTitle,
	orderTotal,
	priceText,
	toldChanges,
	viewpoint,
	type OrderPaper
} from '../order-paper.ts';
import { paperSizes, type PaperId } from '../paper-sizes.ts';
import { paperText } from './helvetica.ts';
import { makePdf, margin, momentText } from './make-pdf.ts';
import { rowRules } from './upright-page.ts';

const quiet = printed.plain('inkQuiet');

const rules: CustomTableLayout = {
	...rowRules,
	paddingLeft: () => 3,
	paddingRight: () => 3,
	paddingTop: () => 2,
	paddingBottom: () => 1.5
};

interface Column {
	readonly heading: string;
	readonly width: number | '*' | 'auto';
	readonly figure?: true;
	readonly text: (line: PurchaseLine) => string;
}

function columnsOf({ order, style, withPrices }: OrderPaper): readonly Column[] {
	const money: Column[] = [
		{
			heading: `Unit price, ${order.currency}`,
			width: 46,
			figure: true,
			text: ({ unitPrice }) => (unitPrice === null ? 'to be told' : priceText(unitPrice))
		},
		{
			heading: `Amount, ${order.currency}`,
			width: 54,
			figure: true,
			text: (line) => lineAmount(line)?.toFixed(2) ?? ''
		}
	];
	return [
		{ heading: 'Line', width: 22, figure: true, text: ({ number }) => String(number) },
		{ heading: 'Marks', width: 64, text: (line) => marksText(line) },
		{
			heading: 'What it is',
			width: '*',
			text: ({ title, item, note }) => [`${title} (${item})`, note].filter((text) => text !== '').join('\n')
		},
		{ heading: 'Size', width: 58, text: ({ size }) => size },
		{ heading: 'Width', width: 52, text: ({ width }) => lengthText(width, style) },
		{ heading: 'Length', width: 52, text: ({ length }) => lengthText(length, style) },
		{ heading: 'Hand', width: 52, text: handText },
		{ heading: 'Finish', width: 60, text: ({ finish }) => finish },
		{ heading: 'Quantity', width: 36, figure: true, text: ({ quantity }) => new Money(quantity).toFixed() },
		{ heading: 'Unit', width: 26, text: ({ unit }) => unit },
		...(withPrices ? money : []),
		{ heading: 'Wanted on site', width: 48, text: ({ needBy }) => needBy ?? 'not set' }
	];
}

const heading = (text: string, figure = false): TableCell => ({
	text: paperText(text),
	bold: true,
	fontSize: 6.5,
	alignment: figure ? 'right' : 'left',
	color: quiet
});

function linesTable(paper: OrderPaper): Content {
	const columns = columnsOf(paper);
	return {
		margin: [0, 0, 0, 6],
		table: {
			headerRows: 1,
			keepWithHeaderRows: 1,
			dontBreakRows: true,
			widths: columns.map(({ width }) => width),
			body: [
				columns.map(({ heading: text, figure }) => heading(text, figure)),
				...paper.order.lines.map((line) =>
					columns.map(({ text, figure }): TableCell => ({
						text: paperText(text(line)),
						...(figure ? { alignment: 'right' as const } : {})
					}))
				)
			]
		},
		layout: rules
	};
}

function totalText({ order }: OrderPaper): Content {
	const { total, unpriced } = orderTotal(order);
	const lines = `${unpriced} ${unpriced === 1 ? 'line has' : 'lines have'} no price and ${unpriced === 1 ? 'is' : 'are'} not in it.`;
	return {
		margin: [0, 0, 0, 8],
		alignment: 'right',
		text: [
			{ text: `Total ${order.currency} ${total.toFixed(2)}`, bold: true, fontSize: 9 },
			...(unpriced === 0 ? [] : [{ text: `\n${lines}` }])
		]
	};
}

function changesTable(paper: OrderPaper): Content[] {
	const { order } = paper;
	if (order.revision === 1) return [];
	const changes = toldChanges(paper);
	const title = { text: `Changes since revision ${order.revision - 1}`, bold: true, fontSize: 10 };
	if (changes.length === 0)
		return [{ ...title, margin: [0, 4, 0, 3] }, { text: 'Nothing that this paper shows changed.' }];
	return [
		{ ...title, margin: [0, 4, 0, 3] },
		{
			table: {
				headerRows: 1,
				dontBreakRows: true,
				widths: [28, '*', 130, 130],
				body: [
					[heading('Line', true), heading('What changed'), heading('Before'), heading('Now')],
					...changes.map(({ line, text, before, after }): TableCell[] => [
						{ text: line === null ? 'order' : String(line), alignment: 'right' },
						{ text: paperText(text) },
						{ text: paperText(before) },
						{ text: paperText(after) }
					])
				]
			},
			layout: rules
		}
	];
}

/** The order as one file, with everything to build from and what each line is wanted by. */
export async function orderPdf(paper: OrderPaper, paperId: PaperId, printedAt: Date): Promise<Uint8Array> {
	const size = paperSizes[paperId];
	const title = paperText(orderTitle(paper.order));
	const facts = orderFacts(paper);
	return makePdf(
		{
			pageSize: { width: size.width, height: size.height },
			pageMargins: [margin, margin + 26, margin, margin + 14],
			header: {
				margin: [margin, margin - 6, margin, 0],
				columns: [
					{ width: '*', text: title, bold: true, fontSize: 12 },
					{ width: 'auto', text: paperText(paper.order.supplierName), fontSize: 9 }
				],
				columnGap: 12
			},
			footer: (page: number, pages: number) => ({
				margin: [margin, 6, margin, 0],
				columns: [
					{ width: '*', text: `${title}. ${viewpoint} Printed ${momentText(printedAt)}.` },
					{ width: 'auto', text: `page ${String(page)} of ${String(pages)}` }
				]
			}),
			content: [
				{
					margin: [0, 0, 0, 6],
					table: {
						widths: [60, '*', 60, '*', 60, '*'],
						body: [facts.slice(0, 3), facts.slice(3)].map((row) =>
							row.flatMap(([name, value]): TableCell[] => [heading(name), { text: paperText(value) }])
						)
					},
					layout: 'noBorders'
				},
				{ text: viewpoint, bold: true, margin: [0, 0, 0, 6] },
				paper.order.lines.length === 0 ? 'There is nothing on this order.' : linesTable(paper),
				...(paper.withPrices ? [totalText(paper)] : []),
				...changesTable(paper)
			]
		},
		{ title: `${paperText(paper.jobName)}: ${title}`, printedAt }
	);
}
