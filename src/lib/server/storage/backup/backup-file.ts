/**
 * A backup as a file: lines of JSON, compressed with gzip. The first line says what it is and which tables follow, each
 * further line is a row, the last one holds the digest of all before it.
 */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream';
import { createGunzip } from 'node:zlib';
import { z } from 'zod';
import { BackupProblem } from './backup-problem.ts';
import type { Row } from './rows.ts';

export const backupFormat = 'Coilwright backup 1';

const headSchema = z.strictObject({
	format: z.literal(backupFormat),
	/** Version of the program that wrote it. */
	program: z.string(),
	/** ISO 8601, UTC. */
	writtenAt: z.string(),
	/** The steps by which the tables were made. */
	migrations: z.array(z.string()).min(1),
	tables: z.array(
		z.strictObject({
			name: z.string(),
			columns: z.array(z.string()).min(1),
			rows: z.number().int().min(0)
		})
	)
});

const footSchema = z.strictObject({ end: z.literal(true), sha256: z.string() });
const rowSchema = z.array(z.union([z.string(), z.number(), z.null()]));

export type BackupHead = z.infer<typeof headSchema>;
type HeadTable = BackupHead['tables'][number];

/** Signs of the longest line that is read: far above the largest edit. */
const longestLine = 256 * 1024 * 1024;

/** All lines of a backup: its head, the rows of its tables, and its foot. */
export async function* backupLines(head: BackupHead, rows: AsyncIterable<string>): AsyncGenerator<string> {
	const hash = createHash('sha256');
	const first = `${JSON.stringify(head)}\n`;
	hash.update(first);
	yield first;
	for await (const line of rows) {
		hash.update(line);
		yield line;
	}
	yield `${JSON.stringify({ end: true, sha256: hash.digest('hex') })}\n`;
}

/** Lines without their ends. */
async function* linesIn(file: string): AsyncGenerator<string> {
	let read = 0;
	try {
		const decoder = new TextDecoder('utf-8', { fatal: true });
		let rest: string[] = [];
		let length = 0;
		const unpacked = pipeline(createReadStream(file), createGunzip(), () => undefined);
		for await (const chunk of unpacked as AsyncIterable<Uint8Array>) {
			const [first = '', ...further] = decoder.decode(chunk, { stream: true }).split('\n');
			rest.push(first);
			length += first.length;
			if (length > longestLine) throw new BackupProblem(`Line ${read + 1} is longer than any of a backup.`);
			for (const next of further) {
				read++;
				yield rest.join('');
				rest = [next];
				length = next.length;
			}
		}
		if (rest.join('') + decoder.decode() !== '') throw new BackupProblem(`Line ${read + 1} is not whole.`);
	} catch (error) {
		throw inWords(error, read);
	}
}

/** What the file system and gzip say of a file that can't be read. */
function inWords(error: unknown, read: number): unknown {
	const code = error instanceof Error && 'code' in error ? String(error.code) : '';
	if (code === 'ENOENT') return new BackupProblem('There is no such file.');
	if (code === 'EISDIR') return new BackupProblem('It is a folder.');
	if (code === 'EACCES') return new BackupProblem('It can’t be read.');
	const after = read === 0 ? 'at its beginning' : `after line ${read}`;
	if (code === 'Z_BUF_ERROR') return new BackupProblem(`It ends in the middle, ${after}.`);
	if (code.startsWith('Z_') || code === 'ERR_ENCODING_INVALID_ENCODED_DATA')
		return new BackupProblem(
			read === 0 ? 'It is no backup of Coilwright, or its beginning is damaged.' : `It is damaged ${after}.`
		);
	return error;
}

function jsonOf(line: string, number: number): unknown {
	try {
		return JSON.parse(line) as unknown;
	} catch {
		throw new BackupProblem(`Line ${number} is damaged.`);
	}
}

function headOf(line: string): BackupHead {
	const json = jsonOf(line, 1);
	const format = typeof json === 'object' && json !== null && 'format' in json ? json.format : null;
	if (typeof format !== 'string' || !format.startsWith('Coilwright backup '))
		throw new BackupProblem('It is no backup of Coilwright.');
	if (format !== backupFormat)
		throw new BackupProblem(
			`It is a “${format}”, which a newer version of Coilwright wrote; take that version.`
		);
	const parsed = headSchema.safeParse(json);
	if (!parsed.success) throw new BackupProblem('Line 1 is damaged.');
	return parsed.data;
}

export interface BackupRow {
	readonly table: HeadTable;
	readonly row: Row;
	/** Counted from 1. */
	readonly line: number;
}

/** The head of a backup. @throws BackupProblem */
export async function readHead(file: string): Promise<BackupHead> {
	for await (const line of linesIn(file)) return headOf(line);
	throw new BackupProblem('It is empty.');
}

/**
 * All rows of a backup. The loop ends only where everything was there and the digest is right.
 * @throws BackupProblem saying what is wrong, and in which line.
 */
export async function* readRows(file: string): AsyncGenerator<BackupRow> {
	const hash = createHash('sha256');
	let number = 0;
	let left: { table: HeadTable; rows: number }[] | null = null;
	let ended = false;
	for await (const line of linesIn(file)) {
		number++;
		if (ended) throw new BackupProblem(`Line ${number} comes after its end.`);
		if (!left) left = headOf(line).tables.map((table) => ({ table, rows: table.rows }));
		else {
			while (left[0]?.rows === 0) left.shift();
			const current = left[0];
			const json = jsonOf(line, number);
			if (!current) {
				const foot = footSchema.safeParse(json);
				if (!foot.success) throw new BackupProblem(`Line ${number} is not the end that should stand there.`);
				if (foot.data.sha256 !== hash.digest('hex'))
					throw new BackupProblem('Its digest is not that of what it holds: it was damaged or changed.');
				ended = true;
				continue;
			}
			const { table } = current;
			const row = rowSchema.safeParse(json);
			if (!row.success || row.data.length !== table.columns.length)
				throw new BackupProblem(`Line ${number} is no row of the table ${table.name}.`);
			current.rows--;
			yield { table, row: row.data, line: number };
		}
		hash.update(`${line}\n`);
	}
	if (!ended) throw new BackupProblem(`It ends after line ${number}, before its end.`);
}
