/** Counts and photos from a phone: nothing doubled, nothing lost, and everything wrong told in words. */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { roleIds } from '../../src/lib/changes/roles.ts';
import type { SentCount } from '../../src/lib/delivery/count.ts';
import type { Actor } from '../../src/lib/server/identity/actor.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import { photoLimits } from '../../src/lib/server/operations/send-photo.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { databases, temporaryFolder } from './databases.ts';
import { office } from './office.ts';
import { refusal, temporaryServices, value } from './services.ts';

const wren: Actor = { id: 'wren', companyId: 'local', name: 'Wren', roles: roleIds };
const teal: Actor = { id: 'teal', companyId: 'local', name: 'Teal', roles: ['installer'] };
const packingList = new Uint8Array(readFileSync(join('fixtures', 'deliveries', 'saltmarsh-truck-2.csv')));

interface Truck {
	readonly services: Services;
	readonly job: string;
	readonly delivery: string;
}

async function truck(place: string): Promise<Truck> {
	const services = await temporaryServices(place);
	const { id: job } = value(
		await operations.createJob(wren, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
	);
	const said = (field: string): string | null => (field === 'ours' ? 'yes' : null);
	const form = { name: 'truck 2.csv', bytes: packingList, field: said };
	const { id: delivery } = value(await operations.checkDelivery(wren, services, job, form));
	return { services, job, delivery };
}

let made = 0;
const count = (delivery: string, line: number | null, more: Partial<SentCount> = {}): SentCount => ({
	countId: `phone-1-${String(++made).padStart(6, '0')}`,
	deliveryId: delivery,
	line,
	crate: null,
	description: line === null ? 'Chain hoist' : '',
	amounts: { whole: '1', damaged: '0', wrong: '0' },
	note: '',
	photoIds: [],
	countedAt: '2026-12-01T09:30:00.000Z',
	...more
});

/** One pixel: a real baseline JPEG. */
const jpeg = new Uint8Array(
	Buffer.from(
		'/9j/4AAQSkZJRgABAQEASABIAAD/2wBDAP//////////////////////////////////////////////////////////////////////////////////////wAALCAABAAEBAREA/8QAFAABAAAAAAAAAAAAAAAAAAAAA//EABQQAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQEAAD8AN//Z',
		'base64'
	)
);
const photo = (photoId: string, bytes: Uint8Array = jpeg, name = 'photo.jpg') => ({
	name,
	bytes,
	field: (field: string) => (field === 'photoId' ? photoId : null)
});

const cannotBe: readonly (readonly [Readonly<Record<string, unknown>>, number, string])[] = [
	[{ amounts: { whole: '-3', damaged: '0', wrong: '0' } }, 422, 'a count is 0 or more'],
	[{ amounts: { whole: '1.5', damaged: '0', wrong: '0' } }, 422, 'whole pieces'],
	[{ amounts: { whole: '0', damaged: '1e9', wrong: '0' } }, 422, 'not a number'],
	[{ amounts: { whole: '9999999', damaged: '0', wrong: '0' } }, 422, 'more than any truck'],
	[{ amounts: { whole: 3, damaged: '0', wrong: '0' } }, 422, 'counts.1.amounts.whole'],
	[{ line: 4711 }, 422, 'has no line 4711'],
	[{ line: null, description: ' ' }, 422, 'Say what it is'],
	[{ deliveryId: 'another' }, 404, 'no such packing list'],
	[{ countedAt: 'yesterday' }, 422, 'A moment is written'],
	[{ countedAt: '1970-01-01T00:00:00Z' }, 422, 'another century'],
	[{ note: 'x'.repeat(2001) }, 422, 'at most 2000 characters'],
	[{ by: 'Somebody else' }, 422, 'not as expected'],
	[{ countId: '../../x' }, 422, 'An id is']
];

describe.each(databases)('$name', ({ place }) => {
	it('keeps counts with who and when, the latest standing, and writes them down', async () => {
		const { services, job, delivery } = await truck(await place());
		const sheet = value(await operations.readCountSheet(teal, services, job, delivery));
		const [first, second] = sheet.lines;
		if (!first || !second) throw new Error('the list has no lines');
		const sent = [
			count(delivery, first.line, {
				amounts: { whole: '0', damaged: '1', wrong: '0' },
				note: 'bent  at\nthe foot'
			}),
			count(delivery, second.line, { amounts: { whole: '02', damaged: '0', wrong: '0' } }),
			count(delivery, null, { crate: '2' })
		];
		const taken = value(await operations.sendCounts(teal, services, job, { counts: sent }));
		expect(taken).toEqual({ taken: sent.map(({ countId }) => countId), known: [] });
		const again = count(delivery, first.line, { countedAt: '2026-12-01T10:30:00+01:00' });
		const later = count(delivery, first.line, { countedAt: '2026-12-01T11:30:00+01:00' });
		value(await operations.sendCounts(wren, services, job, { counts: [later] }));
		value(await operations.sendCounts(wren, services, job, { counts: [again] }));

		const { counts } = value(await operations.readCountSheet(teal, services, job, delivery));
		expect(counts.map(({ by, countedAt, line }) => [by, countedAt, line])).toEqual([
			['Teal', '2026-12-01T09:30:00.000Z', first.line],
			['Teal', '2026-12-01T09:30:00.000Z', second.line],
			['Teal', '2026-12-01T09:30:00.000Z', null],
			['Wren', '2026-12-01T09:30:00.000Z', first.line],
			['Wren', '2026-12-01T10:30:00.000Z', first.line]
		]);
		expect(counts[0]?.note).toBe('bent at the foot');
		expect(counts[1]?.amounts.whole).toBe('2');

		const { entries } = value(await operations.readHistory(wren, services, job));
		const told = entries.filter(({ kind }) => kind === 'count');
		// One entry for what was sent at once.
		expect(told.map(({ title, actorName }) => [title, actorName])).toEqual([
			['Count truck 2.csv: 1 count', 'Wren'],
			['Count truck 2.csv: 1 count', 'Wren'],
			['Count truck 2.csv: 3 counts', 'Teal']
		]);
		expect(told[2]?.records[0]).toMatchObject({
			record: 'Count',
			field: 'Counted',
			before: null,
			after: '1 damaged; “bent at the foot”'
		});
		expect(told[1]?.records[0]).toMatchObject({ before: '1 damaged; “bent at the foot”', after: '1 whole' });
		// It was counted before the one that stands.
		expect(told[0]?.records[0]).toMatchObject({ field: 'Counted before that', before: null });
	});

	it('takes a count that is sent twice once, also at the same moment', async () => {
		const { services, job, delivery } = await truck(await place());
		const one = count(delivery, 5);
		const outcomes = await Promise.all(
			Array.from({ length: 6 }, () => operations.sendCounts(teal, services, job, { counts: [one, one] }))
		);
		const answers = outcomes.map(value);
		expect(answers.flatMap(({ taken }) => taken)).toEqual([one.countId]);
		expect(answers.flatMap(({ known }) => known)).toHaveLength(11);
		const { counts } = value(await operations.readCountSheet(teal, services, job, delivery));
		expect(counts).toHaveLength(1);
		const { entries } = value(await operations.readHistory(wren, services, job));
		expect(entries.filter(({ kind }) => kind === 'count')).toHaveLength(1);
	});

	it('refuses the same id with other content, and what came first stays', async () => {
		const { services, job, delivery } = await truck(await place());
		const one = count(delivery, 5);
		value(await operations.sendCounts(teal, services, job, { counts: [one] }));
		const other = { ...one, amounts: { whole: '7', damaged: '0', wrong: '0' } };
		const fresh = count(delivery, 6);
		const refused = refusal(await operations.sendCounts(teal, services, job, { counts: [fresh, other] }));
		expect(refused).toMatchObject({ status: 409, row: one.countId });
		expect(refused.message).toContain('said 1 whole');
		// All or nothing.
		const { counts } = value(await operations.readCountSheet(teal, services, job, delivery));
		expect(counts.map(({ amounts }) => amounts.whole)).toEqual(['1']);
	});

	it('refuses what can’t be in words, and stores nothing of it', async () => {
		const { services, job, delivery } = await truck(await place());
		for (const [wrong, status, words] of cannotBe) {
			const counts = [count(delivery, 5), { ...count(delivery, 6), ...wrong }];
			const refused = refusal(await operations.sendCounts(teal, services, job, { counts }));
			expect([refused.status, refused.message]).toEqual([status, expect.stringContaining(words)]);
			expect(value(await operations.readCountSheet(teal, services, job, delivery)).counts).toEqual([]);
		}
	});

	it('keeps what is counted of a list that somebody took out meanwhile', async () => {
		const { services, job, delivery } = await truck(await place());
		value(await operations.removeDelivery(wren, services, job, delivery));
		value(await operations.sendCounts(teal, services, job, { counts: [count(delivery, 5)] }));
		const sheet = value(await operations.readCountSheet(teal, services, job, delivery));
		expect([sheet.removed, sheet.counts.length]).toEqual([true, 1]);
		expect(value(await operations.readSite(teal, services, job)).trucks).toEqual([]);
	});

	it('closes a truck when every line is counted, and opens it again', async () => {
		const { services, job, delivery } = await truck(await place());
		const finish = (finished: boolean) =>
			operations.finishCount(teal, services, job, delivery, { finished, at: '2026-12-01T12:00:00Z' });
		const { lines } = value(await operations.readCountSheet(teal, services, job, delivery));
		const counts = lines.map(({ line }) => count(delivery, line));
		value(await operations.sendCounts(teal, services, job, { counts: counts.slice(1) }));
		expect(refusal(await finish(true)).message).toBe(
			`Line ${lines[0]?.line ?? ''} of truck 2.csv is not counted. Count it first; what did not come is 0.`
		);
		value(await operations.sendCounts(teal, services, job, { counts: counts.slice(0, 1) }));
		const finished = { by: 'Teal', at: '2026-12-01T12:00:00.000Z' };
		expect(value(await finish(true))).toEqual({ finished });
		// Sent twice: it is counted once.
		expect(value(await finish(true))).toEqual({ finished });
		const [standing] = value(await operations.readSite(teal, services, job)).trucks;
		expect(standing).toMatchObject({ toCount: lines.length, counted: lines.length, finished });
		expect(value(await finish(false))).toEqual({ finished: null });
		const { entries } = value(await operations.readHistory(wren, services, job));
		expect(entries.slice(0, 2).map(({ title }) => title)).toEqual([
			'Open the count of truck 2.csv again',
			'truck 2.csv is counted'
		]);
	});

	it('keeps photos as they came, once, and tells them by what is in them', async () => {
		const { services, job, delivery } = await truck(await place());
		const counted = count(delivery, 5, { photoIds: ['photo-0001', 'photo-0002'] });
		value(await operations.sendCounts(teal, services, job, { counts: [counted] }));
		const send = (form: ReturnType<typeof photo>) => operations.sendPhoto(teal, services, job, form);
		expect(value(await send(photo('photo-0001')))).toEqual({ photoId: 'photo-0001', known: false });
		expect(value(await send(photo('photo-0001')))).toEqual({ photoId: 'photo-0001', known: true });
		const kept = value(await operations.readPhoto(teal, services, job, 'photo-0001'));
		expect([kept.mediaType, Buffer.from(kept.bytes).equals(Buffer.from(jpeg))]).toEqual(['image/jpeg', true]);
		// The count was there before its photos; one of them is still on its way.
		const sheet = value(await operations.readCountSheet(teal, services, job, delivery));
		expect(sheet.photos).toEqual(['photo-0001']);

		const other = jpeg.with(jpeg.length - 3, 1);
		expect(refusal(await send(photo('photo-0001', other))).status).toBe(409);
		const page = new TextEncoder().encode('<html><script>alert(1)</script>');
		expect(refusal(await send(photo('photo-0009', page, 'photo.jpg')))).toMatchObject({
			status: 422,
			message: expect.stringContaining('JPEG, PNG or WebP') as string
		});
		expect(refusal(await send(photo('no', jpeg))).status).toBe(422);
		expect(refusal(await operations.readPhoto(teal, services, job, 'photo-0002')).status).toBe(404);
	});

	it('says when a job has as many photos as it may', async () => {
		const { services, job } = await truck(await place());
		const key = { companyId: 'local', jobId: job };
		for (let i = 0; i < photoLimits.count; i++)
			await services.storage.photos.add(
				key,
				{ photoId: `earlier-${i}`, mediaType: 'image/jpeg', bytes: jpeg, digest: String(i) },
				wren,
				services.now()
			);
		const refused = refusal(await operations.sendPhoto(teal, services, job, photo('photo-0001')));
		expect(refused.message).toContain('500 photos, the most it may have');
		expect(refused.message).toContain('The count is kept');
	});

	it('puts the damage notes on paper: each once, with the last day to tell and room to sign', async () => {
		const { services, job, delivery } = await truck(await place());
		const counts = [
			count(delivery, 5, {
				amounts: { whole: '0', damaged: '1', wrong: '0' },
				note: 'dent at mid-span',
				photoIds: ['photo-0001']
			}),
			count(delivery, 6)
		];
		value(await operations.sendCounts(teal, services, job, { counts }));
		value(await operations.sendPhoto(teal, services, job, photo('photo-0001')));
		const write = (query: unknown) => operations.writeDamageNotes(teal, services, job, delivery, query);
		const { content } = value(await write({ delivered: '2026-12-28', paper: 'a4' }));
		const file = join(temporaryFolder(), 'notes.pdf');
		writeFileSync(file, content);
		const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
		for (const words of [
			'1 damaged',
			'dent at mid-span',
			'Delivered on 2026-12-28',
			'2027-01-02',
			'Driver: name and signature',
			'Seal number',
			'Do not sign it as clear'
		])
			expect(text.replace(/\s+/gu, ' ')).toContain(words);
		const images = execFileSync('pdfimages', ['-list', file], { encoding: 'utf8' });
		expect(images).toContain('jpeg');
		expect(refusal(await write({ delivered: '2026-02-30' })).message).toContain('2026-12-01');
	});

	it('over HTTP: a photo of 40 MB is told its size and what to do, and a page never runs from one', async () => {
		const { server, people } = await office(await place(), 'estimator', 'installer');
		const [estimator, installer] = people;
		if (!estimator || !installer) throw new Error('somebody is missing');
		const job = (
			JSON.parse(
				(await estimator.ask('POST', '/api/jobs', { name: 'Saltmarsh Pier', measures: 'imperial' })).text
			) as { id: string }
		).id;
		const post = async (bytes: Uint8Array): Promise<Response> => {
			const form = new FormData();
			form.set('photoId', 'photo-0001');
			form.set('file', new File([new Uint8Array(bytes)], 'IMG_0042.jpg', { type: 'text/html' }));
			return fetch(`${server.address}/api/jobs/${job}/photos`, {
				method: 'POST',
				body: form,
				headers: { cookie: installer.cookie, origin: server.address }
			});
		};
		const large = new Uint8Array(40 * 1024 * 1024);
		large.set(jpeg);
		const refused = await post(large);
		expect(refused.status).toBe(413);
		const { message } = (await refused.json()) as { message: string };
		expect(message).toMatch(
			/^IMG_0042\.jpg is 40\.0 MB large; .* at most 6 MB\. Nothing was stored\. Take it again/u
		);

		expect((await post(jpeg)).status).toBe(200);
		const shown = await fetch(`${server.address}/api/jobs/${job}/photos/photo-0001`, {
			headers: { cookie: installer.cookie }
		});
		expect(Object.fromEntries(shown.headers)).toMatchObject({
			'content-type': 'image/jpeg',
			'content-disposition': 'inline; filename="photo.jpeg"',
			'x-content-type-options': 'nosniff',
			'cache-control': 'no-store'
		});
		expect(shown.headers.get('content-security-policy')).toContain("default-src 'none'");
	});
});
