/** Tables as text: comma, semicolon, tab or bar between the fields (RFC 4180, and what people make of it). */
import { CsvError, parse } from 'csv-parse/sync';
import {
	grouped,
	megabytes,
	mostBytes,
	mostColumns,
	mostRows,
	textOf,
	type Sheet,
	type SheetRow
} from './sheet.ts';

export type Delimiter = ',' | ';' | '\t' | '|';
export type DelimitedReading =
	{ ok: true; sheet: Sheet; encoding: string; delimiter: Delimiter } | { ok: false; message: string };

/** Blank lines among them are free up to this many. */
const mostRecords = mostRows + 10_000;

const delimiters: readonly Delimiter[] = [';', '\t', ',', '|'];

/** Bytes as text: by byte order mark, else UTF-16 by its zeros, else UTF-8 when it is valid, else Windows-1252. */
function decode(bytes: Uint8Array): { text: string; encoding: string } | null {
	const as = (encoding: string, skip: number) => ({
		text: new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes.subarray(skip)),
		encoding
	});
	const [a, b, c] = bytes;
	if (a === 0xef && b === 0xbb && c === 0xbf) return as('utf-8', 3);
	if (a === 0xff && b === 0xfe) return as('utf-16le', 2);
	if (a === 0xfe && b === 0xff) return as('utf-16be', 2);
	const head = bytes.subarray(0, 4096);
	const zeros = [0, 0];
	head.forEach((byte, i) => {
		if (byte === 0) zeros[i % 2] = (zeros[i % 2] ?? 0) + 1;
	});
	const [even = 0, odd = 0] = zeros;
	if (even + odd > 0) {
		const half = head.length / 2;
		if (odd > half * 0.6 && even < half * 0.1) return as('utf-16le', 0);
		if (even > half * 0.6 && odd < half * 0.1) return as('utf-16be', 0);
		return null;
	}
	try {
		return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8' };
	} catch {
		return as('windows-1252', 0);
	}
}

/** Text has next to no control characters; other files have many. */
function looksLikeText(text: string): boolean {
	const head = text.slice(0, 4096);
	const controls = head.match(/[^\P{Cc}\t\n\f]/gu)?.length ?? 0;
	return controls * 100 <= head.length;
}

interface RawRecord {
	readonly line: number;
	readonly fields: readonly string[];
}

/** Records with the line each begins on; what was read before an error comes with it. */
function records(
	text: string,
	delimiter: Delimiter,
	most: number
): { read: RawRecord[]; problem: string | null } {
	const read: RawRecord[] = [];
	let ended = 0;
	try {
		parse(text, {
			delimiter,
			record_delimiter: '\n',
			relax_quotes: true,
			relax_column_count: true,
			skip_empty_lines: false,
			to: most,
			on_record: (fields, { lines }) => {
				read.push({ line: ended + 1, fields });
				ended = lines;
				return null;
			}
		});
		return { read, problem: null };
	} catch (error) {
		if (!(error instanceof CsvError)) throw error;
		return { read, problem: `a quotation mark that opens on line ${ended + 1} is never closed` };
	}
}

/** The delimiter by which the most lines fall into the same number of fields; commas when none does. */
function findDelimiter(text: string): Delimiter {
	const head = text.slice(0, 200_000);
	let best: { delimiter: Delimiter; score: number } = { delimiter: ',', score: 0 };
	for (const delimiter of delimiters) {
		if (!head.includes(delimiter)) continue;
		const lines = new Map<number, number>();
		for (const { fields } of records(head, delimiter, 100).read)
			lines.set(fields.length, (lines.get(fields.length) ?? 0) + 1);
		for (const [fields, count] of lines) {
			const score = (fields - 1) * count;
			if (score > best.score) best = { delimiter, score };
		}
	}
	return best.delimiter;
}

/**
 * Reads delimited text of up to 20 MB, 20,000 lines and 256 fields: UTF-8, UTF-16 or Windows-1252; the delimiter is
 * found, or told by a first line `sep=;`. Inch marks in fields without quotation marks stay as they are. An
 * apostrophe before `=`, `+`, `-` or `@` at the start of a field (see {@link writeDelimited}) is taken off again.
 *
 * @param name of the file, for messages; becomes the name of the sheet
 */
export function readDelimited(name: string, bytes: Uint8Array): DelimitedReading {
	if (bytes.length > mostBytes) {
		return {
			ok: false,
			message: `${name} has ${megabytes(bytes.length)}; at most ${megabytes(mostBytes)} are read.`
		};
	}
	const decoded = decode(bytes);
	if (!decoded || !looksLikeText(decoded.text.replace(/\r/gu, ''))) {
		return {
			ok: false,
			message: `${name} is neither a workbook nor text; save it as .xlsx or delimited text.`
		};
	}
	let text = decoded.text.replace(/\r\n?/gu, '\n');
	let skipped = 0;
	const told = /^sep=([,;\t|])\n/iu.exec(text);
	if (told) {
		text = text.slice(told[0].length);
		skipped = 1;
	}
	const delimiter = (told?.[1] as Delimiter | undefined) ?? findDelimiter(text);
	const lines = countOf(text, '\n') + (text.endsWith('\n') ? 0 : 1);
	const { read, problem } = records(text, delimiter, mostRecords);
	if (problem !== null) return { ok: false, message: `${name}: ${problem}.` };
	const rows: SheetRow[] = [];
	for (const record of read) {
		const cells = record.fields.map((field) => field.replace(/^'(?=[=+\-@])/u, ''));
		if (cells.every((cell) => textOf(cell).trim() === '')) continue;
		const line = record.line + skipped;
		let width = cells.length;
		while (width > mostColumns && cells[width - 1]?.trim() === '') width--;
		if (width > mostColumns) {
			return {
				ok: false,
				message: `${name}, line ${line}: ${grouped(width)} fields; at most ${mostColumns} are read.`
			};
		}
		rows.push({ line, cells: cells.slice(0, width), hidden: false });
	}
	if (rows.length > mostRows || read.length === mostRecords) {
		return {
			ok: false,
			message: `${name} has ${grouped(lines)} lines; at most ${grouped(mostRows)} are read. Split it, or leave out what is not needed.`
		};
	}
	if (rows.length === 0) return { ok: false, message: `${name} is empty.` };
	return {
		ok: true,
		sheet: { name, rowWord: 'line', rows, merges: [], hidden: false },
		encoding: decoded.encoding,
		delimiter
	};
}

function countOf(text: string, part: string): number {
	let count = 0;
	for (let at = text.indexOf(part); at >= 0; at = text.indexOf(part, at + 1)) count++;
	return count;
}

const isFigure = (text: string): boolean => /^[+-]?\d+(?:\.\d+)?$/u.test(text);

/**
 * Writes delimited text (RFC 4180: quoted where needed, CRLF) with a byte order mark, so that spreadsheets take it for
 * UTF-8. Text that a spreadsheet would run as a formula gets an apostrophe in front; plain figures do not.
 */
export function writeDelimited(
	rows: readonly (readonly (string | number | null)[])[],
	delimiter: Delimiter = ','
): string {
	const field = (value: string | number | null): string => {
		const text = value === null ? '' : String(value);
		const safe = /^[=+\-@\t\r]/u.test(text) && !isFigure(text) ? `'${text}` : text;
		return /["\r\n\t;,|]|^\s|\s$/u.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
	};
	return `\uFEFF${rows.map((row) => row.map(field).join(delimiter)).join('\r\n')}\r\n`;
}
