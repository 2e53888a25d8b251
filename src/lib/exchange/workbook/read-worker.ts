/** Reads a workbook in a worker thread of its own: if a file is too much for it, only the thread ends. */
import { parentPort, workerData } from 'node:worker_threads';
import { Decimal } from 'decimal.js';
import ExcelJS from 'exceljs';
import type { CellText, Sheet, SheetRow, SheetsReading } from '../sheet.ts';
import { cutWorkbook, type CutLimits, type LineSpan } from './cut-workbook.ts';
import { WorkbookRefusal } from './unpack.ts';
import { readZip, type ZipLimits } from './zip-limits.ts';

export interface ReadTask {
	readonly bytes: Uint8Array;
	readonly zip: ZipLimits;
	readonly cut: CutLimits;
}

/** Letters of a number format that stand as they are: `0.0" mm"`. Escaped ones were quoted by `cutWorkbook`. */
function literalsOf(format: string): string {
	const first = format.replace(/\[[^\]]*\]/gu, '').split(';')[0] ?? '';
	return Array.from(first.matchAll(/"([^"]*)"/gu), ([, quoted]) => quoted ?? '')
		.join('')
		.trim();
}

/** Whether a number format shows a date or a time, its quoted and escaped letters left aside. */
function showsDate(format: string): boolean {
	const bare = format.replace(/\[[^\]]*\]|"[^"]*"/gu, '');
	return /[ymdhs]/iu.test(bare);
}

const units: ReadonlySet<string> = new Set([
	'mm',
	'cm',
	'm',
	'in',
	'in.',
	'ft',
	"'",
	"''",
	'psf',
	'kPa',
	'psi',
	'ksi',
	'MPa',
	'lb/ft',
	'plf',
	'kN/m',
	'kg/m',
	'V'
]);

/** `0"'-0"""`: whole feet that are shown with no inches. */
const feetAndNoInches = /^['’′]\s?[-–]\s?0\s?(?:''|["”″])?$/u;

/** As far as a format of zeros alone, `000` or `0.00`, writes more of them: `7` is shown as `007`, `1.1` as `1.10`. */
function withZeros(text: string, format: string): string {
	const [, whole = '', decimals = ''] = /^(0+)(?:\.(0+))?$/u.exec(format) ?? [];
	const [figures = '', fraction = ''] = text.split('.');
	if (whole === '' || !/^\d+$/u.test(figures)) return text;
	const after = fraction === '' ? '' : `.${fraction.padEnd(decimals.length, '0')}`;
	return `${figures.padStart(whole.length, '0')}${after}`;
}

/** A number as a spreadsheet shows it: fifteen figures, no exponent; with the unit that its format adds. */
function numberText(value: number, format: string): string {
	if (!Number.isFinite(value)) return '';
	const text = withZeros(new Decimal(value.toPrecision(15)).toFixed(), format);
	const literals = literalsOf(format);
	const unit = feetAndNoInches.test(literals) ? "'" : literals;
	return units.has(unit) ? `${text} ${unit}` : text;
}

/** Whether a number format of a date shows month and year and no day. */
function showsMonthAndYear(format: string): boolean {
	const bare = format.replace(/\[[^\]]*\]|"[^"]*"/gu, '');
	return /m/iu.test(bare) && /y/iu.test(bare) && !/[dhs]/iu.test(bare);
}

/** Days since the first day of the file's calendar, back from what exceljs made of them. */
const serialOf = (date: Date): number => date.getTime() / 86_400_000 + 25_569;

function dateText(date: Date): string {
	if (Number.isNaN(date.getTime())) return 'a date out of range';
	const text = date.toISOString();
	return text.endsWith('T00:00:00.000Z') ? text.slice(0, 10) : text.slice(0, 16).replace('T', ' ');
}

function cellText(cell: ExcelJS.Cell): CellText {
	const { value } = cell;
	const format = typeof cell.numFmt === 'string' ? cell.numFmt : '';
	if (value === null || value === undefined) return '';
	if (typeof value === 'string') return value;
	if (typeof value === 'number') return numberText(value, format);
	if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
	if (value instanceof Date) {
		if (!showsDate(format)) return numberText(serialOf(value), format);
		const date = { text: dateText(value), kind: 'date' } as const;
		return showsMonthAndYear(format) ? { ...date, monthAndYear: true } : date;
	}
	if ('richText' in value) return value.richText.map((part) => part.text).join('');
	if ('error' in value) return { text: value.error, kind: 'error' };
	return '';
}

/** Whether all letters of a cell are struck through. */
function isStruck({ value, font }: ExcelJS.Cell): boolean {
	const whole = (font as Partial<ExcelJS.Font> | undefined)?.strike === true;
	if (typeof value !== 'object' || value === null || !('richText' in value)) return whole;
	return value.richText.every((part) => (part.font ? part.font.strike === true : whole));
}

function readRow(row: ExcelJS.Row, line: number, filters: readonly LineSpan[]): SheetRow {
	const cells: CellText[] = [];
	const struck: number[] = [];
	row.eachCell({ includeEmpty: false }, (cell, column) => {
		while (cells.length < column - 1) cells.push('');
		cells[column - 1] = cellText(cell);
		if (isStruck(cell)) struck.push(column - 1);
	});
	const { hidden } = row;
	const filtered = hidden && filters.some(({ top, bottom }) => top < line && line <= bottom);
	return {
		line,
		cells,
		hidden,
		...(filtered ? { filtered } : {}),
		...(struck.length > 0 ? { struck } : {})
	};
}

async function read({ bytes, zip, cut }: ReadTask): Promise<SheetsReading> {
	const directory = readZip(bytes, zip);
	if (!directory.ok) return { ok: false, message: directory.reason };
	const { file, sheets } = cutWorkbook(bytes, directory.entries, cut);
	const workbook = new ExcelJS.Workbook();
	await workbook.xlsx.load(file as unknown as ExcelJS.Buffer);
	return {
		ok: true,
		sheets: sheets.map(({ name, hidden, lines, merges, filters }, i): Sheet => {
			const worksheet = workbook.getWorksheet(String(i + 1));
			const rows: SheetRow[] = [];
			worksheet?.eachRow((row, number) => rows.push(readRow(row, lines[number - 1] ?? number, filters)));
			return { name, rowWord: 'row', rows, merges, hidden };
		})
	};
}

read(workerData as ReadTask).then(
	(reading) => parentPort?.postMessage(reading),
	(problem: unknown) => {
		const message =
			problem instanceof WorkbookRefusal
				? problem.message
				: 'it is damaged or not written as a workbook should be; open it in a spreadsheet and save it again';
		parentPort?.postMessage({ ok: false, message } satisfies SheetsReading);
	}
);
