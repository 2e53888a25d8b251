import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { createServer } from 'node:net';
import { describe, expect, it, onTestFinished } from 'vitest';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { formWithFile, refusedStart, startServer, type RunningServer } from './built-server.ts';
import { temporaryFolder } from './databases.ts';
import { addRow, counter, edit, setCell, temporaryServices, value } from './services.ts';

async function withJob(
	folder = temporaryFolder()
): Promise<{ server: RunningServer; job: string; folder: string }> {
	const server = await startServer({ COILWRIGHT_DATA: folder });
	const made = await server.ask('POST', '/api/jobs', { name: 'Saltmarsh Pier', measures: 'imperial' });
	expect(made.status).toBe(201);
	return { server, job: String(made.body.id), folder };
}

describe('a server that is killed', () => {
	it('has lost no edit that was answered as saved', async () => {
		const { server, job, folder } = await withJob();
		const answered: { message: ReturnType<typeof edit>; revision: unknown }[] = [];
		const sending = (async () => {
			for (let i = 0; ; i++) {
				const message = edit([addRow(`k${i}`, i === 0 ? null : `k${i - 1}`, counter(`K-${i}`))]);
				const reply = await server.ask('POST', `/api/jobs/${job}/edits`, message);
				expect(reply.status).toBe(200);
				answered.push({ message, revision: reply.body.revision });
			}
		})();
		const cutOff = expect(sending).rejects.toThrow(/ECONNRE|socket hang up/u);
		await new Promise((resolve) => setTimeout(resolve, 700));
		await server.end('SIGKILL');
		await cutOff;
		expect(answered.length).toBeGreaterThan(10);

		const again = await startServer({ COILWRIGHT_DATA: folder });
		const services = await temporaryServices(folder);
		const rows = value(await readOpenings(localActor, services, job)).rows.map(({ id }) => id);
		const asked = answered.map((_, i) => `k${i}`);
		// The one on its way when it was killed may be there too, whole.
		expect(rows.slice(0, asked.length)).toEqual(asked);
		expect(rows.length - asked.length).toBeLessThanOrEqual(1);
		const last = answered.at(-1);
		const repeated = await again.ask('POST', `/api/jobs/${job}/edits`, last?.message);
		expect(repeated.status).toBe(200);
		expect(value(await readOpenings(localActor, services, job)).rows).toHaveLength(rows.length);
		const undone = await again.ask('POST', `/api/jobs/${job}/undo`, {});
		expect(undone.body.removed).toEqual([rows.at(-1)]);
	});
});

describe('a server that is asked to stop', () => {
	it.each(['SIGTERM', 'SIGINT'] as const)('closes its database and ends well on %s', async (signal) => {
		const { server, folder } = await withJob();
		expect(await server.end(signal)).toBe(0);
		// SQLite takes its journal away when the last connection is closed in order.
		expect(existsSync(join(folder, 'coilwright.sqlite'))).toBe(true);
		expect(existsSync(join(folder, 'coilwright.sqlite-wal'))).toBe(false);
	});
});

describe('a server that starts', () => {
	it.each([
		[{ HOST: '0.0.0.0' }, /HOST is 0\.0\.0\.0, so others can come in/u],
		[{ COILWRIGHT_TRUSTED_PROXY: '10.0.0.1' }, /COILWRIGHT_TRUSTED_PROXY is set, so others can come in/u],
		[{ PORT: 'many' }, /PORT is many/u]
	])('refuses %o', async (environment, reason) => {
		const { code, output } = await refusedStart({ COILWRIGHT_DATA: temporaryFolder(), ...environment });
		expect(code).toBe(1);
		expect(output).toMatch(reason);
	});

	it('says so when its port is taken', async () => {
		const holder = createServer().listen(0, '127.0.0.1');
		onTestFinished(() => {
			holder.close();
		});
		await new Promise((resolve) => holder.once('listening', resolve));
		const address = holder.address();
		const port = typeof address === 'object' && address ? String(address.port) : '';
		const { code, output } = await refusedStart({ COILWRIGHT_DATA: temporaryFolder(), PORT: port });
		expect(code).toBe(1);
		expect(output).toContain(`Port ${port} is taken`);
	});

	it('is not changed by what a shell has set for other programs', async () => {
		const server = await startServer({
			COILWRIGHT_DATA: temporaryFolder(),
			ORIGIN: 'https://elsewhere.example',
			HOST_HEADER: 'x-forwarded-host',
			ADDRESS_HEADER: 'x-forwarded-for',
			BODY_SIZE_LIMIT: '1'
		});
		expect((await server.ask('POST', '/api/jobs', { name: 'x', measures: 'metric' })).status).toBe(201);
	});
});

describe('requests', () => {
	it('from elsewhere are refused in words, whatever they ask for', async () => {
		const { server, job } = await withJob();
		const refusals = await Promise.all([
			server.ask('GET', '/', undefined, { host: 'coilwright.example' }),
			server.ask('GET', `/api/jobs/${job}/material-list`, undefined, { host: 'coilwright.example' }),
			server.ask('GET', '/', undefined, { 'x-forwarded-for': '10.0.0.9' }),
			server.ask('GET', '/', undefined, { 'x-coilwright-protocol': 'https', forwarded: 'for=10.0.0.9' }),
			server.ask('POST', '/api/jobs', { name: 'x', measures: 'metric' }, { origin: 'http://evil.example' }),
			server.ask('PATCH', `/api/jobs/${job}`, { deleted: true }, { origin: 'null' }),
			server.ask('DELETE', `/api/jobs/${job}/deliveries/x`, undefined, { origin: '' })
		]);
		for (const { status, body } of refusals) {
			expect(status).toBe(403);
			expect(body.message).toEqual(expect.stringMatching(/^(Coilwright|This (request|change)) .*\.$/u));
		}
		expect((await server.ask('GET', '/', undefined, { 'x-coilwright-protocol': 'https' })).status).toBe(200);
	});

	it('are answered with headers that keep a browser to what was meant', async () => {
		const { server, job } = await withJob();
		for (const path of ['/', `/api/jobs/${job}/material-list`, '/nowhere']) {
			const { headers } = await server.ask('GET', path);
			expect(headers).toMatchObject({
				'x-content-type-options': 'nosniff',
				'x-frame-options': 'DENY',
				'referrer-policy': 'same-origin',
				'cross-origin-opener-policy': 'same-origin'
			});
			expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
			expect(headers['content-security-policy']).not.toMatch(/script-src[^;]*unsafe/u);
		}
	});

	it('that are not right get a reason, and the server lives on', async () => {
		const { server, job } = await withJob();
		const edits = `/api/jobs/${job}/edits`;
		const form = formWithFile('x.csv', 'Mark\n');
		const replies = [
			[422, await server.ask('POST', edits, '{"id": "x", ')],
			[422, await server.ask('POST', edits, new Uint8Array([0xff, 0xfe, 0x00]))],
			[422, await server.ask('POST', edits, {})],
			[422, await server.ask('POST', edits, edit([setCell('no-row', 'mark', null, 'x')]))],
			[404, await server.ask('POST', '/api/jobs/no-such-job/edits', edit([addRow('a', null, {})]))],
			[404, await server.ask('POST', '/api/jobs/..%2f..%2fetc/edits', edit([addRow('a', null, {})]))],
			[422, await server.ask('POST', `/api/jobs/${job}/schedule/preview`, '{}')],
			[
				422,
				await server.ask('POST', `/api/jobs/${job}/schedule/preview`, form.body, {
					'content-type': 'multipart/form-data'
				})
			],
			[404, await server.ask('DELETE', `/api/jobs/${job}/deliveries/none`)]
		] as const;
		for (const [status, reply] of replies) {
			expect([reply.status, reply.text]).toEqual([status, reply.text]);
			expect(reply.body.message).toEqual(expect.any(String));
		}
		expect((await server.ask('GET', '/')).status).toBe(200);
	});

	it('with a file of 50 MB are refused by the name of the file, and the server lives on', async () => {
		const { server, job } = await withJob();
		const { body, headers } = formWithFile('pier schedule.xlsx', new Uint8Array(50 * 1024 * 1024));
		for (const path of ['schedule/preview', 'deliveries']) {
			const reply = await server.ask('POST', `/api/jobs/${job}/${path}`, body, headers);
			expect(reply.status).toBe(413);
			expect(reply.body.message).toBe(
				'pier schedule.xlsx is 50.0 MB large; a file may have at most 20 MB. Nothing was stored.'
			);
		}
		const large = await server.ask('POST', `/api/jobs/${job}/edits`, 'x'.repeat(21 * 1024 * 1024));
		expect([large.status, large.body.message]).toEqual([413, expect.stringContaining('21.0 MB')]);
		expect((await server.ask('GET', '/')).status).toBe(200);
	});

	it('never put what was typed into a page as code, a file name as a path, or either into the log', async () => {
		const { server } = await withJob();
		const name = `</script><script>alert(1)</script>"\r\nset-cookie: a=b; ../../x`;
		const made = await server.ask('POST', '/api/jobs', { name, measures: 'imperial' });
		const job = String(made.body.id);
		for (const path of ['/', `/jobs/${job}/openings`]) {
			const page = await server.ask('GET', path, undefined, { accept: 'text/html' });
			expect(page.status).toBe(200);
			expect(page.text).not.toContain('<script>alert(1)');
		}
		const list = await server.ask('GET', `/api/jobs/${job}/material-list`);
		expect(list.headers['content-disposition']).toBe(
			'attachment; filename="scriptscriptalert(1)script set-cookie ab x material list.csv"'
		);
		expect(list.headers['set-cookie']).toBeUndefined();
		expect(server.output()).not.toContain('alert(1)');
	});
});

describe('the demo jobs', () => {
	it('are there on the first start, and stay deleted when they were deleted', async () => {
		const folder = temporaryFolder();
		const server = await startServer({ COILWRIGHT_DATA: folder });
		const services = await temporaryServices(folder);
		const listed = await services.storage.jobs.list(localActor.companyId);
		expect(listed.map(({ name, measures, demo }) => [name, measures, demo]).sort()).toEqual([
			['Kelpgate Ferry Terminal', 'metric', true],
			['Saltmarsh Pier Market Hall', 'imperial', true]
		]);
		const pier = listed.find(({ measures }) => measures === 'imperial');
		// look.md and the plan of the fixture: 24 marks.
		expect(pier?.marks).toBe(24);
		expect((await server.ask('PATCH', `/api/jobs/${pier?.id ?? ''}`, { deleted: true })).status).toBe(200);
		expect(
			value(
				await applyEdit(
					localActor,
					services,
					listed.find((job) => job.id !== pier?.id)?.id ?? '',
					edit([addRow('mine', null, {})])
				)
			).revision
		).toBe(1);
		await server.end('SIGTERM');

		await startServer({ COILWRIGHT_DATA: folder });
		const after = await services.storage.jobs.list(localActor.companyId);
		expect(after).toHaveLength(2);
		expect(after.find(({ id }) => id === pier?.id)?.deleted).toBe(true);
	});
});
