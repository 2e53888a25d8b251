/**
 * Workbooks recalculated by LibreOffice: the outside check of every formula we write.
 *
 * LibreOffice keeps the results stored in an .xlsx unless told otherwise. Here it runs with a profile of its own whose
 * only setting is "recalculate on load: always", so what comes back is LibreOffice's figure and never the stored one.
 * A test shows it: a result falsified on purpose comes back right.
 */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { parse } from 'csv-parse/sync';

const run = promisify(execFile);

const settings = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`;

/**
 * Comma, quote, UTF-8, from line 1, no column formats, no language, quotes where needed, no detection on import, NOT as
 * shown (so that numbers have all their digits), not as formulas, spaces kept, every sheet to a file of its own (-1).
 */
const filter = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1';

/** The same for text that is opened: numbers are detected, and what looks like a formula is one (the last word). */
const textFilter = 'Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,0,true';

const places = [
	...(process.env.PATH ?? '').split(':'),
	'/usr/bin',
	'/usr/local/bin',
	'/opt/libreoffice/program'
];

const soffice = places.map((folder) => join(folder, 'soffice')).find((path) => existsSync(path)) ?? null;

const libreOfficeAvailable = (): boolean => soffice !== null;

const programs = {
	libreoffice: { there: libreOfficeAvailable, how: 'apt-get install libreoffice-calc' },
	poppler: {
		there: () => places.some((folder) => existsSync(join(folder, 'pdftocairo'))),
		how: 'apt-get install poppler-utils'
	}
} as const;

/**
 * For `describe.skipIf(needs('libreoffice'))`: true when the program is missing and the tests must be skipped, which is
 * said on the console. @throws Error with `CI=true`, where nothing may be skipped.
 */
export function needs(program: keyof typeof programs): boolean {
	const { there, how } = programs[program];
	if (there()) return false;
	const message = `${program} is missing (${how}): the tests that need it are skipped`;
	if (process.env.CI === 'true') throw new Error(message);
	console.warn(message);
	return true;
}

export interface WorkbookFile {
	readonly name: string;
	readonly bytes: Uint8Array;
}

/**
 * Recalculates workbooks (.xlsx) and gives the text of every cell: by file name, by sheet name, rows of cells. Numbers
 * have up to 15 significant digits; conditions are TRUE or FALSE; an error is its text (#N/A, #DIV/0!).
 * @param kind `text`: they are comma-separated text, opened by somebody who lets formulas in it run
 * @throws Error when LibreOffice is missing or does not read a file.
 */
export async function recalculate(
	files: readonly WorkbookFile[],
	kind: 'workbook' | 'text' = 'workbook'
): Promise<Map<string, Map<string, string[][]>>> {
	if (soffice === null) throw new Error('LibreOffice is not installed');
	const folder = await mkdtemp(join(tmpdir(), 'coilwright-recalculate-'));
	try {
		const profile = join(folder, 'profile');
		const out = join(folder, 'out');
		await mkdir(join(profile, 'user'), { recursive: true });
		await writeFile(join(profile, 'user', 'registrymodifications.xcu'), settings);
		const paths = await Promise.all(
			files.map(async ({ bytes }, i) => {
				const path = join(folder, `${String(i)}.${kind === 'text' ? 'csv' : 'xlsx'}`);
				await writeFile(path, bytes);
				return path;
			})
		);
		const reading = kind === 'text' ? [`--infilter=${textFilter}`] : [];
		const profileAddress = `-env:UserInstallation=${pathToFileURL(profile).href}`;
		const asked = [
			profileAddress,
			'--headless',
			...reading,
			'--convert-to',
			filter,
			'--outdir',
			out,
			...paths
		];
		await run(soffice, asked, {
			env: { ...process.env, LC_ALL: 'C.UTF-8' },
			maxBuffer: 64 * 1024 * 1024
		});
		const written = existsSync(out) ? await readdir(out) : [];
		const results = new Map<string, Map<string, string[][]>>();
		for (const [i, { name }] of files.entries()) {
			const prefix = `${String(i)}-`;
			const sheets = new Map<string, string[][]>();
			for (const file of written.filter((path) => path.startsWith(prefix))) {
				const text = await readFile(join(out, file), 'utf8');
				const rows: string[][] = parse(text, { relax_column_count: true, skip_empty_lines: false });
				sheets.set(file.slice(prefix.length, -'.csv'.length), rows);
			}
			if (sheets.size === 0) throw new Error(`LibreOffice did not read ${name}`);
			results.set(name, sheets);
		}
		return results;
	} finally {
		await rm(folder, { recursive: true, force: true });
	}
}
