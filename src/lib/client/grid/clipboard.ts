/**
 * Cells on the clipboard, in the two forms that spreadsheets write and read: tab-separated text and an HTML table.
 *
 * The table is read where there is one. Text has lost what tells cells apart: spreadsheets put hidden rows and columns
 * into it, and some turn the line breaks and tabs of a cell into spaces.
 */

/** A cell to be copied. */
export interface CopiedCell {
	readonly text: string;
	/** For a spreadsheet to reckon with: the number that is shown, in the unit that is shown; null for words. */
	readonly figure: number | null;
}

interface Clipboard {
	readonly text: string;
	readonly html: string;
}

export type ClipboardReading =
	{ readonly ok: true; readonly cells: string[][] } | { readonly ok: false; readonly reason: string };

/** More are refused. */
export const mostPastedCells = 200_000;

/** Of either form; reading more would hold the page up. */
const mostCharacters = 32 * 1024 * 1024;

// Writing.

/**
 * Writes cells so that a spreadsheet takes texts for texts, never for dates (`10-4`) or formulas, and figures for
 * numbers. Line ends become `\n`; control characters, which neither form can hold, go.
 */
export function writeClipboard(cells: readonly (readonly CopiedCell[])[]): Clipboard {
	const rows = cells.map((line) => line.map(({ text, figure }) => ({ text: plain(text), figure })));
	return { text: writeText(rows), html: writeTable(rows) };
}

const plain = (text: string): string =>
	text
		.toWellFormed()
		.replace(/\r\n?/gu, '\n')
		.replace(/[^\P{Cc}\n\t]/gu, '');

/** With a line end after the last row, but for a single row, so that one cell can be pasted into a line of text. */
function writeText(rows: readonly (readonly CopiedCell[])[]): string {
	const text = rows.map((line) => line.map((cell) => quoted(cell.text)).join('\t')).join('\n');
	return rows.length > 1 || text === '' ? `${text}\n` : text;
}

const quoted = (text: string): string =>
	/[\t\n]/u.test(text) || text.startsWith('"') ? `"${text.replaceAll('"', '""')}"` : text;

/**
 * `sdnum` and `sdval` are what LibreOffice keeps a text or a number by (tried, in `tests/exchange/clipboard.test.ts`);
 * `mso-number-format` and `x:num` are the same for others, as they write them themselves (from memory).
 */
function writeTable(rows: readonly (readonly CopiedCell[])[]): string {
	const lines = rows.map((line) => `<tr>${line.map(writeCell).join('')}</tr>`);
	return `<html xmlns:x="urn:schemas-microsoft-com:office:excel"><head><meta charset="utf-8"></head><body><table>${lines.join('\n')}</table></body></html>`;
}

function writeCell({ text, figure }: CopiedCell): string {
	const number = figure !== null && Number.isFinite(figure) ? String(figure) : null;
	const attributes =
		number === null
			? ` sdnum="1033;1033;@" style="mso-number-format:'\\@';white-space:pre-wrap"`
			: ` sdval="${number}" sdnum="1033;" x:num="${number}"`;
	// A single break stands for an empty cell, and readers drop one at the end.
	const breaks = /^\n+$/u.test(text) ? `${text}\n` : text;
	const content = breaks.replace(/[&<>"\n]/gu, (sign) => entities.get(sign) ?? sign);
	return `<td${attributes}>${content}</td>`;
}

const entities = new Map([
	['&', '&amp;'],
	['<', '&lt;'],
	['>', '&gt;'],
	['"', '&quot;'],
	['\n', '<br>']
]);

// Reading.

/**
 * Reads rows of cells; they may differ in length. Hidden cells of a table are left out, cells that a merged one covers
 * are blank.
 * @param parse makes a document of HTML without running or loading anything of it
 */
export function readClipboard(
	{ text, html }: Clipboard,
	parse: (html: string) => Document
): ClipboardReading {
	const fromTable = html.length > mostCharacters ? null : readTable(html, parse, text !== '');
	if (fromTable) return fromTable;
	if (text === '') return { ok: false, reason: 'there is no text on the clipboard; copy some cells first' };
	if (text.length > mostCharacters)
		return {
			ok: false,
			reason: `there are ${count(text.length)} characters on the clipboard, and at most ${count(mostCharacters)} go in at once; ${instead}`
		};
	return readText(text);
}

const count = (value: number): string => value.toLocaleString('en-US');
const instead = 'copy fewer rows at a time, or save them as a file and import it';

const tooMany = (cells: number): ClipboardReading => ({
	ok: false,
	reason: `there are ${count(cells)} cells on the clipboard, and at most ${count(mostPastedCells)} go in at once; ${instead}`
});

/** One line end at the very end does not make a row. */
function readText(text: string): ClipboardReading {
	const rows: string[][] = [];
	let row: string[] = [];
	let cells = 0;
	let at = 0;
	while (at <= text.length) {
		const from = at;
		const close = text[at] === '"' ? closingQuote(text, at + 1) : -1;
		at = close === -1 ? endOfCell(text, at) : close + 1;
		cells++;
		// Too many are only counted.
		if (cells <= mostPastedCells)
			row.push(
				close === -1
					? text.slice(from, at)
					: text
							.slice(from + 1, close)
							.replaceAll('""', '"')
							.replace(/\r\n?/gu, '\n')
			);
		if (text[at] === '\t') {
			at++;
			continue;
		}
		rows.push(row);
		row = [];
		at += text.startsWith('\r\n', at) ? 2 : 1;
		if (at === text.length) break;
	}
	return cells > mostPastedCells ? tooMany(cells) : { ok: true, cells: rows };
}

function endOfCell(text: string, from: number): number {
	cellEnd.lastIndex = from;
	return cellEnd.exec(text)?.index ?? text.length;
}

const cellEnd = /[\t\r\n]/gu;

/**
 * Where a cell that begins with a quote has its closing one: the first that is not doubled, with the end of the cell
 * right after it. -1 where the quote is part of the text, as in `"A" wing`.
 */
function closingQuote(text: string, from: number): number {
	let at = text.indexOf('"', from);
	while (at !== -1 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
	return at !== -1 && (at + 1 === text.length || /[\t\r\n]/u.test(text.charAt(at + 1))) ? at : -1;
}

/** Null where there is no table, or where words around it would be lost that the text still has. */
function readTable(
	html: string,
	parse: (html: string) => Document,
	hasText: boolean
): ClipboardReading | null {
	const cell = /<t[dh][\s/>]/giu;
	let cells = 0;
	while (cell.test(html)) cells++;
	if (cells === 0) return null;
	if (cells > mostPastedCells) return tooMany(cells);
	const page = parse(html);
	if (hasText && hasWordsOutside(page)) return null;
	const rows: string[][] = [];
	let slots = 0;
	for (const table of page.querySelectorAll('table')) {
		if (isHidden(table) || table.parentElement?.closest('table')) continue;
		const reader = new TableReader(mostPastedCells - slots);
		visit(table, (node) => reader.enter(node));
		slots += reader.slots;
		if (slots > mostPastedCells) return tooMany(slots);
		for (const row of reader.rows()) rows.push(row);
	}
	return rows.length === 0 ? null : { ok: true, cells: rows };
}

/** Whether a node’s children are visited, too. */
type Descent = 'within' | 'past';

/** Visits all nodes under a root in the order they are written, without recursion: pages may nest to any depth. */
function visit(root: Node, enter: (node: Node) => Descent, leave?: (node: Node) => void): void {
	let node: Node | null = root.firstChild;
	while (node) {
		if (enter(node) === 'within' && node.firstChild) {
			node = node.firstChild;
			continue;
		}
		leave?.(node);
		while (node && !node.nextSibling) {
			node = node.parentNode === root ? null : node.parentNode;
			if (node) leave?.(node);
		}
		node = node?.nextSibling ?? null;
	}
}

const isElement = (node: Node): node is Element => node.nodeType === 1;
const isText = (node: Node): boolean => node.nodeType === 3;
function isHidden(element: Element): boolean {
	const style = element.getAttribute('style');
	return (style !== null && /display\s*:\s*none/iu.test(style)) || element.hasAttribute('hidden');
}

/** Never shown as words. A spreadsheet’s remark on a cell stands in `comment`. */
const silent: ReadonlySet<string> = new Set(['head', 'title', 'style', 'script', 'template', 'comment']);

function hasWordsOutside(page: Document): boolean {
	let found = false;
	visit(page, (node) => {
		if (isText(node)) found ||= (node.nodeValue ?? '').trim() !== '';
		if (!isElement(node)) return 'past';
		return found || node.localName === 'table' || silent.has(node.localName) ? 'past' : 'within';
	});
	return found;
}

/** Takes the rows and cells of one table as they are met. */
class TableReader {
	/** Cells so far, with those that merged cells cover. */
	slots = 0;
	readonly #most: number;
	/** Null for a hidden cell. */
	readonly #rows: (string | null)[][] = [];
	readonly #hiddenColumns = new Set<number>();
	#columns = 0;
	/** By column: rows below that a merged cell still covers. */
	#covered: number[] = [];
	/** A hidden row is read for the cells that hang down from it, and left out. */
	#row: (string | null)[] = [];

	constructor(most: number) {
		this.#most = most;
	}

	enter(node: Node): Descent {
		if (!isElement(node) || this.slots > this.#most) return 'past';
		switch (node.localName) {
			case 'colgroup':
				if (node.querySelector('col')) return 'within';
				this.#column(node);
				return 'past';
			case 'col':
				this.#column(node);
				return 'past';
			case 'tr':
				this.#endRow();
				this.#row = [];
				if (!isHidden(node)) this.#rows.push(this.#row);
				return 'within';
			case 'td':
			case 'th':
				this.#cell(node);
				return 'past';
			case 'thead':
			case 'tbody':
			case 'tfoot':
				return 'within';
			default:
				return 'past';
		}
	}

	rows(): string[][] {
		this.#endRow();
		return this.#rows
			.map((row) => row.flatMap((cell, at) => (cell === null || this.#hiddenColumns.has(at) ? [] : [cell])))
			.filter((row) => row.length > 0);
	}

	#column(element: Element): void {
		const span = spanOf(element, 'span');
		if (isHidden(element)) for (let at = 0; at < span; at++) this.#hiddenColumns.add(this.#columns + at);
		this.#columns += span;
	}

	#cell(element: Element): void {
		this.#passCovered();
		const [across, down] = [spanOf(element, 'colspan'), spanOf(element, 'rowspan')];
		const hidden = isHidden(element);
		for (let at = 0; at < across; at++) {
			this.#covered[this.#row.length] = down - 1;
			this.#put(hidden ? null : at === 0 ? textOf(element) : '');
		}
	}

	/** Blank cells where a merged one hangs down from above. */
	#passCovered(): void {
		for (
			let left = this.#covered[this.#row.length] ?? 0;
			left > 0;
			left = this.#covered[this.#row.length] ?? 0
		) {
			this.#covered[this.#row.length] = left - 1;
			this.#put('');
		}
	}

	#endRow(): void {
		this.#passCovered();
		// Cells that the row does not reach are covered one row less all the same.
		this.#covered = this.#covered.map((left, at) => (at < this.#row.length ? left : Math.max(0, left - 1)));
	}

	#put(cell: string | null): void {
		this.slots++;
		if (this.slots <= this.#most) this.#row.push(cell);
	}
}

/** As many columns or rows as an element says, within what HTML allows. */
function spanOf(element: Element, attribute: 'span' | 'colspan' | 'rowspan'): number {
	const written = element.getAttribute(attribute);
	if (written === null) return 1;
	const said = Math.trunc(Number(written));
	return said >= 1 ? Math.min(said, attribute === 'rowspan' ? 65_534 : 1000) : 1;
}

const blocks: ReadonlySet<string> = new Set(
	'p div li ul ol dl dt dd pre blockquote table tr td th h1 h2 h3 h4 h5 h6'.split(' ')
);

/** Digits set high or low stay so: 6<sup>1</sup>/<sub>2</sub> is not 61/2. */
const digitsOf: ReadonlyMap<string, string> = new Map([
	['sup', '⁰¹²³⁴⁵⁶⁷⁸⁹'],
	['sub', '₀₁₂₃₄₅₆₇₈₉']
]);

/**
 * The words of a cell. Spreadsheets write the spaces of a cell as they are and break the source where they like: a line
 * end in the source is a space, `<br>` and a new paragraph are line ends, and a lone `<br>` is an empty cell.
 */
function textOf(cell: Element): string {
	const { firstChild } = cell;
	if (firstChild === null) return '';
	const words = new CellWords();
	// Most cells hold nothing but text.
	if (firstChild.nextSibling === null && isText(firstChild)) words.enter(firstChild);
	else
		visit(
			cell,
			(node) => words.enter(node),
			(node) => words.leave(node)
		);
	return words.read();
}

const isSpaceRun = (element: Element): boolean =>
	element.getAttribute('style')?.includes('mso-spacerun') ?? false;

/** Takes the words of one cell as they are met. A carriage return stands for a line end of the source until the end. */
class CellWords {
	#text = '';
	#digits: string | undefined;
	#spaceRun = false;
	#newBlock = false;

	enter(node: Node): Descent {
		if (isText(node)) this.#words(node.nodeValue ?? '');
		if (!isElement(node) || silent.has(node.localName) || isHidden(node)) return 'past';
		if (node.localName === 'br') this.#add('\n');
		this.#newBlock ||= blocks.has(node.localName);
		this.#digits = digitsOf.get(node.localName) ?? this.#digits;
		this.#spaceRun ||= isSpaceRun(node);
		return 'within';
	}

	leave(node: Node): void {
		if (!isElement(node)) return;
		this.#newBlock ||= blocks.has(node.localName);
		if (digitsOf.has(node.localName)) this.#digits = undefined;
		this.#spaceRun &&= !isSpaceRun(node);
	}

	read(): string {
		if (!/[\n\r]/u.test(this.#text)) return this.#text;
		const lines = this.#text
			.replace(/\r+/gu, '\r')
			.replace(/\r?\n\r?/gu, '\n')
			.replace(/^\r|\r$/gu, '')
			.replaceAll('\r', ' ');
		return /^\n+$/u.test(lines) ? lines.slice(1) : lines;
	}

	#words(value: string): void {
		let words = value;
		if (/[\n\r]/u.test(value))
			words = value.replace(/[\t\n\f\r ]+/gu, (run) => (/[\n\r]/u.test(run) ? '\r' : run));
		if (this.#spaceRun) words = words.replaceAll('\u00A0', ' ');
		const digits = this.#digits;
		if (digits !== undefined) words = words.replace(/\d/gu, (digit) => digits.charAt(Number(digit)));
		// What stands between two paragraphs begins no line.
		if (this.#newBlock && !this.#spaceRun && value.trim() === '') this.#text += words;
		else this.#add(words);
	}

	#add(words: string): void {
		if (this.#newBlock && this.#text !== '' && !this.#text.endsWith('\n')) this.#text += '\n';
		this.#newBlock = false;
		this.#text += words;
	}
}
