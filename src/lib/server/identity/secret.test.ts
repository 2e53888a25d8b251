import { chmodSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { readSecret } from './secret.ts';

function secretFile(): string {
	const folder = mkdtempSync(join(tmpdir(), 'coilwright-test-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	return join(folder, 'secret');
}

describe('the secret', () => {
	it('is made once, for its owner alone, and stays what it is', () => {
		const file = secretFile();
		const secret = readSecret(file, true);
		expect(Buffer.from(secret, 'base64url')).toHaveLength(32);
		if (process.platform !== 'win32') expect(statSync(file).mode & 0o777).toBe(0o600);
		expect(readSecret(file, true)).toBe(secret);
		expect(readSecret(file, false)).toBe(secret);
		expect(readSecret(secretFile(), true)).not.toBe(secret);
	});

	it.skipIf(process.platform === 'win32').each([0o640, 0o620, 0o604, 0o644, 0o660])(
		'is not taken from a file of mode %o',
		(mode) => {
			const file = secretFile();
			readSecret(file, true);
			chmodSync(file, mode);
			expect(() => readSecret(file, true)).toThrow(/^Others can read the secret in .* Run: chmod 600 /u);
		}
	);

	it('is not made where another server has made it, nor taken where there is none', () => {
		expect(() => readSecret(secretFile(), false)).toThrow(/^This database belongs with another secret/u);
		const file = secretFile();
		writeFileSync(file, 'too short\n', { mode: 0o600 });
		expect(() => readSecret(file, true)).toThrow(/^There is no secret in /u);
	});
});
