/** A workbook opened and saved again by LibreOffice. */
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** @throws Error when LibreOffice is missing or does not read the file */
export async function saveAgain(bytes: Uint8Array): Promise<Buffer> {
	const folder = await mkdtemp(join(tmpdir(), 'coilwright-save-again-'));
	try {
		const file = join(folder, 'file.xlsx');
		await writeFile(file, bytes);
		const profile = pathToFileURL(join(folder, 'profile')).href;
		const out = join(folder, 'out');
		await run('soffice', [
			`-env:UserInstallation=${profile}`,
			'--headless',
			'--convert-to',
			'xlsx',
			'--outdir',
			out,
			file
		]);
		return await readFile(join(out, 'file.xlsx'));
	} finally {
		await rm(folder, { recursive: true, force: true });
	}
}
