/**
 * Rows over the openings, written as XML into the stream of a sheet. The library makes several objects of every cell and
 * remembers every formula; with a thousand columns that took most of the time and the memory of an export.
 *
 * Cells: ECMA-376 part 1, 18.3.1.4 (c), 18.3.1.40 (f) and 18.3.1.53 (is).
 */
import type { Style, Worksheet } from 'exceljs';
import { columnLetter } from '../sheet.ts';
import { firstRow, here } from './places.ts';
import type { Column } from './sheet-writing.ts';
import type { Result } from './workbook-job.ts';

/** What the library's sheet has besides what it declares. */
interface Streamed {
	readonly stream: { write(text: string): unknown };
	readonly workbook: { readonly styles: { addStyleModel(style: Partial<Style>): number } };
}

/** What XML does not have at all. */
const forbidden = /[^\P{Cc}\t\n\r\u007F-\u009F]|[\uFFFE\uFFFF]/gu;

const marked = /[&<>"]/u;

const encoded = (text: string): string => {
	const plain = text.replace(forbidden, '');
	if (!marked.test(plain)) return plain;
	return plain
		.replaceAll('&', '&amp;')
		.replaceAll('<', '&lt;')
		.replaceAll('>', '&gt;')
		.replaceAll('"', '&quot;');
};

/** Letters that would stand for another one (`_x0041_`) as they are: ECMA-376 part 1, 22.9.2.19. */
export const literal = (text: string): string => text.replace(/_(?=x[\dA-F]{4}_)/giu, '_x005F_');

/** The attribute for a result's kind, and the result. */
function resultXml(result: Result): readonly [attribute: string, value: string] {
	if (typeof result === 'number') return ['', `<v>${String(result)}</v>`];
	if (typeof result === 'boolean') return [' t="b"', result ? '<v>1</v>' : '<v>0</v>'];
	return [' t="str"', `<v>${encoded(result)}</v>`];
}

function formulaXml(head: string, f: string, result: Result): string {
	const [attribute, value] = resultXml(result);
	return `${head}${attribute}>${f}${value}</c>`;
}

function valueXml(head: string, value: unknown): string {
	switch (typeof value) {
		case 'number':
			return `${head}><v>${String(value)}</v></c>`;
		case 'boolean':
			return `${head} t="b"><v>${value ? '1' : '0'}</v></c>`;
		case 'string':
			return `${head} t="inlineStr"><is><t xml:space="preserve">${encoded(literal(value))}</t></is></c>`;
		default:
			if (value === null) return `${head}/>`;
			throw new Error('a cell of a column is a figure, a text, a condition or a formula');
	}
}

/** One cell after its head, `<c r="B7" s="3"`. */
type CellXml = (head: string, at: number, row: number) => string;

/**
 * A formula that speaks of cells of its own sheet only is written once and shared by the rows below, as a spreadsheet
 * does when it is filled down: the file is a fraction of its size. Others may not be shared.
 */
function cellXml({ cell }: Column, index: number, count: number): CellXml {
	if (!('template' in cell))
		return (head, at, row) => {
			const value = cell(at, row);
			if (typeof value !== 'object' || value === null || !('formula' in value)) return valueXml(head, value);
			const { formula, result } = value;
			if (typeof result === 'object' || result === undefined) throw new Error(`no result beside ${formula}`);
			return formulaXml(head, `<f>${encoded(formula)}</f>`, result);
		};
	const { template, result } = cell;
	const parts = template.split(here).map(encoded);
	if (count < 2 || /[!{]|shop\./u.test(template))
		return (head, at, row) => formulaXml(head, `<f>${parts.join(String(row))}</f>`, result(at));
	const letter = columnLetter(index);
	const range = `${letter}${String(firstRow)}:${letter}${String(firstRow + count - 1)}`;
	const shared = `t="shared" si="${String(index)}"`;
	return (head, at, row) =>
		at === 0
			? formulaXml(head, `<f ${shared} ref="${range}">${parts.join(String(row))}</f>`, result(at))
			: formulaXml(head, `<f ${shared}/>`, result(at));
}

/** @returns writes the row of the opening at a position, one after the other, at the height it asks for */
export function rowWriter(
	sheet: Worksheet,
	columns: readonly Column[],
	count: number
): (at: number, height: number | null) => void {
	const { stream, workbook } = sheet as unknown as Streamed;
	const cells = columns.map((column, i) => ({
		column,
		letter: columnLetter(i),
		xml: cellXml(column, i, count)
	}));
	// The library writes what stands above.
	sheet.getRow(firstRow - 1).commit();
	return (at, height) => {
		const row = firstRow + at;
		let text = `<row r="${String(row)}"${height === null ? '' : ` ht="${String(height)}" customHeight="1"`}>`;
		for (const { column, letter, xml } of cells) {
			const style = workbook.styles.addStyleModel(column.cellStyle?.(at) ?? column.style);
			text += xml(`<c r="${letter}${String(row)}" s="${String(style)}"`, at, row);
		}
		stream.write(`${text}</row>`);
	};
}
