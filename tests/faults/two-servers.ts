/** Two servers on one PostgreSQL behind a proxy; one or the other is killed while several people edit and follow. */
import { once } from 'node:events';
import { request, type ClientRequest } from 'node:http';
import { connect, createServer, type AddressInfo, type Socket } from 'node:net';
import { Person } from './person.ts';
import { promisesKept, type Kept } from './promises.ts';
import { found, freePort, signIn, Stage, until, type Served } from './stage.ts';

const people = 4;

/** Hands each connection to the next server that takes it. */
async function proxy(stage: Stage, ports: readonly number[]): Promise<string> {
	let turn = 0;
	const open = new Set<Socket>();
	const server = createServer((socket) => {
		open.add(socket);
		socket.on('error', () => socket.destroy());
		socket.on('close', () => open.delete(socket));
		const first = turn++;
		const hand = (tries: number): void => {
			const behind = connect(ports[(first + tries) % ports.length] ?? 0, '127.0.0.1');
			let taken = false;
			behind.on('connect', () => {
				taken = true;
				socket.pipe(behind).pipe(socket);
			});
			behind.on('error', () => {
				if (!taken && tries + 1 < ports.length) hand(tries + 1);
				else socket.destroy();
			});
			behind.on('close', () => {
				if (taken) socket.destroy();
			});
			socket.on('close', () => behind.destroy());
		};
		hand(0);
	}).listen(0, '127.0.0.1');
	await once(server, 'listening');
	stage.after(() => {
		server.close();
		for (const socket of open) socket.destroy();
	});
	return `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
}

/** An open page that is told what others did, and connects again when that ends. */
class Follower {
	/** The last revision it was told of. */
	revision = 0;
	/** Connections it had. */
	connections = 0;
	readonly #address: string;
	readonly #path: string;
	readonly #cookie: string;
	#request: ClientRequest | null = null;
	#ended = false;

	constructor(address: string, job: string, cookie: string, number: number) {
		this.#address = address;
		this.#path = `/api/jobs/${job}/events?tab=tab-${number}`;
		this.#cookie = cookie;
	}

	begin(): void {
		if (this.#ended) return;
		const again = (): void => {
			if (this.#request !== sent) return;
			this.#request = null;
			setTimeout(() => this.begin(), 50);
		};
		const sent = request(`${this.#address}${this.#path}&after=${this.revision}`, {
			headers: { cookie: this.#cookie, accept: 'text/event-stream' }
		});
		this.#request = sent;
		sent.on('error', again);
		sent.on('response', (response) => {
			if (response.statusCode === 200) this.connections++;
			let text = '';
			response.setEncoding('utf8');
			response.on('data', (chunk: string) => {
				text += chunk;
				for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
					this.#take(text.slice(0, end));
					text = text.slice(end + 2);
				}
			});
			response.on('error', again);
			response.on('close', again);
		});
		sent.end();
	}

	#take(event: string): void {
		if (!/^event: ?changed$/mu.test(event)) return;
		const data = /^data: ?(.*)$/mu.exec(event)?.[1] ?? '{}';
		const { revision } = JSON.parse(data) as { revision?: number };
		if (revision !== undefined) this.revision = Math.max(this.revision, revision);
	}

	end(): void {
		this.#ended = true;
		this.#request?.destroy();
	}
}

export async function twoServers(rounds: number): Promise<Kept & { kills: number; reconnected: number }> {
	const stage = new Stage();
	try {
		const place = await stage.place('PostgreSQL');
		const company = await found(place, people);
		const [key] = company.keys;
		if (!key) throw new Error('no job');
		const environment = stage.environmentOn(place);
		const ports = [await freePort(), await freePort()];
		const start = (i: number): Promise<Served> => stage.serve({ ...environment, PORT: String(ports[i]) });
		const servers = [await start(0), await start(1)];
		const address = await proxy(stage, ports);
		const editing: Person[] = [];
		const followers: Follower[] = [];
		for (const [number, who] of company.people.entries()) {
			const cookie = await signIn(address, who);
			editing.push(new Person({ number, job: key.jobId, cookie, address: () => address }));
			const follower = new Follower(address, key.jobId, cookie, number);
			stage.after(() => follower.end());
			followers.push(follower);
			follower.begin();
		}
		await until('everybody follows', () => followers.every(({ connections }) => connections > 0));
		for (const person of editing) person.begin();
		const stored = (): number => editing.reduce((sum, person) => sum + person.stored.length, 0);
		const goOn = async (): Promise<void> => {
			const before = editing.map((person) => person.stored.length);
			await until('everybody has edits stored', () =>
				editing.every((person, i) => person.broken.length > 0 || person.stored.length > (before[i] ?? 0) + 2)
			);
		};
		let kills = 0;
		for (; kills < rounds && editing.every(({ broken }) => broken.length === 0); kills++) {
			const which = kills % servers.length;
			await goOn();
			await servers[which]?.end('SIGKILL');
			// With one server alone.
			await goOn();
			servers[which] = await start(which);
		}
		for (const person of editing) await person.finish();
		const kept = await promisesKept(place, key, editing);
		const broken = [...kept.broken];
		await until('every follower was told of the last revision', () =>
			followers.every(({ revision }) => revision === kept.revisions)
		).catch(() => {
			const at = followers.map(({ revision }) => revision).join(', ');
			broken.push(`followers were told up to ${at}; the job is at ${kept.revisions} (${stored()} edits)`);
		});
		const reconnected = followers.reduce((sum, { connections }) => sum + connections - 1, 0);
		for (const follower of followers) follower.end();
		for (const server of servers) await server.end('SIGTERM');
		return { kills, reconnected, ...kept, broken };
	} finally {
		await stage.close();
	}
}
