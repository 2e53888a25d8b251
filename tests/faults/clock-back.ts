/** The clock of the machine is set back while people edit: what came later stays later, and nobody is put out. */
import { existsSync, globSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openStorage } from '../../src/lib/server/storage/storage.ts';
import { ask, Person } from './person.ts';
import { promisesKept, type Kept } from './promises.ts';
import { found, signIn, Stage, until, type DatabaseName } from './stage.ts';

const people = 2;
/** Seconds that the clock is wrong by, one after the other. */
const settings = [0, -3600, -86_400, 0, -86_400 * 400];

const library = globSync('/usr/lib/*/faketime/libfaketimeMT.so.1')[0];

/** Debian's `faketime` sets the clock of one process. */
export const clocksCanBeSet = library !== undefined && existsSync(library);

export async function clockBack(
	database: DatabaseName
): Promise<Kept & { settings: number; timesBack: number }> {
	const stage = new Stage();
	try {
		const place = await stage.place(database);
		const company = await found(place, people);
		const [key] = company.keys;
		const [first] = company.people;
		if (!key || !first) throw new Error('no job');
		const clock = join(stage.folder(), 'clock');
		const setClock = (seconds: number): void =>
			writeFileSync(clock, `${seconds < 0 ? '' : '+'}${seconds}s\n`);
		setClock(0);
		const server = await stage.serve({
			...stage.environmentOn(place),
			LD_PRELOAD: library ?? '',
			FAKETIME_TIMESTAMP_FILE: clock,
			FAKETIME_NO_CACHE: '1',
			FAKETIME_DONT_FAKE_MONOTONIC: '1'
		});
		const { address } = server;
		const editing: Person[] = [];
		const cookies: string[] = [];
		for (const [number, who] of company.people.entries()) {
			const cookie = await signIn(address, who);
			cookies.push(cookie);
			editing.push(new Person({ number, job: key.jobId, cookie, address: () => address }));
		}
		const broken: string[] = [];
		const expect = (what: string, status: number, wanted: number): void => {
			if (status !== wanted) broken.push(`${what} is answered with ${status}, not ${wanted}`);
		};
		const tries = async (): Promise<number> => {
			const wrong = { body: { email: first.email, password: 'not the one' } };
			return (await ask(address, 'POST', '/api/sign-in', wrong)).status;
		};
		for (const person of editing) person.begin();
		for (const seconds of settings) {
			setClock(seconds);
			const stored = editing.map((person) => person.stored.length);
			await until('everybody has edits stored', () =>
				editing.every((person, i) => person.broken.length > 0 || person.stored.length > (stored[i] ?? 0) + 10)
			);
			const who = `with the clock wrong by ${seconds} s,`;
			expect(`${who} a wrong password`, await tries(), 401);
			const { email, password } = first;
			const again = await ask(address, 'POST', '/api/sign-in', { body: { email, password } });
			expect(`${who} signing in`, again.status, 200);
			const path = `/api/jobs/${key.jobId}/history`;
			expect(
				`${who} the history`,
				(await ask(address, 'GET', path, { cookie: cookies[0] ?? '' })).status,
				200
			);
		}
		for (const person of editing) await person.finish();
		const kept = await promisesKept(place, key, editing);
		// Undo takes the person's own last edit, whatever the clock said when it was made.
		const storage = await openStorage(place);
		const last = editing[0]?.stored.at(-1)?.id ?? '';
		const record = await storage.edits.find(key, last);
		const undone = await ask(address, 'POST', `/api/jobs/${key.jobId}/undo`, {
			body: {},
			cookie: cookies[0] ?? ''
		});
		expect('undo', undone.status, 200);
		if (!undone.text.includes(`"redo":"${record?.title}"`))
			broken.push('undo took another edit than the last one');
		const times = (await storage.history.after(key, 0, 100_000)).map(({ madeAt }) => madeAt);
		await storage.close();
		const timesBack = times.filter((at, i) => at < (times[i - 1] ?? '')).length;
		if (timesBack < 3) broken.push(`the clock was seen to go back ${timesBack} times only`);
		await server.end('SIGTERM');
		return { settings: settings.length, timesBack, ...kept, broken: [...kept.broken, ...broken] };
	} finally {
		await stage.close();
	}
}
