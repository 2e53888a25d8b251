/**
 * The schedule on paper: as many columns side by side as the sheet takes, the others on the next sheets with the mark
 * in front again; then what stops each opening.
 */
import type { Content, CustomTableLayout, TableCell } from 'pdfmake/interfaces.js';
import { printed } from '../../drawing/svg-text.ts';
import { paperSizes, type PaperId } from '../paper-sizes.ts';
import { helveticaWidth, linesIn, paperText } from './helvetica.ts';
import { makePdf, margin, momentText, type Printing } from './make-pdf.ts';
import type { ScheduleColumn, ScheduleSheet } from './schedule-sheet.ts';

/** In points. */
const textSize = 7;
const headingSize = 6.5;
const lineHeight = 1.08;
const padding = 4;
/** Above and below the text of a row together. */
const rowPadding = 2.5;
/** Of the headings over a table. */
const headingRoom = 48;
const headHeight = 26;
const footHeight = 20;

/** A column is as wide as its widest cell, up to this; a long text goes on below. */
const widest = { usual: 120, long: 240 } as const;
const longText = 300;

interface Column extends ScheduleColumn {
	/** Of the text in it. */
	readonly width: number;
}

function sized(column: ScheduleColumn): Column {
	const title = paperText(column.title);
	const cells = column.cells.map(paperText);
	const longest = cells.reduce((most, cell) => Math.max(most, cell.length), 0);
	const cap = longest > longText ? widest.long : widest.usual;
	const cellWidth = cells.reduce((most, cell) => Math.max(most, helveticaWidth(cell, textSize)), 0);
	const wordWidth = Math.max(...title.split(' ').map((word) => helveticaWidth(word, headingSize, true)));
	// Half a point, so that rounding never breaks a word.
	const width =
		Math.min(cap, Math.max(cellWidth, wordWidth, helveticaWidth(title, headingSize, true) / 3)) + 0.5;
	return { ...column, title, cells, width };
}

/** Columns that stand side by side: as many as the width takes, at least one. */
function bandsOf(columns: readonly Column[], room: number): Column[][] {
	const bands: Column[][] = [[]];
	let left = room;
	for (const column of columns) {
		const wide = column.width + 2 * padding;
		if (wide > left && (bands.at(-1)?.length ?? 0) > 0) {
			bands.push([]);
			left = room;
		}
		bands.at(-1)?.push(column);
		left -= wide;
	}
	return bands;
}

const rules: CustomTableLayout = {
	hLineWidth: (i, node) => (i <= 2 || i === node.table.body.length ? 0.8 : 0.3),
	vLineWidth: (i) => (i === 1 ? 0.8 : 0),
	hLineColor: () => printed.plain('inkQuiet'),
	vLineColor: () => printed.plain('inkQuiet'),
	paddingLeft: () => padding,
	paddingRight: () => padding,
	paddingTop: () => rowPadding * 0.6,
	paddingBottom: () => rowPadding * 0.4
};

const headingCell = (text: string, figure: boolean): TableCell => ({
	text,
	bold: true,
	fontSize: headingSize,
	alignment: figure ? 'right' : 'left',
	color: printed.plain('inkQuiet')
});

/** A first row over the headings that says which columns these are; it is repeated with them. */
const bandRow = (text: string, columns: number): TableCell[] => [
	{ text, colSpan: columns, fontSize: headingSize, color: printed.plain('inkQuiet') },
	...Array.from({ length: columns - 1 }, (): TableCell => ({}))
];

function bandTable(
	names: readonly string[],
	nameWidth: number,
	band: readonly Column[],
	{ at, of, pageHeight }: { at: number; of: number; pageHeight: number }
): Content {
	const heights = names.map((_, row) =>
		Math.max(...band.map(({ cells, width }) => linesIn(cells[row] ?? '', width, textSize)))
	);
	const lineStep = textSize * lineHeight;
	const tallest = Math.max(1, ...heights) * lineStep;
	const whole = heights.reduce((sum, lines) => sum + Math.max(1, lines) * lineStep + rowPadding, headingRoom);
	const [first, last] = [band[0]?.title ?? '', band.at(-1)?.title ?? ''];
	const which = of === 1 ? '' : `Columns ${String(at + 1)} of ${String(of)}: ${first} to ${last}`;
	return {
		// One that fits a page is not torn apart.
		unbreakable: whole < pageHeight,
		margin: [0, 0, 0, 10],
		table: {
			headerRows: 2,
			keepWithHeaderRows: 1,
			dontBreakRows: tallest < pageHeight / 2,
			widths: [nameWidth, ...band.map(({ width }) => width)],
			body: [
				bandRow(which, band.length + 1),
				[headingCell('Mark', false), ...band.map(({ title, figure }) => headingCell(title, figure))],
				...names.map((name, row): TableCell[] => [
					{ text: name, bold: true },
					...band.map(({ cells, figure }): TableCell => ({
						text: cells[row] ?? '',
						...(figure ? { alignment: 'right' as const } : {})
					}))
				])
			]
		},
		layout: rules
	};
}

/** What stops each opening, in sentences; the others by count. */
function checksTable(
	names: readonly string[],
	nameWidth: number,
	sheet: ScheduleSheet,
	width: number
): Content {
	const stopped = sheet.checks.filter(({ stops }) => stops.length > 0).length;
	const said =
		stopped === 0
			? 'Nothing stops an opening.'
			: `${String(stopped)} of ${String(names.length)} rows ${stopped === 1 ? 'has' : 'have'} a stop: not for construction until field measured and cleared.`;
	const counts = 44;
	return [
		{ text: 'Checks', bold: true, fontSize: 10, margin: [0, 2, 0, 2] },
		{ text: said, margin: [0, 0, 0, 4], ...(stopped > 0 ? { color: printed.plain('stop') } : {}) },
		{
			table: {
				headerRows: 1,
				widths: [nameWidth, width - nameWidth - 2 * counts - 8 * padding, counts, counts],
				body: [
					[
						headingCell('Mark', false),
						headingCell('Stops', false),
						headingCell('Cautions', true),
						headingCell('Notes', true)
					],
					...names.map((name, row): TableCell[] => {
						const checks = sheet.checks[row];
						const stops = checks?.stops ?? [];
						return [
							{ text: name, bold: true },
							{ text: stops.length === 0 ? 'none' : stops.map(paperText).join('\n') },
							{ text: String(checks?.cautions ?? 0), alignment: 'right' },
							{ text: String(checks?.notes ?? 0), alignment: 'right' }
						];
					})
				]
			},
			layout: { ...rules, hLineWidth: (i, node) => (i <= 1 || i === node.table.body.length ? 0.8 : 0.3) }
		}
	];
}

/** The schedule as one file. */
export async function schedulePdf(
	sheet: ScheduleSheet,
	paper: PaperId,
	printing: Printing
): Promise<Uint8Array> {
	const size = paperSizes[paper];
	const width = size.width - 2 * margin;
	const names = sheet.names.map(paperText);
	const jobName = paperText(printing.jobName);
	const nameWidth = Math.min(
		widest.usual,
		Math.max(24, ...names.map((name) => helveticaWidth(name, textSize, true))) + 0.5
	);
	const bands = bandsOf(sheet.columns.map(sized), width - nameWidth - 2 * padding);
	const pageHeight = size.height - 2 * margin - headHeight - footHeight;
	const rows = `${String(names.length)} ${names.length === 1 ? 'row' : 'rows'}, ${String(sheet.openings)} ${sheet.openings === 1 ? 'opening' : 'openings'}`;
	const tables = bands
		.filter((band) => band.length > 0)
		.map((band, at, all) => bandTable(names, nameWidth, band, { at, of: all.length, pageHeight }));
	return makePdf(
		{
			pageSize: { width: size.width, height: size.height },
			pageMargins: [margin, margin + headHeight, margin, margin + footHeight - 8],
			defaultStyle: { fontSize: textSize, lineHeight },
			header: {
				margin: [margin, margin - 6, margin, 0],
				columns: [
					{ width: '*', text: jobName, bold: true, fontSize: 11 },
					{ width: 'auto', text: `Schedule of openings: ${rows}`, fontSize: 9 }
				],
				columnGap: 12
			},
			footer: (page: number, pages: number) => ({
				margin: [margin, 8, margin, 0],
				columns: [
					{ width: '*', text: `Printed ${momentText(printing.printedAt)}. Sizes are to be checked on site.` },
					{ width: 'auto', text: `page ${String(page)} of ${String(pages)}` }
				]
			}),
			content:
				names.length === 0
					? 'There are no openings to print.'
					: [...tables, checksTable(names, nameWidth, sheet, width)]
		},
		{ title: `${jobName}: schedule of openings`, printedAt: printing.printedAt }
	);
}
