/** The server is killed, again and again, while several people edit: what was answered as stored is there, whole and once. */
import { Person } from './person.ts';
import { promisesKept, type Kept } from './promises.ts';
import { found, freePort, pause, signIn, Stage, until, type DatabaseName } from './stage.ts';

const people = 4;
/** Killed so long after edits were stored again, milliseconds, at most: within an edit, or between two. */
const latest = 80;

export async function kill(database: DatabaseName, rounds: number): Promise<Kept & { kills: number }> {
	const stage = new Stage();
	try {
		const place = await stage.place(database);
		const company = await found(place, people);
		const [key] = company.keys;
		if (!key) throw new Error('no job');
		const environment = { ...stage.environmentOn(place), PORT: String(await freePort()) };
		let server = await stage.serve(environment);
		const { address } = server;
		const editing: Person[] = [];
		for (const [number, who] of company.people.entries()) {
			const cookie = await signIn(address, who);
			editing.push(new Person({ number, job: key.jobId, cookie, address: () => address }));
		}
		const stored = (): number => editing.reduce((sum, person) => sum + person.stored.length, 0);
		for (const person of editing) person.begin();
		let kills = 0;
		for (; kills < rounds && editing.every(({ broken }) => broken.length === 0); kills++) {
			const before = stored();
			await until('edits are stored again', () => stored() > before + people);
			await pause(Math.random() * latest);
			await server.end('SIGKILL');
			server = await stage.serve(environment);
		}
		for (const person of editing) await person.finish();
		await server.end('SIGTERM');
		return { kills, ...(await promisesKept(place, key, editing)) };
	} finally {
		await stage.close();
	}
}
