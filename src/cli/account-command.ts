/** `coilwright account`: the first account of a company, a password that was forgotten, a secret that was lost. */
import { join } from 'node:path';
import { createInterface } from 'node:readline/promises';
import { text } from 'node:stream/consumers';
import { Writable } from 'node:stream';
import { placesOf, RefusedStart } from '../lib/server/identity/serving.ts';
import { forgetSecret } from '../lib/server/operations/forget-secret.ts';
import { makeAccount, resetPassword } from '../lib/server/operations/make-account.ts';
import type { Outcome } from '../lib/server/operations/outcome.ts';
import { closeServicesOf, openServices, type Services } from '../lib/server/operations/services.ts';
import { argumentsOf, BadInput, print } from './terminal.ts';

const root = join(import.meta.dirname, '..', '..');

/** One line, without showing what is typed. */
async function askUnseen(question: string): Promise<string> {
	const unseen = new Writable({ write: (_chunk, _encoding, done) => done() });
	const lines = createInterface({ input: process.stdin, output: unseen, terminal: true });
	lines.once('SIGINT', () => process.exit(130));
	// Only now the terminal shows nothing of what is typed.
	process.stderr.write(question);
	try {
		return await lines.question('');
	} finally {
		lines.close();
		process.stderr.write('\n');
	}
}

/** Asked for twice at a terminal; the first line of what is piped in. */
async function readPassword(): Promise<string> {
	if (!process.stdin.isTTY) return (await text(process.stdin)).split(/\r?\n/u)[0] ?? '';
	const password = await askUnseen('Password (12 characters or more): ');
	if ((await askUnseen('The same again: ')) !== password)
		throw new BadInput('These were two different passwords. Nothing was stored.');
	return password;
}

async function onServices<T>(work: (services: Services) => Promise<T>): Promise<T> {
	let services: Services;
	try {
		services = await openServices(placesOf(process.env, root).database);
	} catch (error) {
		if (error instanceof RefusedStart || (error instanceof Error && error.cause !== undefined))
			throw new BadInput(error.message);
		throw error;
	}
	try {
		return await work(services);
	} finally {
		await closeServicesOf(services);
	}
}

function valueOf<T>(outcome: Outcome<T>): T {
	if (!outcome.ok) throw new BadInput(outcome.refusal.message);
	return outcome.value;
}

async function first(
	account: Readonly<Record<'company' | 'name' | 'email', string | undefined>>,
	demo: boolean
): Promise<void> {
	const password = await readPassword();
	const examples = demo ? join(root, 'fixtures', 'schedules') : null;
	const made = valueOf(
		await onServices((services) => makeAccount(services, { ...account, password }, examples))
	);
	print(`${made.company} is made, and ${made.email} may do everything in it.`);
	if (made.tookOver)
		print('What was done alone in this folder belongs to the company now; nothing of it changed.');
	print('Start Coilwright (again, where it is running): it asks to sign in from now on.');
	print('The others are invited by link, on the page People.');
}

async function newPassword(email: string | undefined): Promise<void> {
	const password = await readPassword();
	const changed = valueOf(await onServices((services) => resetPassword(services, { email, password })));
	print(`${changed.email} has the new password, and is signed out everywhere.`);
}

export async function accountCommand(args: readonly string[]): Promise<number> {
	const { values, positionals } = argumentsOf(args, {
		company: { type: 'string' },
		name: { type: 'string' },
		email: { type: 'string' },
		demo: { type: 'boolean', default: false },
		'reset-password': { type: 'boolean', default: false },
		'new-secret': { type: 'boolean', default: false }
	});
	if (positionals.length > 0)
		throw new BadInput('account: a password is never an argument; it is asked for, or read from a pipe.');
	const { company, name, email, demo } = values;
	if (values['new-secret']) {
		await onServices(forgetSecret);
		print('The next server that starts says which secret counts. Everybody signs in again.');
	} else if (values['reset-password']) await newPassword(email);
	else await first({ company, name, email }, demo);
	return 0;
}
