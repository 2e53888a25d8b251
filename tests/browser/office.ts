/** The program as a company uses it: the first account made at the terminal, everybody else by invitation. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import type { Browser } from 'playwright';
import { afterAll, beforeAll } from 'vitest';
import type { Invited } from '../../src/lib/changes/people.ts';
import type { Role } from '../../src/lib/changes/roles.ts';
import { openBrowser, person, type Person, type Width } from './browser.ts';
import { Program } from './program.ts';

export const company = 'Tern & Gannet Door Co.';
export const ownerName = 'Marit Oskar';
export const ownerEmail = 'marit@tern-gannet.example';
export const password = 'brine lantern seven gulls';

async function makeFirstAccount(folder: string): Promise<void> {
	const child = spawn(
		process.execPath,
		[
			'src/cli/coilwright.ts',
			'account',
			...['--company', company, '--name', ownerName, '--email', ownerEmail, '--demo']
		],
		{
			env: { PATH: process.env.PATH ?? '', COILWRIGHT_DATA: folder },
			stdio: ['pipe', 'ignore', 'pipe']
		}
	);
	let output = '';
	child.stderr.on('data', (chunk) => (output += String(chunk)));
	child.stdin.end(`${password}\n`);
	const [code] = (await once(child, 'close')) as [number | null];
	if (code !== 0) throw new Error(`the first account was not made: ${output}`);
}

export interface Newcomer extends Person {
	readonly name: string;
	readonly email: string;
}

export class Office {
	readonly program: Program;
	readonly browser: Browser;
	readonly owner: Person;
	#count = 0;

	constructor(program: Program, browser: Browser, owner: Person) {
		this.program = program;
		this.browser = browser;
		this.owner = owner;
	}

	/** Somebody at a screen who has not signed in. */
	stranger(look: { width?: Width; dark?: boolean } = {}): Promise<Person> {
		return person(this.browser, this.program.address, look);
	}

	/** Path of the link of a new invitation. */
	async invite(name: string, email: string, roles: readonly Role[]): Promise<string> {
		const answer = await this.#post(this.owner, '/api/people/invitations', { name, email, roles });
		return ((await answer.json()) as Invited).path;
	}

	/** Somebody new with these roles, signed in at a screen of their own. */
	async join(firstName: string, roles: readonly Role[]): Promise<Newcomer> {
		const name = `${firstName} ${['Lisle', 'Vance', 'Selwick', 'Marlow'][this.#count % 4] ?? ''}`;
		const email = `${firstName.toLowerCase()}-${++this.#count}@tern-gannet.example`;
		const path = await this.invite(name, email, roles);
		const someone = await this.stranger();
		await this.#post(someone, `/api${path.replace('/invitation/', '/invitations/')}`, { name, password });
		return { ...someone, name, email };
	}

	async signIn(someone: Person, email: string): Promise<void> {
		await this.#post(someone, '/api/sign-in', { email, password });
	}

	async #post({ context }: Person, path: string, data: unknown) {
		const headers = { origin: this.program.address, accept: 'application/json' };
		const answer = await context.request.post(path, { data, headers });
		if (!answer.ok()) throw new Error(`${path}: ${answer.status()} ${await answer.text()}`);
		return answer;
	}
}

/** Call it at the top of a `describe`; the office is open once the tests run. */
export function openOffice(): { readonly office: Office } {
	const opened: { office?: Office } = {};
	beforeAll(async () => {
		const [program, browser] = await Promise.all([Program.start(makeFirstAccount), openBrowser()]);
		const owner = await person(browser, program.address);
		opened.office = new Office(program, browser, owner);
		await opened.office.signIn(owner, ownerEmail);
	});
	afterAll(async () => {
		await opened.office?.browser.close();
		await opened.office?.program.close();
	});
	return opened as { readonly office: Office };
}
