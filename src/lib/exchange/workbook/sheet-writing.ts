/** What all sheets share: columns over the openings, headings, print set-up. */
import { setImmediate } from 'node:timers/promises';
import type {
	CellValue,
	Column as SheetColumn,
	DataValidation,
	Row,
	Style,
	Workbook,
	Worksheet
} from 'exceljs';
import { columnLetter, oneLine } from '../sheet.ts';
import { face, look } from './look.ts';
import { firstRow, type SheetName } from './places.ts';
import { rowWriter } from './row-writing.ts';
import type { Live } from './workbook-job.ts';

/** One column of a sheet with a row for every opening. */
export interface Column {
	/** Stands small under the heading. */
	readonly id: string;
	/** Heading over several columns. */
	readonly band: string;
	readonly heading: string;
	readonly style: Partial<Style>;
	readonly width: number;
	/** Folded away with its neighbours, and not printed. */
	readonly aside: boolean;
	/** Text that may take more than one line. */
	readonly wrapped?: (at: number) => string;
	/** Content for the opening at a position of the job; its style where it differs from the column's. */
	readonly cell: Live | ((at: number, row: number) => CellValue);
	readonly cellStyle?: (at: number) => Partial<Style>;
	readonly total?: { readonly value: CellValue; readonly style: Partial<Style> };
}

export interface SheetText {
	readonly name: SheetName | 'Order' | 'Changes';
	readonly title: string;
	/** One line under the title. */
	readonly lead: string;
}

export interface Printing {
	/** Job name, in the header of every page. */
	readonly job: string;
	readonly madeAt: Date;
	readonly metric: boolean;
}

export interface SheetShape {
	/** Last column that is printed, from 1. */
	readonly columns: number;
	/** Width of the printed columns together, in characters. */
	readonly width: number;
	readonly frozenColumns: number;
	readonly frozenRows: number;
	readonly lastRow: number;
	/** First row of the headings, the first one printed where the sheet is more than one page across. */
	readonly headingsFrom: number;
	/** Never more than one page across. */
	readonly onePage?: boolean;
	/** Columns with an outline. */
	readonly outlined?: boolean;
}

/** Characters that fit across a landscape page at the smallest size that reads well. */
const pageWidth = 210;

/** A4, by its number in the file format; without it, Letter. */
export const a4: object = { paperSize: 9 };

const day = (date: Date): string => date.toISOString().slice(0, 10);

/** Text for a header: `&` begins a code there, and all of it may have 255 characters. */
const headerText = (text: string, most = 80): string => {
	const line = oneLine(text);
	return (line.length > most ? `${line.slice(0, most - 1)}…` : line).replaceAll('&', '&&');
};

/** An empty sheet with its view, its print set-up and its title. */
export function openSheet(
	workbook: Workbook,
	text: SheetText,
	printing: Printing,
	shape: SheetShape
): Worksheet {
	const last = columnLetter(shape.columns - 1);
	const pages = shape.onePage === true ? 1 : Math.max(1, Math.ceil(shape.width / pageWidth));
	// Across several pages a line of text would be cut; there it goes to the foot of the page.
	const across = pages > 1;
	const firstPrinted = across ? shape.headingsFrom : 1;
	const font = `&9&"${face},Regular"`;
	const sheet = workbook.addWorksheet(text.name, {
		properties: { outlineLevelCol: shape.outlined === true ? 1 : 0, defaultRowHeight: 15 },
		views: [
			{
				state: 'frozen',
				xSplit: shape.frozenColumns,
				ySplit: shape.frozenRows,
				topLeftCell: `${columnLetter(shape.frozenColumns)}${String(shape.frozenRows + 1)}`,
				activeCell: `${columnLetter(shape.frozenColumns)}${String(shape.frozenRows + 1)}`,
				showGridLines: false,
				zoomScale: 100
			}
		],
		pageSetup: {
			orientation: 'landscape',
			...(printing.metric ? a4 : {}),
			fitToPage: true,
			fitToWidth: pages,
			fitToHeight: 0,
			printArea: `A$${String(firstPrinted)}:${last}$${String(shape.lastRow)}`,
			printTitlesRow: `${String(shape.headingsFrom)}:${String(shape.frozenRows)}`,
			...(shape.frozenColumns > 0 && across
				? { printTitlesColumn: `A:${columnLetter(shape.frozenColumns - 1)}` }
				: {}),
			pageOrder: 'overThenDown',
			margins: { left: 0.4, right: 0.4, top: 0.7, bottom: 0.6, header: 0.3, footer: 0.3 }
		},
		headerFooter: {
			oddHeader: `&L${font}${headerText(printing.job)}&R${font}&A`,
			oddFooter: `&L${font}Coilwright, ${day(printing.madeAt)}${across ? `&C${font}${headerText(text.lead, 130)}` : ''}&R${font}Page &P of &N`
		}
	});
	return sheet;
}

/** Puts content with a shared style into a cell. */
export function put(
	sheet: Worksheet,
	row: number,
	column: number,
	value: CellValue,
	style: Partial<Style>
): void {
	const cell = sheet.getRow(row).getCell(column);
	cell.value = value;
	cell.style = style;
}

export function writeTitle(sheet: Worksheet, text: SheetText): void {
	put(sheet, 1, 1, text.title, look('title'));
	sheet.getRow(1).height = 24;
	put(sheet, 2, 1, text.lead, look('lead'));
}

/** Lists and limits for typing; the declarations of the library leave them out. */
interface Validated {
	readonly dataValidations: { add(range: string, validation: DataValidation): void };
}

export function validate(sheet: Worksheet, range: string, validation: DataValidation): void {
	(sheet as Worksheet & Validated).dataValidations.add(range, { showErrorMessage: true, ...validation });
}

/** Widths of columns; those aside get an outline. */
export function setColumns(sheet: Worksheet, columns: readonly { width: number; aside?: boolean }[]): void {
	sheet.columns = columns.map(({ width, aside }): Partial<SheetColumn> => ({
		width,
		...(aside === true ? { outlineLevel: 1 } : {})
	}));
}

/** Rows written before other work gets its turn. */
const rowsInTurn = 50;

export async function takeTurns(at: number): Promise<void> {
	if (at % rowsInTurn === rowsInTurn - 1) await setImmediate();
}

/** Writes a sheet with one row for every opening, and their total below. */
export async function writeColumns(
	sheet: Worksheet,
	columns: readonly Column[],
	count: number,
	options: { readonly ids: boolean; readonly legend: readonly (readonly [string, Partial<Style>])[] }
): Promise<void> {
	const heading = options.ids ? firstRow - 2 : firstRow - 1;
	options.legend.forEach(([text, style], i) => put(sheet, 3, i * 3 + 1, text, style));
	const band = look('band');
	columns.forEach((column, i) => {
		const begins = columns[i - 1]?.band !== column.band;
		put(sheet, heading - 1, i + 1, begins ? column.band : null, band);
		const align = column.style.alignment?.horizontal;
		const over = {
			wrap: true,
			...(align === 'right' || align === 'center' || align === 'left' ? { align } : {})
		};
		put(sheet, heading, i + 1, column.heading, look('heading', over));
		if (options.ids) put(sheet, heading + 1, i + 1, column.id, look('id', over));
	});
	sheet.getRow(heading).height = 54;
	if (options.ids) sheet.getRow(heading + 1).height = 22;
	const write = rowWriter(sheet, columns, count);
	for (let at = 0; at < count; at++) {
		write(
			at,
			heightFor(columns.flatMap(({ wrapped: text, width }) => (text ? [[text(at), width] as const] : [])))
		);
		await takeTurns(at);
	}
	if (!columns.some((column) => column.total)) return;
	const total = sheet.getRow(firstRow + Math.max(count, 1));
	columns.forEach((column, i) => {
		const cell = total.getCell(i + 1);
		cell.value = i === 0 ? 'Total' : (column.total?.value ?? null);
		cell.style = column.total?.style ?? look('total', i === 0 ? { align: 'left' } : {});
	});
}

export const printedColumns = (columns: readonly Column[]): { columns: number; width: number } => {
	const printed = columns.filter((column) => !column.aside);
	return { columns: printed.length, width: printed.reduce((sum, { width }) => sum + width, 0) };
};

/** A condensed letter is about this wide, in the characters that columns are measured in; bold ones a little more. */
const letter = 0.6;
const boldLetter = 0.78;

/** Wide enough for the heading in three lines, and for `least` characters below it. */
export function widthFor(heading: string, least: number): number {
	const longest = Math.max(...heading.split(/\s+/u).map((word) => word.length));
	return (Math.max(least, longest, Math.ceil(heading.length / 3) + 1) + 3) * boldLetter;
}

/** As high as the longest of wrapped texts asks for; null for one line. Some programs leave a row at that. */
function heightFor(texts: readonly (readonly [text: string, width: number])[]): number | null {
	const lines = Math.max(
		1,
		...texts.map(([text, width]) =>
			text.split('\n').reduce((sum, line) => sum + Math.max(1, Math.ceil((line.length * letter) / width)), 0)
		)
	);
	return lines > 1 ? lines * 13 + 2 : null;
}

/** Makes a row as high as the longest of its wrapped texts asks for. */
export function fitHeight(row: Row, texts: readonly (readonly [text: string, width: number])[]): void {
	const height = heightFor(texts);
	if (height !== null) row.height = height;
}

export const longestKey = (keys: readonly string[]): number => Math.max(4, ...keys.map((key) => key.length));
