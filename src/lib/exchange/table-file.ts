/** A file with a table in it, told by what is in it and never by its name. */
import { readDelimited } from './delimited-text.ts';
import { megabytes, mostBytes, type SheetsReading } from './sheet.ts';
import { readWorkbook } from './workbook/read-workbook.ts';

const save = 'save the table as .xlsx or delimited text';

/** First bytes, in hexadecimal, of files that people send instead, and what they are. */
const binaries: readonly (readonly [RegExp, string])[] = [
	[/^25504446/u, `a PDF; ${save}`],
	[/^89504e47/u, `a picture (PNG); ${save}`],
	[/^ffd8ff/u, `a picture (JPEG); ${save}`],
	[/^47494638/u, `a picture (GIF); ${save}`],
	[/^424d.{8}00000000/u, `a picture (BMP); ${save}`],
	[/^(?:49492a00|4d4d002a)/u, `a picture (TIFF); ${save}`],
	[/^52494646.{8}57454250/u, `a picture (WebP); ${save}`],
	[/^.{8}66747970/u, `a picture or film; ${save}`],
	[/^1f8b/u, 'a packed file (gzip); unpack it first'],
	[/^377abcaf/u, 'a packed archive (7z); unpack it first'],
	[/^52617221/u, 'a packed archive (RAR); unpack it first'],
	[/^7f454c46/u, `a program; ${save}`]
];

/** The same for files that begin with text. */
const texts: readonly (readonly [RegExp, string])[] = [
	[/^\{\\rtf/u, `a text document (RTF); ${save}`],
	[/^AC10\d\d/u, `a drawing (DWG); ${save}`],
	[/^SQLite format 3/u, `a database; ${save}`],
	[/^<(?:!doctype html|html|head|table)\b/iu, `a web page; open it in a spreadsheet and ${save}`],
	[/^<\?xml/iu, `an XML file; open it in a spreadsheet and ${save}`]
];

const zip = '504b';
/** Binary workbooks and workbooks with a password come in the same container. */
const container = 'd0cf11e0a1b11ae1';

const hex = (bytes: Uint8Array): string =>
	Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');

const letters = (bytes: Uint8Array): string =>
	Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');

const encrypted = Array.from('EncryptedPackage', (letter) => `${letter}\u0000`).join('');

/**
 * Reads a workbook (`.xlsx`) or delimited text. Anything else is named for what it is, with what to do instead.
 *
 * @param name of the file, for messages and as the name of a text's only sheet
 */
export async function readTableFile(name: string, bytes: Uint8Array): Promise<SheetsReading> {
	if (bytes.length === 0) return { ok: false, message: `${name} is empty.` };
	if (bytes.length > mostBytes)
		return {
			ok: false,
			message: `${name} has ${megabytes(bytes.length)}; at most ${megabytes(mostBytes)} are read.`
		};
	const start = hex(bytes.subarray(0, 16));
	if (start.startsWith(zip)) return readWorkbook(name, bytes);
	if (start.startsWith(container)) {
		const what = letters(bytes.subarray(0, 16_384)).includes(encrypted)
			? 'a workbook with a password; save it as .xlsx without one'
			: 'an old binary file (.xls or the like); save it as .xlsx';
		return { ok: false, message: `${name} is ${what}.` };
	}
	const opening = letters(bytes.subarray(0, 64))
		.replace(/^\u00ef\u00bb\u00bf/u, '')
		.trimStart();
	const other =
		binaries.find(([pattern]) => pattern.test(start)) ?? texts.find(([pattern]) => pattern.test(opening));
	if (other) return { ok: false, message: `${name} is ${other[1]}.` };
	const reading = readDelimited(name, bytes);
	return reading.ok ? { ok: true, sheets: [reading.sheet] } : reading;
}
