/** What the server writes down: that something failed and where, never what people typed or were handed. */
import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';
import { describe, expect, it, onTestFinished } from 'vitest';
import { usualView } from '../../src/lib/changes/sheet-view.ts';
import { formWithFile, startServer, type RunningServer } from './built-server.ts';
import { temporaryFolder } from './databases.ts';
import { office, signIn, type Office } from './office.ts';
import { postgresIsThere, startCluster } from './postgres-cluster.ts';
import { addRow, counter, edit, setCell } from './services.ts';

/** Stands in everything that is typed here, and nowhere else. */
const typedMark = 'zq7319';
const password = `${typedMark} slate gull pier`;

/** Sends bytes as they are, and waits for the end of the connection. */
function sendRaw(server: RunningServer, text: string): Promise<void> {
	const { hostname, port } = new URL(server.address);
	return new Promise((resolve) => {
		const socket = connect(Number(port), hostname, () => socket.end(text));
		socket.on('error', () => undefined);
		socket.on('data', () => undefined);
		socket.on('close', () => resolve());
	});
}

interface Driven {
	readonly office: Office;
	/** Handed out by the server, or kept by it. */
	readonly secrets: string[];
	readonly job: string;
}

/** People, jobs and mistakes, all of them marked. */
async function drive(place: string): Promise<Driven> {
	const opened = await office(place, 'estimator');
	const { server, owner, environment } = opened;
	const secrets = [readFileSync(join(environment.COILWRIGHT_DATA ?? '', 'secret'), 'utf8').trim()];
	const cookieSecrets = (cookie: string): string[] => {
		const signed = decodeURIComponent(cookie.split('=')[1] ?? '');
		return [signed, ...signed.split('.')].filter((part) => part.length > 8);
	};

	const email = `ivo-${typedMark}@reed.example`;
	const invited = await owner.ask('POST', '/api/people/invitations', {
		name: `Ivo ${typedMark}`,
		email,
		roles: ['estimator', 'purchasing']
	});
	const token = String(invited.body.path).split('/').at(-1) ?? '';
	secrets.push(token);
	await server.ask('POST', `/api/invitations/${token}`, { name: `Ivo ${typedMark}`, password: typedMark });
	expect(
		(await server.ask('POST', `/api/invitations/${token}`, { name: `Ivo ${typedMark}`, password })).status
	).toBe(200);
	await server.ask('GET', `/api/invitations/${typedMark}`);
	await server.ask('GET', `/invitation/${token}`, undefined, { accept: 'text/html' });
	await server.ask('POST', '/api/sign-in', { email, password: `wrong ${typedMark}` });
	await server.ask('POST', '/api/sign-in', { email: `nobody-${typedMark}@reed.example`, password });
	await server.ask('POST', '/api/sign-in', { email, password, more: typedMark });
	await server.ask('POST', '/api/sign-in', `{"email":"${email}","password":"${password}`);
	const first = await signIn(server, { name: '', email, password });
	const next = `${password} again`;
	const change = (current: string, other: string) =>
		server.ask('POST', '/api/account/password', { current, next: other }, { cookie: first });
	await change(`not ${password}`, next);
	await change(password, typedMark);
	expect((await change(password, next)).status).toBe(200);
	const cookie = await signIn(server, { name: '', email, password: next });
	secrets.push(...cookieSecrets(first), ...cookieSecrets(cookie));
	await server.ask('GET', '/', undefined, { cookie: `${cookie}${typedMark}` });

	const ask: RunningServer['ask'] = (method, path, body, headers = {}) =>
		server.ask(method, path, body, { cookie, ...headers });
	const made = await ask('POST', '/api/jobs', { name: `Pier ${typedMark}`, measures: 'imperial' });
	const job = String(made.body.id);
	const row = { ...counter(typedMark), note: `note ${typedMark}` };
	expect((await ask('POST', `/api/jobs/${job}/edits`, edit([addRow('c1', null, row)]))).status).toBe(200);
	const wrong = setCell('c1', 'note', `other ${typedMark}`, typedMark);
	expect((await ask('POST', `/api/jobs/${job}/edits`, edit([wrong], typedMark))).status).toBe(409);
	await ask('POST', `/api/jobs/${job}/edits`, `{"${typedMark}":`);
	await ask('POST', `/api/jobs/${job}/edits`, { [typedMark]: [typedMark], __proto__: { x: typedMark } });
	await ask('POST', '/api/views', { name: `View ${typedMark}`, view: usualView });
	await ask('POST', `/api/jobs/${job}/bids`, { title: `Bid ${typedMark}` });
	for (const [name, content] of [
		[`${typedMark}.csv`, `Mark,Description,Qty shipped\n${typedMark},"Guide, left",1`],
		[`${typedMark}.xlsx`, `PK\u0003\u0004${typedMark}`],
		[`${typedMark}.ifc`, `ISO-10303-21;DATA;#1=IFCDOOR('${typedMark}');`]
	] as const)
		for (const path of ['deliveries', 'schedule/preview', 'model/preview']) {
			const { body, headers } = formWithFile(name, content);
			await ask('POST', `/api/jobs/${job}/${path}`, body, headers);
		}
	await ask('GET', `/jobs/${job}/openings?search=${typedMark}`, undefined, { accept: 'text/html' });
	await ask('GET', `/api/jobs/${typedMark}/history?row=${typedMark}`);
	await ask('GET', `/${typedMark}`, undefined, { origin: `https://${typedMark}.example` });
	await ask('POST', '/api/jobs', {}, { origin: `https://${typedMark}.example` });
	const { host } = new URL(server.address);
	await sendRaw(
		server,
		`GET /${typedMark} HTTP/1.1\r\nhost: ${host}\r\nx: ${typedMark.repeat(4000)}\r\n\r\n`
	);
	await sendRaw(server, `${typedMark}\r\n\r\n`);
	await sendRaw(
		server,
		`POST /api/jobs HTTP/1.1\r\nhost: ${host}\r\ncookie: ${cookie}\r\ncontent-length: 900\r\n\r\n{"name":"${typedMark}`
	);
	return { office: opened, secrets, job };
}

/** The same again, while the database fails. */
async function askWhileFailing(server: RunningServer, cookie: string, job: string): Promise<number[]> {
	const ask = async (method: string, path: string, body?: unknown): Promise<number> =>
		(await server.ask(method, path, body, { cookie })).status;
	return [
		await ask('POST', '/api/views', { name: `Other ${typedMark}`, view: usualView }),
		await ask('POST', `/api/jobs/${job}/edits`, edit([setCell('c1', 'phase', null, typedMark)], typedMark)),
		await ask('POST', '/api/sign-in', { email: `ivo-${typedMark}@reed.example`, password }),
		await ask('POST', '/api/people/invitations', {
			name: typedMark,
			email: `teal-${typedMark}@reed.example`,
			roles: ['installer']
		})
	];
}

function expectQuiet(output: string, { office: { owner, people }, secrets }: Driven): void {
	expect(output).toMatch(/ready/u);
	const handed = [owner, ...people].flatMap((who) => [who.email, who.password, who.name, who.cookie]);
	for (const secret of [typedMark, ...secrets, ...handed]) expect(output).not.toContain(secret);
}

/** Without these nothing is found by what is asked above. */
const tables = ['sheet_view', 'history', 'credential', 'invitation'];

describe('the log', () => {
	it('of a server whose tables are taken away names the failures, and nothing that was typed', async () => {
		const folder = temporaryFolder();
		const driven = await drive(folder);
		const { server, owner } = driven.office;
		const database = new DatabaseSync(join(folder, 'coilwright.sqlite'), { timeout: 10_000 });
		for (const table of tables) database.exec(`alter table ${table} rename to ${table}_${typedMark}`);
		database.close();
		expect(await askWhileFailing(server, owner.cookie, driven.job)).toEqual([500, 500, 500, 500]);
		await server.end('SIGTERM');
		expect(server.output().match(/^failure [0-9a-f]{8} at /gmu)).toHaveLength(4);
		expectQuiet(server.output(), driven);
	});

	it.runIf(postgresIsThere)('of a server on PostgreSQL, too, and when that is gone', async () => {
		const cluster = await startCluster({ durable: false, settings: [] });
		onTestFinished(() => cluster.close());
		const place = cluster.url('postgres');
		const driven = await drive(place);
		const { server, owner, environment } = driven.office;
		const client = new pg.Client({ connectionString: place });
		await client.connect();
		for (const table of tables) await client.query(`alter table ${table} rename to ${table}_${typedMark}`);
		expect(await askWhileFailing(server, owner.cookie, driven.job)).toEqual([500, 500, 500, 500]);
		for (const table of tables) await client.query(`alter table ${table}_${typedMark} rename to ${table}`);
		await client.end();
		await cluster.stop('immediate');
		expect(await askWhileFailing(server, owner.cookie, driven.job)).toEqual([503, 503, 503, 503]);
		const { password: ofDatabase } = new URL(place);
		const second = await startServer(environment).then(
			() => 'it started',
			(error: unknown) => String(error)
		);
		expect(second).toContain('does not answer');
		await server.end('SIGTERM');
		expect(server.output()).toMatch(/^failure [0-9a-f]{8} at /mu);
		const output = `${server.output()}${second}`;
		expectQuiet(output, driven);
		if (ofDatabase !== '') expect(output).not.toContain(ofDatabase);
	});
});
