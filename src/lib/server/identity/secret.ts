/** The secret that signs what browsers keep of a sign-in. It is made once, and every server of a database has the same. */
import { createHmac, randomBytes } from 'node:crypto';
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { RefusedStart } from './serving.ts';

const newSecret = (): string => randomBytes(32).toString('base64url');

/** Tells secrets apart without telling them. Hexadecimal. */
export const digestOfSecret = (secret: string): string =>
	createHmac('sha256', secret).update('which secret this is').digest('hex');

const codeOf = (error: unknown): string =>
	error instanceof Error && 'code' in error ? String(error.code) : '';

/**
 * Reads the secret; makes it where there is none.
 * @param mayMake false where another server has made it already, so that this one has to be given it
 * @throws RefusedStart when it can't be read or written, others could read it, or it is none.
 */
export function readSecret(file: string, mayMake: boolean): string {
	try {
		return checked(file);
	} catch (error) {
		if (error instanceof RefusedStart) throw error;
		if (codeOf(error) !== 'ENOENT')
			throw new RefusedStart(`The secret in ${file} can't be read (${codeOf(error)}).`);
	}
	if (!mayMake) throw otherSecret(file);
	try {
		mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
		const secret = newSecret();
		writeFileSync(file, `${secret}\n`, { mode: 0o600, flag: 'wx' });
		return secret;
	} catch (error) {
		// Another process was quicker.
		if (codeOf(error) === 'EEXIST') return checked(file);
		throw new RefusedStart(
			`The secret can't be written to ${file} (${codeOf(error)}). COILWRIGHT_SECRET_FILE names another place.`
		);
	}
}

export const otherSecret = (file: string): RefusedStart =>
	new RefusedStart(
		`This database belongs with another secret than the one in ${file}. Copy that file from the first server, with mode 600. If it is lost, coilwright account --new-secret lets a new one be made; everybody then signs in again.`
	);

function checked(file: string): string {
	if ((statSync(file).mode & 0o077) !== 0 && process.platform !== 'win32')
		throw new RefusedStart(`Others can read the secret in ${file}. Run: chmod 600 ${file}`);
	const secret = readFileSync(file, 'utf8').trim();
	if (!/^[A-Za-z0-9_-]{43,}$/u.test(secret))
		throw new RefusedStart(
			`There is no secret in ${file}. Copy the file from the server that made it; on the first server delete it, and a new one is made.`
		);
	return secret;
}
