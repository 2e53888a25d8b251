/**
 * The people of `npm run bench:load`, in a process of their own so that they take nothing from the server but what they
 * ask for. A plan comes in on standard input as JSON, what they saw goes out on standard output.
 */
import { Agent, request } from 'node:http';
import { json } from 'node:stream/consumers';
import { firstWidth, secondWidth, type Plan, type Seen } from './load-plan.ts';

const widths = [firstWidth, secondWidth];

interface Answer {
	readonly status: number;
	readonly size: number;
	readonly start: string;
}

const plan = (await json(process.stdin)) as Plan;
const { host, hostname, port } = new URL(plan.address);
const started = performance.now();
const until = started + plan.seconds * 1000;
const latencies: number[] = [];
let errors = 0;
let firstError: string | null = null;
let bytes = 0;
let made = 0;

function send(agent: Agent, path: string, cookie: string, body: string): Promise<Answer> {
	return new Promise((resolve, reject) => {
		const sent = request(
			{
				agent,
				hostname,
				port,
				path,
				method: 'POST',
				headers: {
					host,
					origin: plan.address,
					accept: 'application/json',
					'content-type': 'application/json',
					'content-length': Buffer.byteLength(body),
					cookie
				}
			},
			(response) => {
				let size = 0;
				let start = '';
				response.on('data', (chunk: Buffer) => {
					if (size === 0) start = chunk.toString('utf8', 0, 200);
					size += chunk.length;
				});
				response.on('error', reject);
				response.on('end', () => resolve({ status: response.statusCode ?? 0, size, start }));
			}
		);
		sent.on('error', reject);
		sent.end(body);
	});
}

async function person(number: number): Promise<void> {
	const mine = plan.people[number];
	if (!mine) return;
	const agent = new Agent({ keepAlive: true, maxSockets: 1 });
	const times = new Map<string, number>();
	// Nobody begins at the same moment as another.
	const first = started + (plan.every * number) / plan.people.length;
	for (let turn = 0; ; turn++) {
		const due = first + turn * plan.every;
		const pause = due - performance.now();
		if (pause > 0) await new Promise((resolve) => setTimeout(resolve, pause));
		if (performance.now() >= until) break;
		const at = mine.rows[turn % mine.rows.length];
		if (!at) break;
		const time = times.get(at.row) ?? 0;
		times.set(at.row, time + 1);
		const body = JSON.stringify({
			id: `load-${process.pid}-${String(++made)}`,
			title: 'Change Opening width',
			changes: [
				{
					kind: 'setCell',
					row: at.row,
					field: 'openingWidth',
					before: widths[time % 2],
					after: widths[(time + 1) % 2]
				}
			]
		});
		const sentAt = performance.now();
		try {
			const answer = await send(agent, `/api/jobs/${at.job}/edits`, mine.cookie, body);
			latencies.push(performance.now() - sentAt);
			bytes += answer.size;
			if (answer.status !== 200) {
				errors++;
				firstError ??= `${String(answer.status)} ${answer.start}`;
			}
		} catch (thrown) {
			errors++;
			firstError ??= String(thrown);
		}
	}
	agent.destroy();
}

const before = process.cpuUsage();
await Promise.all(plan.people.map((_, number) => person(number)));
const used = process.cpuUsage(before);
const seen: Seen = {
	latencies: latencies.map((time) => Math.round(time * 100) / 100),
	errors,
	firstError,
	seconds: (performance.now() - started) / 1000,
	processor: (used.user + used.system) / 1e6,
	bytes
};
process.stdout.write(JSON.stringify(seen));
