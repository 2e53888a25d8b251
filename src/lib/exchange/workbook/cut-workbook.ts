/**
 * Cuts a workbook down to what a table needs before exceljs sees it: the cells that hold something, without formulas,
 * and their styles. Everything else a workbook may carry (drawings, comments, names, validations over whole columns,
 * links, macros) never reaches the reader, and with it most of what can be hostile. Cell values are only passed on or
 * left out here; reading them is left to exceljs.
 *
 * The XML is scanned as bytes (one byte, one character): all its own signs are ASCII, and letters beyond that pass
 * through unchanged. Element names: ECMA-376 part 1, 18.2 (workbook), 18.3 (worksheet).
 */
import { columnIndex, columnLetter, grouped, type Merge } from '../sheet.ts';
import { packStored, unpack, WorkbookRefusal } from './unpack.ts';
import type { ZipEntry } from './zip-limits.ts';

export interface CutLimits {
	readonly rows: number;
	readonly columns: number;
	/** Cells that hold something, over all sheets. */
	readonly cells: number;
}

/** Rows of a sheet, from 1, both inclusive. */
export interface LineSpan {
	readonly top: number;
	readonly bottom: number;
}

interface CutSheet {
	readonly name: string;
	readonly hidden: boolean;
	/** Row numbers of the file for the rows 1, 2, 3 … of the cut sheet. */
	readonly lines: readonly number[];
	readonly merges: readonly Merge[];
	/** Rows that filters stand over, the row of their headings first. */
	readonly filters: readonly LineSpan[];
}

export interface CutWorkbook {
	/** An `.xlsx` that holds the sheets as `1`, `2` …, stored without packing. */
	readonly file: Buffer;
	readonly sheets: readonly CutSheet[];
}

const mostMerges = 20_000;
const mostSheets = 200;
const mostTables = 50;
const lastRow = 1_048_576;

/** Text of a part, one character a byte; a UTF-16 part is turned to UTF-8 first. */
function textOfPart(bytes: Uint8Array, entry: ZipEntry): string {
	let content = unpack(bytes, entry);
	const utf16 = content[0] === 0xff ? 'utf-16le' : content[0] === 0xfe ? 'utf-16be' : null;
	if (utf16 !== null) {
		const text = new TextDecoder(utf16).decode(content);
		content = Buffer.from(text.replace(/^<\?xml[^>]*\?>/u, ''));
	}
	let text = content.toString('latin1');
	if (/<!DOCTYPE|<!ENTITY/iu.test(text))
		throw new WorkbookRefusal(`“${entry.name}” inside it defines its own text, as no workbook may`);
	// Some programs write every tag with a prefix (`x:row`); without it all are alike.
	const prefix = /<([A-Za-z_][\w.-]*):(?:workbook|worksheet|sst|styleSheet)[\s>]/u.exec(text)?.[1];
	if (prefix !== undefined) text = text.replaceAll(`<${prefix}:`, '<').replaceAll(`</${prefix}:`, '</');
	return text;
}

const entities: ReadonlyMap<string, string> = new Map([
	['lt', '<'],
	['gt', '>'],
	['amp', '&'],
	['quot', '"'],
	['apos', "'"]
]);

/** An attribute of a tag as text. */
function attribute(tag: string, name: string): string | null {
	const match = new RegExp(`\\s(?:[A-Za-z_][\\w.-]*:)?${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`, 'u').exec(
		tag
	);
	const raw = match?.[1] ?? match?.[2];
	if (raw === undefined) return null;
	return Buffer.from(raw, 'latin1')
		.toString('utf8')
		.replace(/&(#x[\da-f]{1,6}|#\d{1,7}|[a-z]+);/giu, (whole, code: string) => {
			if (!code.startsWith('#')) return entities.get(code) ?? whole;
			const point = code.startsWith('#x') ? parseInt(code.slice(2), 16) : parseInt(code.slice(1), 10);
			return point > 0 && point <= 0x10ffff ? String.fromCodePoint(point) : whole;
		});
}

/** `xl/worksheets/sheet1.xml` for a target as a part in that folder names it. */
function partName(target: string, folder = 'xl'): string {
	if (target.startsWith('/')) return target.slice(1);
	const path = folder.split('/');
	for (const step of target.split('/')) {
		if (step === '..') path.pop();
		else if (step !== '.') path.push(step);
	}
	return path.join('/');
}

interface SheetPart {
	readonly name: string;
	readonly hidden: boolean;
	readonly entry: ZipEntry;
}

function sheetParts(
	workbook: string,
	relations: string,
	entries: ReadonlyMap<string, ZipEntry>
): SheetPart[] {
	const targets = new Map<string, string>();
	for (const [tag] of relations.matchAll(/<Relationship\s[^>]*>/gu)) {
		const [id, target, type] = [attribute(tag, 'Id'), attribute(tag, 'Target'), attribute(tag, 'Type')];
		if (id !== null && target !== null && type?.endsWith('/worksheet')) targets.set(id, partName(target));
	}
	const parts: SheetPart[] = [];
	for (const [tag] of workbook.matchAll(/<sheet\s[^>]*>/gu)) {
		const entry = entries.get(targets.get(attribute(tag, 'id') ?? '') ?? '');
		if (!entry) continue;
		const state = attribute(tag, 'state');
		parts.push({
			name: attribute(tag, 'name') ?? `Sheet ${parts.length + 1}`,
			hidden: state === 'hidden' || state === 'veryHidden',
			entry
		});
	}
	if (parts.length > mostSheets)
		throw new WorkbookRefusal(`it has ${grouped(parts.length)} sheets; at most ${mostSheets} are read`);
	return parts;
}

/** One cell on the way: its tag's attributes, and the raw value. */
interface OpenCell {
	readonly column: number;
	readonly style: string;
	readonly type: string;
	formula: boolean;
	value: string;
}

interface SheetScan {
	readonly xml: string;
	readonly lines: readonly number[];
	readonly cells: number;
}

/** The rows and cells of a sheet that hold something, numbered anew from 1. */
function scanSheet(name: string, xml: string, limits: CutLimits, cellsBefore: number): SheetScan {
	const out: string[] = [];
	const lines: number[] = [];
	let rows = 0;
	let cells = cellsBefore;
	let row = { line: 0, hidden: false, column: -1, filled: 0, written: [] as string[] };
	let cell: OpenCell | null = null;

	const closeCell = () => {
		if (!cell) return;
		const { column, style, type, formula, value } = cell;
		cell = null;
		let [kind, content] = [type, value];
		if (value === '') {
			// A formula that was never worked out has no result; one that gives empty text has, and it is blank.
			if (!formula || type === 'str') return;
			[kind, content] = ['e', '<v>no stored result</v>'];
		}
		if (column >= limits.columns)
			throw new WorkbookRefusal(
				`sheet “${name}” has something in column ${column + 1} of row ${row.line}; at most ${limits.columns} columns are read`
			);
		row.filled++;
		if (++cells > limits.cells || rows >= limits.rows) return;
		const attributes = `${style === '' ? '' : ` s="${style}"`}${kind === '' ? '' : ` t="${kind}"`}`;
		row.written.push(`<c r="${columnLetter(column)}${lines.length + 1}"${attributes}>${content}</c>`);
	};
	const closeRow = () => {
		closeCell();
		if (row.filled > 0 && ++rows <= limits.rows && cells <= limits.cells) {
			lines.push(row.line);
			out.push(`<row r="${lines.length}"${row.hidden ? ' hidden="1"' : ''}>`, ...row.written, '</row>');
		}
		row.written = [];
		row.filled = 0;
	};

	let at = xml.search(/<sheetData[\s>]/u);
	const end = at < 0 ? -1 : xml.indexOf('</sheetData>', at);
	if (at < 0 || end < 0) return { xml: sheetXml(''), lines, cells };
	at = xml.indexOf('>', at) + 1;
	while (at < end) {
		const open = xml.indexOf('<', at);
		if (open < 0 || open >= end) break;
		const close = xml.indexOf('>', open);
		if (close < 0) break;
		const tag = xml.slice(open, close + 1);
		at = close + 1;
		if (tag.startsWith('<row') && /^<row[\s/>]/u.test(tag)) {
			closeRow();
			const number = Number(/\sr="(\d{1,7})"/u.exec(tag)?.[1] ?? row.line + 1);
			if (number < 1 || number > lastRow)
				throw new WorkbookRefusal(`it is damaged: sheet “${name}” has a row number ${number}`);
			row = {
				line: number,
				hidden: /\shidden="(?:1|true)"/u.test(tag),
				column: -1,
				filled: 0,
				written: []
			};
		} else if (tag === '</row>') closeRow();
		else if (tag.startsWith('<c') && /^<c[\s/>]/u.test(tag)) {
			closeCell();
			const letters = /\sr="([A-Z]{1,3})\d+"/u.exec(tag)?.[1];
			const column = letters === undefined ? row.column + 1 : columnIndex(letters);
			row.column = column;
			if (tag.endsWith('/>')) continue;
			cell = {
				column,
				style: /\ss="(\d{1,6})"/u.exec(tag)?.[1] ?? '',
				type: /\st="([A-Za-z]{1,9})"/u.exec(tag)?.[1] ?? '',
				formula: false,
				value: ''
			};
		} else if (tag === '</c>') closeCell();
		else if (cell !== null && !tag.endsWith('/>')) {
			const open: OpenCell = cell;
			if (/^<f[\s>]/u.test(tag)) open.formula = true;
			else if (/^<v[\s>]/u.test(tag)) {
				const stop = xml.indexOf('<', at);
				const value = xml.slice(at, stop < 0 ? end : stop);
				if (value !== '') open.value = `<v>${value}</v>`;
			} else if (/^<is[\s>]/u.test(tag)) {
				const stop = xml.indexOf('</is>', at);
				if (stop < 0 || stop > end) break;
				open.value = `<is>${xml.slice(at, stop)}</is>`;
				at = stop + 5;
			}
		}
	}
	closeRow();
	if (rows > limits.rows)
		throw new WorkbookRefusal(
			`sheet “${name}” has ${grouped(rows)} filled rows; at most ${grouped(limits.rows)} are read. Take out what is not needed`
		);
	if (cells > limits.cells)
		throw new WorkbookRefusal(
			`it has more than ${grouped(limits.cells)} filled cells, the most that are read (reached in sheet “${name}”). Take out what is not needed`
		);
	return { xml: sheetXml(out.join('')), lines, cells };
}

function mergesOf(xml: string): Merge[] {
	const merges: Merge[] = [];
	const pattern = /<mergeCell\s+ref="([A-Z]{1,3})(\d{1,7}):([A-Z]{1,3})(\d{1,7})"/gu;
	for (const [, left = '', top, right = '', bottom] of xml.matchAll(pattern)) {
		merges.push({
			top: Number(top),
			left: columnIndex(left),
			bottom: Number(bottom),
			right: columnIndex(right)
		});
		if (merges.length === mostMerges) break;
	}
	return merges;
}

/** The span of the filter in a part, whether of a sheet or of a table on it (ECMA-376 part 1, 18.3.1.2). */
function filtersOf(xml: string): LineSpan[] {
	const tag = /<autoFilter\s[^>]*>/u.exec(xml)?.[0];
	const span =
		tag === undefined
			? null
			: /^\$?[A-Z]{1,3}\$?(\d{1,7}):\$?[A-Z]{1,3}\$?(\d{1,7})$/u.exec(attribute(tag, 'ref') ?? '');
	return span ? [{ top: Number(span[1]), bottom: Number(span[2]) }] : [];
}

/** Names of the parts with the tables of a sheet. */
function tableParts(sheetPart: string, part: (name: string) => string | null): string[] {
	const [folder, file] = [
		sheetPart.slice(0, sheetPart.lastIndexOf('/')),
		sheetPart.slice(sheetPart.lastIndexOf('/') + 1)
	];
	const relations = part(`${folder}/_rels/${file}.rels`) ?? '';
	return Array.from(relations.matchAll(/<Relationship\s[^>]*>/gu), ([tag]) => tag)
		.filter((tag) => attribute(tag, 'Type')?.endsWith('/table'))
		.slice(0, mostTables)
		.map((tag) => partName(attribute(tag, 'Target') ?? '', folder));
}

/**
 * Escaped letters of number formats (`0\ \m\m`) as quoted ones (`0" ""m""m"`): exceljs drops the escapes, and an `m`
 * is then taken for a month. An escaped inch mark can't be quoted and becomes two apostrophes.
 */
const quoteEscapes = (styles: string): string =>
	styles.replace(/\sformatCode="[^"]*"/gu, (format) =>
		format.replaceAll('\\&quot;', "&quot;''&quot;").replace(/\\(&[a-z]+;|[^&])/gu, '&quot;$1&quot;')
	);

const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packaged = 'http://schemas.openxmlformats.org/package/2006/relationships';

const sheetXml = (rows: string): string =>
	`<worksheet xmlns="${main}"><sheetData>${rows}</sheetData></worksheet>`;

/**
 * @throws WorkbookRefusal with what is wrong: beyond a limit (naming sheet, row and limit), damaged, or no workbook
 */
export function cutWorkbook(bytes: Uint8Array, entries: readonly ZipEntry[], limits: CutLimits): CutWorkbook {
	const byName = new Map(entries.map((entry) => [entry.name, entry]));
	const part = (name: string): string | null => {
		const entry = byName.get(name);
		return entry ? textOfPart(bytes, entry) : null;
	};
	const workbook = part('xl/workbook.xml');
	const relations = part('xl/_rels/workbook.xml.rels');
	if (workbook === null || relations === null)
		throw new WorkbookRefusal('it is damaged: the list of its sheets is missing');
	const date1904 = /<workbookPr\s[^>]*date1904="(?:1|true)"/u.test(workbook);
	const sheets: CutSheet[] = [];
	const files: { name: string; content: Buffer }[] = [];
	let cells = 0;
	for (const { name, hidden, entry } of sheetParts(workbook, relations, byName)) {
		const xml = textOfPart(bytes, entry);
		const scan = scanSheet(name, xml, limits, cells);
		cells = scan.cells;
		const tables = tableParts(entry.name, part).map((table) => part(table) ?? '');
		sheets.push({
			name,
			hidden,
			lines: scan.lines,
			merges: mergesOf(xml),
			filters: [xml, ...tables].flatMap(filtersOf)
		});
		files.push({
			name: `xl/worksheets/sheet${sheets.length}.xml`,
			content: Buffer.from(scan.xml, 'latin1')
		});
	}
	const numbers = sheets.map((_, i) => i + 1);
	const list = numbers.map((n) => `<sheet name="${n}" sheetId="${n}" r:id="r${n}"/>`).join('');
	const links = numbers
		.map((n) => `<Relationship Id="r${n}" Type="${office}/worksheet" Target="worksheets/sheet${n}.xml"/>`)
		.join('');
	files.unshift(
		{
			name: 'xl/workbook.xml',
			content: Buffer.from(
				`<workbook xmlns="${main}" xmlns:r="${office}"><workbookPr${date1904 ? ' date1904="1"' : ''}/><sheets>${list}</sheets></workbook>`
			)
		},
		{
			name: 'xl/_rels/workbook.xml.rels',
			content: Buffer.from(`<Relationships xmlns="${packaged}">${links}</Relationships>`)
		}
	);
	for (const name of ['xl/sharedStrings.xml', 'xl/styles.xml']) {
		const text = part(name);
		if (text !== null)
			files.push({
				name,
				content: Buffer.from(name.endsWith('styles.xml') ? quoteEscapes(text) : text, 'latin1')
			});
	}
	return { file: packStored(files), sheets };
}
