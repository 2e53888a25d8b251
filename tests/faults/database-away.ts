/** PostgreSQL goes down as if its power had gone, and comes back, while several people edit; the server stays up. */
import { ask, Person } from './person.ts';
import { promisesKept, type Kept } from './promises.ts';
import { found, signIn, Stage, until } from './stage.ts';

const people = 4;

export async function databaseAway(
	rounds: number
): Promise<Kept & { stops: number; refusals: number; said: string }> {
	const stage = new Stage();
	try {
		const cluster = await stage.cluster();
		await cluster.createDatabase('coilwright');
		const place = cluster.url('coilwright');
		const company = await found(place, people);
		const [key] = company.keys;
		if (!key) throw new Error('no job');
		const server = await stage.serve(stage.environmentOn(place));
		const { address } = server;
		const editing: Person[] = [];
		for (const [number, who] of company.people.entries()) {
			const cookie = await signIn(address, who);
			editing.push(new Person({ number, job: key.jobId, cookie, address: () => address }));
		}
		for (const person of editing) person.begin();
		let stops = 0;
		const broken: string[] = [];
		let said = '';
		for (; stops < rounds && editing.every((person) => person.broken.length === 0); stops++) {
			const stored = editing.map((person) => person.stored.length);
			await until('everybody has edits stored', () =>
				editing.every((person, i) => person.stored.length > (stored[i] ?? 0) + 2)
			);
			const refused = editing.map((person) => person.count(503));
			await cluster.stop('immediate');
			await until('everybody is told that the database is away', () =>
				editing.every((person, i) => person.broken.length > 0 || person.count(503) > (refused[i] ?? 0))
			);
			said = editing[0]?.lastRefusal ?? '';
			await cluster.start();
		}
		for (const person of editing) await person.finish();
		if (server.process.exitCode !== null) broken.push('the server has ended');
		const page = await ask(address, 'GET', '/sign-in');
		if (page.status !== 200) broken.push(`afterwards a page is answered with ${page.status}`);
		await server.end('SIGTERM');
		const kept = await promisesKept(place, key, editing);
		const refusals = editing.reduce((sum, person) => sum + person.count(503), 0);
		return { stops, refusals, said, ...kept, broken: [...kept.broken, ...broken] };
	} finally {
		await stage.close();
	}
}
