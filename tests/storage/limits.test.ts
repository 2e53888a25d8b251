/** How much one person may ask of the built server, and how slowly: what goes beyond is refused in words, and nobody else's is. */
import { once } from 'node:events';
import { request as httpRequest, type ClientRequest } from 'node:http';
import { connect, type Socket } from 'node:net';
import { describe, expect, it, onTestFinished } from 'vitest';
import { formWithFile, type RunningServer } from './built-server.ts';
import { temporaryFolder } from './databases.ts';
import { office, type Colleague } from './office.ts';
import { addRow, counter, edit } from './services.ts';

type Reply = Awaited<ReturnType<RunningServer['ask']>>;

async function jobOf({ ask }: Colleague): Promise<string> {
	const made = await ask('POST', '/api/jobs', { name: 'Saltmarsh Pier', measures: 'imperial' });
	const job = String(made.body.id);
	const message = edit([addRow('c1', null, counter('C-1'))]);
	expect((await ask('POST', `/api/jobs/${job}/edits`, message)).status).toBe(200);
	return job;
}

async function twoPeople(): Promise<{
	server: RunningServer;
	one: Colleague;
	other: Colleague;
	job: string;
}> {
	const opened = await office(temporaryFolder(), 'estimator', 'estimator');
	const [one, other] = opened.people;
	if (!one || !other) throw new Error('somebody is missing');
	return { server: opened.server, one, other, job: await jobOf(one) };
}

/** Asks again and again, so many at once, until an answer is what is looked for. */
async function until(
	ask: () => Promise<Reply>,
	wanted: (reply: Reply) => boolean,
	atOnce: number
): Promise<Reply> {
	for (let sent = 0; sent < 20_000; sent += atOnce) {
		const replies = await Promise.all(Array.from({ length: atOnce }, ask));
		const found = replies.find(wanted);
		if (found) return found;
	}
	throw new Error('it was never answered so');
}

const seconds = (reply: Reply): number => Number(reply.headers['retry-after']);
const tooMuch = ({ status }: Reply): boolean => status === 429;

describe('what one person may ask', () => {
	it('changes: refused with the time to wait, taken after it, and those of others all the while', async () => {
		const { one, other } = await twoPeople();
		const change = (who: Colleague) => () => who.ask('POST', '/api/views', {});
		const refused = await until(change(one), tooMuch, 100);
		expect(refused.body.message).toMatch(
			/^That is more changes than are taken at once\. Nothing was stored;/u
		);
		expect(seconds(refused)).toBe(1);
		// What is wrong with it is said again, which is not said to who may not ask.
		expect((await change(other)()).status).toBe(422);
		expect((await until(change(one), ({ status }) => status === 422, 1)).status).toBe(422);
		// Looking is not counted.
		const looked = await Promise.all(Array.from({ length: 300 }, () => one.ask('GET', '/api/account')));
		expect(looked.filter(({ status }) => status !== 200)).toEqual([]);
	});

	it('files: twenty a minute', async () => {
		const { one, other, job } = await twoPeople();
		const send = async ({ ask }: Colleague): Promise<Reply> => {
			const { body, headers } = formWithFile(
				'truck.csv',
				'Mark,Description,Qty shipped\nC-1,"Guide, left",1',
				{ ours: 'yes', anotherTruck: 'yes' }
			);
			return ask('POST', `/api/jobs/${job}/deliveries`, body, headers);
		};
		const words = 'That is many files within a minute. Nothing was stored; send this one again in ';
		const tooMany = ({ body }: Reply): boolean => String(body.message).startsWith(words);
		const refused = await until(() => send(one), tooMany, 30);
		expect(refused.status).toBe(429);
		expect([1, 2, 3]).toContain(seconds(refused));
		expect((await send(other)).status).toBeLessThan(300);
		await until(
			() => send(one),
			({ status }) => status < 300,
			1
		);
	});

	it('pages to print: three at once', async () => {
		const { one, other, job } = await twoPeople();
		const print = ({ ask }: Colleague) => ask('GET', `/api/jobs/${job}/print?what=drawings`);
		const [mine, theirs] = await Promise.all([
			Promise.all(Array.from({ length: 12 }, () => print(one))),
			print(other)
		]);
		const refused = mine.filter(tooMuch);
		expect(refused.length).toBeGreaterThan(0);
		expect(mine.filter(({ status }) => status === 200).length).toBe(12 - refused.length);
		expect(mine.length - refused.length).toBeGreaterThanOrEqual(3);
		expect(theirs.status).toBe(200);
		expect((await print(one)).status).toBe(200);
	});

	it('pages that are told of others: twenty', async () => {
		const { server, one, other, job } = await twoPeople();
		const streams: ClientRequest[] = [];
		onTestFinished(() => {
			for (const stream of streams) stream.destroy();
		});
		const follow = async ({ cookie }: Colleague): Promise<number> => {
			const path = `${server.address}/api/jobs/${job}/events?after=0&tab=tab-${streams.length}`;
			const asked = httpRequest(path, { headers: { cookie }, agent: false });
			streams.push(asked);
			asked.on('error', () => undefined);
			asked.end();
			const [response] = (await once(asked, 'response')) as [{ statusCode: number; resume: () => void }];
			response.resume();
			return response.statusCode;
		};
		for (let i = 0; i < 20; i++) expect(await follow(one)).toBe(200);
		const refused = await one.ask('GET', `/api/jobs/${job}/events?after=0&tab=more`);
		expect([refused.status, refused.body.message]).toEqual([
			429,
			expect.stringMatching(/^So many pages are open that this one is not told .* Close some of them\.$/u)
		]);
		expect(await follow(other)).toBe(200);
		streams[0]?.destroy();
		const deadline = Date.now() + 60_000;
		while ((await follow(one)) !== 200 && Date.now() < deadline)
			await new Promise((resolve) => setTimeout(resolve, 100));
		expect(Date.now()).toBeLessThan(deadline);
	});

	it('words to sign in with: ten, and then the time to wait is told', async () => {
		const { server, one } = await twoPeople();
		const tried = async (password: string): Promise<Reply> =>
			server.ask('POST', '/api/sign-in', { email: one.email, password });
		const statuses: number[] = [];
		for (let i = 0; i < 10; i++) statuses.push((await tried(`not this one ${i}`)).status);
		expect(new Set(statuses)).toEqual(new Set([401]));
		const refused = await tried(one.password);
		expect([refused.status, refused.body.message]).toEqual([
			429,
			expect.stringMatching(/^That was tried too often\. Try again in \d+ minutes?\.$/u)
		]);
		expect(seconds(refused)).toBeGreaterThan(60);
		expect(seconds(refused)).toBeLessThanOrEqual(15 * 60);
	});
});

describe('who sends slowly', () => {
	/** Sends the beginning of a request, then a byte now and then. @returns all that comes back before it is ended. */
	async function drip(server: RunningServer, beginning: string): Promise<string> {
		const { hostname, port } = new URL(server.address);
		const socket: Socket = connect(Number(port), hostname);
		let text = '';
		socket.on('data', (chunk) => (text += String(chunk)));
		socket.on('error', () => undefined);
		const ended = once(socket, 'close');
		socket.write(beginning);
		const drops = setInterval(() => {
			if (socket.writable) socket.write('x');
		}, 500);
		onTestFinished(() => clearInterval(drops));
		await ended;
		return text;
	}

	it('is ended, whether it is the body or the head that does not come, and others are answered', async () => {
		const { server, one, job } = await twoPeople();
		const { host } = new URL(server.address);
		const head = `POST /api/jobs/${job}/edits HTTP/1.1\r\nhost: ${host}\r\norigin: ${server.address}\r\ncookie: ${one.cookie}\r\n`;
		const slow = [
			drip(server, `${head}content-type: application/json\r\ncontent-length: 100000\r\n\r\n{"id":"`),
			drip(
				server,
				`${head}content-type: application/json\r\ntransfer-encoding: chunked\r\n\r\n1000\r\n{"id":"`
			),
			drip(server, `${head}x-more: `)
		];
		expect((await one.ask('GET', `/jobs/${job}/openings`)).status).toBe(200);
		for (const answer of await Promise.all(slow)) expect(answer).toMatch(/^HTTP\/1\.1 408 /u);
		expect((await one.ask('GET', `/jobs/${job}/openings`)).status).toBe(200);
		expect(server.output()).not.toMatch(/^failure /mu);
	});
});
