/**
 * A thousand hostile or malformed requests and files: none is answered with 500, the server stays alive, and its memory
 * comes back to where it was. The same ones every time.
 */
import { existsSync, readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { workbookFile, zip } from '../exchange/zip-writer.ts';
import { startServer, type RunningServer } from './built-server.ts';
import { databases, temporaryFolder } from './databases.ts';
import { office } from './office.ts';
import { allRoutes } from './routes.ts';
import { addRow, counter, edit } from './services.ts';

const megabyte = 1024 * 1024;
const requests = 1000;
/** Of memory held after a first round of as many. */
const mostMemory = 1.5;

interface Hostile {
	readonly method: string;
	readonly path: string;
	readonly headers: readonly (readonly [string, string])[];
	readonly body: Buffer;
	/** Bytes of the body that are really sent; the rest never comes. */
	readonly cut: number | null;
}

/** Sends the bytes as they are. @returns the status, or null when the connection was ended without one. */
function send(server: RunningServer, cookie: string | null, hostile: Hostile): Promise<number | null> {
	const { hostname, port, host } = new URL(server.address);
	const { method, path, headers, body, cut } = hostile;
	const named = new Set(headers.map(([name]) => name.toLowerCase()));
	const usual: (readonly [string, string])[] = [
		['host', host],
		['origin', server.address],
		['connection', 'close'],
		...(cookie === null ? [] : [['cookie', cookie] as const]),
		...(body.length > 0 ? [['content-length', String(body.length)] as const] : [])
	];
	const all = [...usual.filter(([name]) => !named.has(name)), ...headers];
	const head = `${method} ${path} HTTP/1.1\r\n${all.map(([name, value]) => `${name}: ${value}\r\n`).join('')}\r\n`;
	return new Promise((resolve, reject) => {
		const socket = connect(Number(port), hostname);
		let text = '';
		socket.setTimeout(60_000, () =>
			socket.destroy(new Error(`no answer to ${method} ${path.slice(0, 200)}`))
		);
		socket.on('data', (chunk) => {
			if (text.length < 500) text += chunk.toString('latin1');
		});
		socket.on('error', (error: NodeJS.ErrnoException) => {
			// It may close before all was sent, but has to be there.
			if (error.code === 'EPIPE' || error.code === 'ECONNRESET') return;
			reject(error);
		});
		socket.on('close', () => {
			// A provisional answer (100) comes before the real one.
			const status = /^(?:HTTP\/1\.1 1\d\d [^\r\n]*\r\n\r\n)*HTTP\/1\.1 (\d{3}) /u.exec(text)?.[1];
			resolve(status === undefined ? null : Number(status));
		});
		socket.write(Buffer.from(head, 'latin1'));
		if (cut === null) socket.write(body);
		else {
			socket.write(body.subarray(0, cut));
			setTimeout(() => socket.end(), 20);
		}
	});
}

const oneOf = <T>(...values: readonly T[]) => fc.constantFrom(...values);

const texts = fc.oneof(
	oneOf(
		'',
		'__proto__',
		'constructor',
		'\u0000',
		'\ud800',
		'\u202e',
		'..',
		'../../../../etc/passwd',
		'%00',
		"'; drop table job; --",
		'<script>alert(1)</script>',
		'=cmd()',
		'1e999',
		'-0',
		'NaN',
		'9'.repeat(400),
		'a'.repeat(70_000)
	),
	fc.string({ unit: 'binary', maxLength: 60 })
);
const numbers = oneOf(0, -1, 1e308, 2 ** 53, -(2 ** 63), 0.1, 1e-320, 2_147_483_648);
const scalars = fc.oneof(texts, numbers, oneOf(true, false, null));
const values: fc.Arbitrary<unknown> = fc.letrec<{ value: unknown }>((tie) => ({
	value: fc.oneof(
		{ depthSize: 'small', withCrossShrink: true },
		scalars,
		fc.array(tie('value'), { maxLength: 4 }),
		fc.dictionary(fc.oneof(texts, oneOf('id', 'name', 'changes', 'kind', 'view', 'rows')), tie('value'), {
			maxKeys: 4
		})
	)
})).value;

/** Right bodies of this program, to spoil. */
const rightBodies: readonly unknown[] = [
	edit([addRow('k1', null, counter('K-1'))]),
	edit([{ kind: 'setCell', row: 'c1', field: 'note', before: null, after: 'x' }]),
	{ name: 'Kelpgate', measures: 'metric' },
	{ deleted: false },
	{ what: 'schedule', paper: 'a4' },
	{ what: 'opening', rows: ['c1'], columns: [] },
	{ name: 'View', view: { side: 'both' }, replace: true },
	{ title: 'Bid' },
	{ first: '1', second: 'now' },
	{ revision: 1 },
	{ email: 'wren@tern.example', password: 'a long enough password' }
];

/** Puts something else somewhere in it. */
function spoil(value: unknown, path: readonly number[], other: unknown): unknown {
	const [at, ...rest] = path;
	if (at === undefined || value === null || typeof value !== 'object') return other;
	const entries = Object.entries(value);
	if (entries.length === 0) return other;
	const [name] = entries[at % entries.length] ?? [''];
	const spoiled = entries.map(([key, inner]: [string, unknown]): [string, unknown] => [
		key,
		key === name ? spoil(inner, rest, other) : inner
	]);
	if (Array.isArray(value)) return spoiled.map(([, inner]) => inner);
	return Object.fromEntries(spoiled);
}

const jsonTexts = fc.oneof(
	{
		weight: 4,
		arbitrary: fc
			.tuple(oneOf(...rightBodies), fc.array(fc.nat(9), { maxLength: 5 }), values)
			.map(([right, path, other]) => JSON.stringify(spoil(right, path, other)))
	},
	{ weight: 2, arbitrary: values.map((value) => JSON.stringify(value)) },
	{
		weight: 1,
		arbitrary: oneOf(
			'',
			'{',
			'nul',
			'[1,]',
			'['.repeat(100_000),
			`${'['.repeat(50_000)}${']'.repeat(50_000)}`,
			`${'{"a":'.repeat(20_000)}1${'}'.repeat(20_000)}`,
			`{"a":${'9'.repeat(100_000)}}`,
			'{"__proto__":{"roles":["owner"]},"constructor":{"prototype":{"x":1}}}',
			'{"id":"x","id":"y"}',
			'"\\ud800"',
			'{"name":"\\u0000","measures":"metric"}',
			`{"name":"${'n'.repeat(2 * megabyte)}"}`
		)
	}
);

const fixture = (...path: string[]): Buffer => readFileSync(join('fixtures', ...path));
const entities =
	'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "haha"><!ENTITY b "&a;&a;&a;&a;&a;&a;"><!ENTITY c SYSTEM "file:///etc/passwd">]><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>&b;&c;</t></is></c></row></sheetData></worksheet>';
const files: readonly Buffer[] = [
	fixture('schedules', 'saltmarsh-pier.xlsx'),
	fixture('schedules', 'small', 'byte-order-mark.csv'),
	fixture('schedules', 'small', 'old-workbook.xls'),
	fixture('deliveries', 'saltmarsh-truck-2.csv'),
	fixture('models', 'market-hall-feet.ifc'),
	fixture('models', 'ferry-terminal-metres.ifc'),
	workbookFile({ sheetXml: Buffer.alloc(20 * megabyte, 0x20) }),
	workbookFile({ sheetXml: entities }),
	workbookFile({ sheetName: '__proto__' }),
	zip([{ name: '../../x', content: 'x' }]),
	zip([{ name: 'xl/workbook.xml', content: entities, declared: 4_000_000_000 }]),
	Buffer.alloc(0),
	Buffer.alloc(3 * megabyte, 0x41),
	Buffer.from('\ufeffMark,Width\r\n"C-1,"'),
	Buffer.from('\u0000\u0001\u0002'),
	Buffer.from("ISO-10303-21;\nHEADER;\nDATA;\n#1=IFCDOOR('a',$,$,$,$,$,$,$,1E999,-1.,$);\n#1=#1;\n"),
	Buffer.from(`ISO-10303-21;DATA;#1=${'('.repeat(50_000)};`),
	Buffer.from(entities)
];
/** A file as it is, cut off, or with bytes of it changed. */
const spoiledFiles = fc
	.tuple(
		oneOf(...files),
		fc.array(fc.tuple(fc.nat(), fc.nat(255)), { maxLength: 8 }),
		fc.option(fc.nat(), { freq: 4 })
	)
	.map(([file, flips, end]) => {
		const bytes = Buffer.from(file);
		for (const [at, byte] of flips) if (bytes.length > 0) bytes[at % bytes.length] = byte;
		return end === null ? bytes : bytes.subarray(0, end % (bytes.length + 1));
	});

const boundary = 'hostile';
const multipart = fc
	.record({
		file: spoiledFiles,
		name: fc.oneof(texts, oneOf('pier.xlsx', 'truck.csv', 'hall.ifc')),
		field: oneOf('file', 'file', 'file', 'other', '__proto__'),
		extra: fc.dictionary(
			oneOf('editId', 'choice', 'mapping', 'seen', 'chosen', 'priced', 'answers', '__proto__'),
			jsonTexts,
			{ maxKeys: 3 }
		),
		end: oneOf('--\r\n', '--\r\n', '--\r\n', '', '\r\n')
	})
	.map(({ file, name, field, extra, end }) =>
		Buffer.concat([
			...Object.entries(extra).map(([key, text]) =>
				Buffer.from(`--${boundary}\r\ncontent-disposition: form-data; name="${key}"\r\n\r\n${text}\r\n`)
			),
			Buffer.from(
				`--${boundary}\r\ncontent-disposition: form-data; name="${field}"; filename="${name}"\r\n\r\n`
			),
			file,
			Buffer.from(`\r\n--${boundary}${end}`)
		])
	);

const bodies = fc.oneof(
	{ weight: 5, arbitrary: jsonTexts.map((text) => ({ type: 'application/json', body: Buffer.from(text) })) },
	{
		weight: 5,
		arbitrary: multipart.map((body) => ({ type: `multipart/form-data; boundary=${boundary}`, body }))
	},
	{
		weight: 1,
		arbitrary: fc
			.tuple(
				oneOf(
					'',
					'text/plain',
					'application/x-www-form-urlencoded',
					'multipart/form-data',
					'multipart/form-data; boundary=',
					`multipart/form-data; boundary=${'b'.repeat(5000)}`,
					'application/json; charset=utf-16'
				),
				fc.uint8Array({ maxLength: 400 })
			)
			.map(([type, bytes]) => ({ type, body: Buffer.from(bytes) }))
	}
);

const extraHeaders = fc.array(
	fc.oneof(
		oneOf(
			['accept', '*/*;q=x'] as const,
			['accept', 'text/html'] as const,
			['accept-language', 'x'.repeat(9000)] as const,
			['cookie', `a=${'b'.repeat(4000)}; =; ;;; __proto__=1`] as const,
			['content-encoding', 'gzip'] as const,
			['transfer-encoding', 'chunked'] as const,
			['content-length', '-1'] as const,
			['content-length', '99999999999999999999'] as const,
			['expect', '100-continue'] as const,
			['range', 'bytes=0-,5-1,-9999999999'] as const,
			['if-none-match', '"'.repeat(2000)] as const,
			['last-event-id', '\u00ff\u00fe'] as const,
			['host', 'evil.example'] as const,
			['host', ''] as const,
			['origin', 'null'] as const,
			['x-forwarded-for', "' or 1=1"] as const,
			['x-sveltekit-action', 'true'] as const,
			['x-huge', 'h'.repeat(20_000)] as const,
			['authorization', 'Basic \u00e4\u00f6'] as const
		)
	),
	{ maxLength: 1 }
);

const routes = allRoutes();
/** A request for a server with this job; every address of the program, and some that are none. */
const hostileRequests = (job: string, signedIn: boolean): fc.Arbitrary<Hostile> => {
	// Those that end the person's own session would leave nothing to be refused after.
	const open = routes.filter(({ route }) => !signedIn || !/^\/api\/(?:sign-out|account\/)/u.test(route));
	const parameter = fc.oneof(
		{ weight: 6, arbitrary: fc.constant(job) },
		{ weight: 1, arbitrary: oneOf('c1', '1', 'x') },
		{ weight: 2, arbitrary: texts.map((text) => encodeURIComponent(text.toWellFormed())) }
	);
	const inTree = fc.tuple(oneOf(...open), parameter, parameter).map(([{ route, methods }, first, second]) => {
		let at = 0;
		return { path: route.replaceAll(/\[[^\]]+\]/gu, () => (at++ === 0 ? first : second)), methods };
	});
	const outside = oneOf(
		'/..%2f..%2f..%2fetc/passwd',
		'/%00',
		'/%ff%fe',
		'/%',
		'//evil.example/',
		'/_app/../../package.json',
		'/_app/immutable/%2e%2e/%2e%2e/server/index.js',
		`/${'a'.repeat(9000)}`,
		'/jobs/%E0%A4%A',
		'*',
		'http://evil.example/',
		'/__data.json',
		'/shop-book/__data.json?x-sveltekit-invalidated=zzz',
		'/_app/version.json'
	).map((path) => ({ path, methods: ['GET', 'POST'] }));
	const query = fc.oneof(
		fc.constant(''),
		fc
			.array(
				fc.tuple(
					oneOf(
						'what',
						'paper',
						'rows',
						'columns',
						'row',
						'id',
						'as',
						'before',
						'most',
						'from',
						'to',
						'first',
						'second',
						'until',
						'__proto__'
					),
					texts
				),
				{ minLength: 1, maxLength: 3 }
			)
			.map(
				(pairs) =>
					`?${pairs.map(([name, text]) => `${name}=${encodeURIComponent(text.toWellFormed()).slice(0, 6000)}`).join('&')}`
			),
		oneOf('?%', '?%ff=%ff', '?&&&=', '/__data.json')
	);
	return fc
		.record({
			place: fc.oneof({ weight: 9, arbitrary: inTree }, { weight: 1, arbitrary: outside }),
			method: fc.option(
				oneOf('GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE', 'FOO', 'get'),
				{ freq: 4 }
			),
			own: fc.nat(),
			query,
			content: bodies,
			headers: fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: extraHeaders }),
			cut: fc.option(fc.nat(), { freq: 12 })
		})
		.map(({ place: { path, methods }, method, own, query: asked, content, headers, cut }) => {
			const chosen = method === 'FOO' || method === null ? (methods[own % methods.length] ?? 'GET') : method;
			const empty = chosen === 'GET' || chosen === 'HEAD';
			return {
				method: chosen,
				path: `${path}${asked}`,
				headers: [
					...(empty || content.type === '' ? [] : [['content-type', content.type] as const]),
					...headers
				],
				body: empty ? Buffer.alloc(0) : content.body,
				cut: cut === null || empty ? null : cut % (content.body.length + 1)
			};
		});
};

/** MB held by a process; null where the system does not say. */
function memoryOf(pid: number): number | null {
	const status = `/proc/${pid}/status`;
	if (!existsSync(status)) return null;
	const kilobytes = /^VmRSS:\s+(\d+) kB$/mu.exec(readFileSync(status, 'utf8'))?.[1];
	return kilobytes === undefined ? null : Number(kilobytes) / 1024;
}

/** @param cookies of the people who send, in turn; none where nobody signs in */
async function bombard(
	server: RunningServer,
	job: string,
	cookies: readonly string[],
	ask: RunningServer['ask']
): Promise<void> {
	let sent = 0;
	const pid = server.process.pid ?? 0;
	const statuses = new Map<string, number>();
	const run = (count: number, seed: number): Promise<void> =>
		fc.assert(
			fc.asyncProperty(hostileRequests(job, cookies.length > 0), async (hostile) => {
				const status = await send(server, cookies[sent++ % cookies.length] ?? null, hostile);
				statuses.set(String(status), (statuses.get(String(status)) ?? 0) + 1);
				if (server.process.exitCode !== null) throw new Error(`it ended: ${server.output()}`);
				expect(
					status ?? 0,
					`${hostile.method} ${hostile.path.slice(0, 300)}\n${server.output().slice(-2000)}`
				).toBeLessThan(500);
			}),
			{ numRuns: count, seed, endOnFailure: true }
		);
	await run(requests, 1);
	const before = memoryOf(pid);
	await run(requests, 2);
	console.log(Object.fromEntries([...statuses].sort()));

	// It may have been deleted among all that.
	await ask('PATCH', `/api/jobs/${job}`, { deleted: false });
	const page = await ask('GET', `/jobs/${job}/openings`, undefined, { accept: 'text/html' });
	expect(page.status).toBe(200);
	expect(server.output()).not.toMatch(/^failure /mu);
	if (before === null) return;
	const deadline = Date.now() + 60_000;
	while ((memoryOf(pid) ?? 0) > before * mostMemory && Date.now() < deadline) await wait(500);
	console.log(`memory ${before.toFixed(0)} MB, then ${(memoryOf(pid) ?? 0).toFixed(0)} MB`);
	expect(memoryOf(pid) ?? 0).toBeLessThan(before * mostMemory);
}

/** A job to send them to, with one opening. */
async function jobOn(person: Pick<RunningServer, 'ask'>): Promise<string> {
	const made = await person.ask('POST', '/api/jobs', { name: 'Saltmarsh Pier', measures: 'imperial' });
	const job = String(made.body.id);
	const message = edit([addRow('c1', null, counter('C-1'))]);
	expect((await person.ask('POST', `/api/jobs/${job}/edits`, message)).status).toBe(200);
	return job;
}

describe('hostile requests', () => {
	it('to the person’s own machine', { timeout: 600_000 }, async () => {
		const server = await startServer({ COILWRIGHT_DATA: temporaryFolder() });
		const ask: RunningServer['ask'] = (...asked) => server.ask(...asked);
		await bombard(server, await jobOn(server), [], ask);
	});

	it.each(databases)('by people who have signed in, $name', { timeout: 600_000 }, async ({ place }) => {
		// So many that none of them runs into the limit of files a minute.
		const roles = Array.from({ length: 24 }, () => ['estimator', 'purchasing', 'installer'] as const);
		const { server, owner, people } = await office(await place(), ...roles);
		const ask: RunningServer['ask'] = (...asked) => owner.ask(...asked);
		await bombard(
			server,
			await jobOn(owner),
			people.map(({ cookie }) => cookie),
			ask
		);
	});
});
