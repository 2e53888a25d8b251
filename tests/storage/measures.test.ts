/** Field measures from a phone: kept, counted once, withdrawn, held against the drawing, on paper. Readings are invented. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { SentMeasure } from '../../src/lib/changes/measures.ts';
import { roleIds } from '../../src/lib/changes/roles.ts';
import type { FieldReadings } from '../../src/lib/fieldwork/field-measure.ts';
import { inches, nothing, plumb, trueOpening } from '../../src/lib/fieldwork/sample-measures.ts';
import type { Actor } from '../../src/lib/server/identity/actor.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { databases, temporaryFolder } from './databases.ts';
import { addRow, cells, counter, edit, refusal, setCell, temporaryServices, value } from './services.ts';

const wren: Actor = { id: 'wren', companyId: 'local', name: 'Wren', roles: roleIds };
const teal: Actor = { id: 'teal', companyId: 'local', name: 'Teal', roles: ['installer'] };
const dunlin: Actor = { id: 'dunlin', companyId: 'local', name: 'Dunlin', roles: ['installer'] };

/** Two of opening A, 10'-0" × 4'-0", both walls grouted block. */
const asDrawn = trueOpening(120, 48, { left: 'groutedBlock', right: 'groutedBlock' });
/** Its left jamb 3/8 in higher than drawn: 48 3/8, 1/8 beyond the 1/4 that is allowed. */
const higherLeft: FieldReadings = {
	...asDrawn,
	heights: { left: inches(48.375), right: inches(48) },
	diagonals: { rising: inches(Math.hypot(120, 48)), falling: inches(Math.hypot(120, 48.375)) }
};

let made = 0;
const measure = (readings: FieldReadings, more: Partial<SentMeasure> = {}): SentMeasure => ({
	measureId: `phone-${String(++made).padStart(6, '0')}`,
	openingKey: 'c1.1',
	readings,
	note: '',
	measuredAt: '2026-12-01T09:30:00.000Z',
	...more
});

async function site(place: string): Promise<{ services: Services; job: string }> {
	const services = await temporaryServices(place);
	const { id: job } = value(
		await operations.createJob(wren, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
	);
	value(await operations.applyEdit(wren, services, job, edit([addRow('c1', null, counter('C-1'))])));
	return { services, job };
}

describe.each(databases)('$name', ({ place }) => {
	it('lists every opening with its verdict', async () => {
		const { services, job } = await site(await place());
		const hold = setCell('c1', 'hold', null, 'fieldMeasure');
		value(await operations.applyEdit(wren, services, job, edit([hold])));
		const before = value(await operations.readMeasures(teal, services, job));
		expect(
			before.openings.map(({ openingKey, openingId, held, verdict }) => [
				openingKey,
				openingId,
				held,
				verdict
			])
		).toEqual([
			['c1.1', 'C-1.1', true, null],
			['c1.2', 'C-1.2', true, null]
		]);
		value(await operations.saveMeasure(teal, services, job, measure(asDrawn)));
		value(await operations.saveMeasure(teal, services, job, measure(higherLeft, { openingKey: 'c1.2' })));
		const { openings } = value(await operations.readMeasures(teal, services, job));
		expect(openings.map(({ verdict }) => [verdict?.outcome, verdict?.by])).toEqual([
			['agrees', 'Teal'],
			['stop', 'Teal']
		]);
		expect(openings[0]?.verdict?.text).toBe(
			'Everything that was measured is within tolerance of the drawing.'
		);
		expect(openings[1]?.verdict?.text).toContain('Height at the left is 4\'-0 3/8"');
	});

	it('keeps later measures beside earlier ones, the latest counting, and writes them down', async () => {
		const { services, job } = await site(await place());
		const first = measure({ ...nothing, widths: { bottom: inches(120), middle: null, top: null } });
		const later = measure(
			{
				...nothing,
				widths: { bottom: inches(120.25), middle: null, top: null },
				plumb: { left: plumb([4, 0, 0.125]), right: [] }
			},
			{ measuredAt: '2026-12-01T12:30:00+01:00', note: ' tile  taken\noff ' }
		);
		const between = measure(asDrawn, { measuredAt: '2026-12-01T10:00:00Z' });
		value(await operations.saveMeasure(teal, services, job, first));
		value(await operations.saveMeasure(wren, services, job, later));
		// It was on a phone without signal, and arrives last.
		value(await operations.saveMeasure(teal, services, job, between));
		const { measures } = value(await operations.readMeasure(teal, services, job, 'c1.1'));
		expect(
			measures.map(({ by, measuredAt, note, mayWithdraw }) => [by, measuredAt, note, mayWithdraw])
		).toEqual([
			['Teal', '2026-12-01T09:30:00.000Z', '', true],
			['Teal', '2026-12-01T10:00:00.000Z', '', true],
			['Wren', '2026-12-01T11:30:00.000Z', 'tile taken off', false]
		]);
		expect(measures[2]?.readings).toEqual(later.readings);
		const [listed] = value(await operations.readMeasures(teal, services, job)).openings;
		expect(listed?.verdict).toMatchObject({ outcome: 'incomplete', by: 'Wren' });
		const { entries } = value(await operations.readHistory(wren, services, job));
		const told = entries.filter(({ kind }) => kind === 'measure');
		expect(told.map(({ title, actorName }) => [title, actorName])).toEqual([
			['Measure C-1.1', 'Teal'],
			['Measure C-1.1', 'Wren'],
			['Measure C-1.1', 'Teal']
		]);
		expect(told[0]?.records[0]).toMatchObject({ field: 'Readings taken before those', before: null });
		expect(told[1]?.records).toEqual([
			{
				record: 'Measure',
				name: 'C-1.1',
				field: 'Readings',
				before: 'width at the sill 10\'-0"',
				after:
					'width at the sill 10\'-0 1/4"; left jamb at 4" plumb and 1/8" towards the coil side; “tile taken off”'
			}
		]);
	});

	it('takes a measure that is sent twice once, also at the same moment; other content under its id is refused', async () => {
		const { services, job } = await site(await place());
		const one = measure(asDrawn);
		const outcomes = await Promise.all(
			Array.from({ length: 5 }, () => operations.saveMeasure(teal, services, job, one))
		);
		expect(outcomes.map(value).filter(({ known }) => !known)).toHaveLength(1);
		const refused = refusal(
			await operations.saveMeasure(teal, services, job, { ...one, readings: higherLeft })
		);
		expect(refused).toMatchObject({ status: 409 });
		const { measures } = value(await operations.readMeasure(teal, services, job, 'c1.1'));
		expect(measures.map(({ readings }) => readings)).toEqual([asDrawn]);
		const { entries } = value(await operations.readHistory(wren, services, job));
		expect(entries.filter(({ kind }) => kind === 'measure')).toHaveLength(1);
	});

	it('refuses what can’t be in words, and stores nothing', async () => {
		const { services, job } = await site(await place());
		const { widths } = asDrawn;
		const wrongs: readonly (readonly [wrong: object, status: number, words: string])[] = [
			[{ readings: { ...asDrawn, widths: { ...widths, top: -1 } } }, 422, 'width at the head is 0 or less'],
			[{ readings: { ...asDrawn, headroom: -1 } }, 422, 'headroom is less than 0'],
			[{ readings: { ...asDrawn, widths: { ...widths, top: 1.5 } } }, 422, 'whole number of nanometres'],
			[{ readings: { ...asDrawn, widths: { ...widths, top: 2e12 } } }, 422, 'is not a length'],
			[{ readings: { ...asDrawn, widths: { ...widths, top: '120' } } }, 422, 'whole number of nanometres'],
			[{ readings: { ...asDrawn, leftSubstrate: 'cheese' } }, 422, 'is not known; one of'],
			[{ readings: nothing }, 422, 'no reading'],
			[
				{
					readings: {
						...nothing,
						plumb: { left: [{ height: 0, inPlane: null, outOfPlane: null }], right: [] }
					}
				},
				422,
				'no reading'
			],
			[
				{ readings: { ...asDrawn, plumb: { left: [...plumb([4, 0, 0]), ...plumb([4, 1, 0])], right: [] } } },
				422,
				'two plumb readings at one height'
			],
			[{ readings: { ...asDrawn, price: 3 } }, 422, 'not as expected'],
			[{ openingKey: 'c1.3' }, 404, 'no such opening'],
			[{ openingKey: 'c7.1' }, 404, 'no such opening'],
			[{ openingKey: 'nothing' }, 404, 'no such opening'],
			[{ measuredAt: '1970-01-01T00:00:00Z' }, 422, 'another century'],
			[{ measureId: '../../x' }, 422, 'An id is'],
			[{ note: 'x'.repeat(2001) }, 422, 'at most 2000 characters'],
			[{ by: 'Somebody' }, 422, 'not as expected']
		];
		for (const [wrong, status, words] of wrongs) {
			const sent = { ...measure(asDrawn), ...wrong };
			const refused = refusal(await operations.saveMeasure(teal, services, job, sent));
			expect([refused.status, refused.message]).toEqual([status, expect.stringContaining(words)]);
		}
		expect(value(await operations.readMeasure(teal, services, job, 'c1.1')).measures).toEqual([]);
		const { entries } = value(await operations.readHistory(wren, services, job));
		expect(entries.filter(({ kind }) => kind === 'measure')).toEqual([]);
	});

	it('is withdrawn by who took it and by buyers, and can count again', async () => {
		const { services, job } = await site(await place());
		const one = measure(higherLeft);
		value(await operations.saveMeasure(teal, services, job, one));
		const withdraw = (who: Actor, withdrawn: boolean) =>
			operations.withdrawMeasure(who, services, job, one.measureId, { withdrawn });
		expect(refusal(await withdraw(dunlin, true))).toMatchObject({ status: 403 });
		expect(value(await operations.readMeasure(dunlin, services, job, 'c1.1')).measures[0]?.mayWithdraw).toBe(
			false
		);
		value(await withdraw(teal, true));
		value(await withdraw(teal, true));
		expect(value(await operations.readMeasures(teal, services, job)).openings[0]?.verdict).toBeNull();
		value(await withdraw(wren, false));
		expect(value(await operations.readMeasures(teal, services, job)).openings[0]?.verdict?.outcome).toBe(
			'stop'
		);
		expect(
			refusal(await operations.withdrawMeasure(wren, services, job, 'unknown-1', { withdrawn: true })).status
		).toBe(404);
		const { entries } = value(await operations.readHistory(wren, services, job));
		expect(entries.slice(0, 3).map(({ title }) => title)).toEqual([
			'Let a measure of C-1.1 count again',
			'Withdraw a measure of C-1.1',
			'Measure C-1.1'
		]);
	});

	it('stays with its opening when the mark is renamed and when the opening gets a row of its own', async () => {
		const { services, job } = await site(await place());
		value(await operations.saveMeasure(teal, services, job, measure(asDrawn, { openingKey: 'c1.2' })));
		value(
			await operations.applyEdit(
				wren,
				services,
				job,
				edit([
					setCell('c1', 'mark', 'C-1', 'D-7'),
					addRow('own', 'c1', cells({ mark: 'D-7', openingNumber: '2', openingWidth: `10'-1"` }))
				])
			)
		);
		const sheet = value(await operations.readMeasure(teal, services, job, 'c1.2'));
		expect([sheet.openingId, sheet.rows.map(({ id }) => id), sheet.measures.length]).toEqual([
			'D-7.2',
			['c1', 'own'],
			1
		]);
		expect([sheet.previous?.openingId, sheet.next]).toEqual(['D-7.1', null]);
		// Now the row has 10'-1", and 10'-0" was measured.
		const { openings } = value(await operations.readMeasures(teal, services, job));
		expect(openings.find(({ openingKey }) => openingKey === 'c1.2')?.verdict?.outcome).toBe('stop');
	});

	it('names the order lines of parts, and knows which have gone out', async () => {
		const { services, job } = await site(await place());
		const { parts } = value(await operations.readMeasure(teal, services, job, 'c1.1'));
		const guides = parts.filter(({ kind }) => kind === 'guide');
		expect(guides.map(({ side }) => side)).toEqual(['left', 'right']);
		const line = (number: number, partIds: readonly string[]) => ({ number, partIds });
		const order = {
			orderId: 'order',
			number: 'K7QD0-01',
			revision: 1,
			supplierId: 'nobody',
			supplierName: 'Northreach Shutter Works',
			phase: '',
			release: 1,
			currency: 'USD',
			lines: [line(1, [guides[0]?.partId ?? ''])]
		};
		const key = { companyId: 'local', jobId: job };
		const { orders } = services.storage;
		await orders.add(key, order as never, wren, services.now());
		const moment = services.now().toISOString();
		await orders.release(key, { orderId: 'order', revision: 1 }, { at: moment, by: 'Wren', reason: '' });
		const next = { ...order, revision: 2, lines: [...order.lines, line(2, [guides[1]?.partId ?? ''])] };
		await orders.putRevision(key, next as never, wren, services.now());
		const sheet = value(await operations.readMeasure(teal, services, job, 'c1.1'));
		expect(sheet.orderLines).toEqual([
			[guides[0]?.partId, [{ orderNumber: 'K7QD0-01', line: 1, ordered: true }]],
			[guides[1]?.partId, [{ orderNumber: 'K7QD0-01', line: 2, ordered: false }]]
		]);
	});

	it('goes on paper: blank to write on, or filled in with what it came to', async () => {
		const { services, job } = await site(await place());
		const write = (query: unknown) => operations.writeMeasureSheet(teal, services, job, query);
		expect(refusal(await write({ what: 'measured' })).message).toContain('Nothing is measured yet');
		expect(refusal(await write({ opening: 'c9.1' })).status).toBe(404);
		const textOf = (content: Uint8Array): string => {
			const file = join(temporaryFolder(), 'sheet.pdf');
			writeFileSync(file, content);
			return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
		};
		const blank = textOf(value(await write({ paper: 'a4' })).content);
		for (const words of [
			'C-1.1',
			'C-1.2',
			'Measured by ____',
			'seen from the coil side',
			'Diagonal, bottom left to top right',
			'ladder',
			'page 2 of 2'
		])
			expect(blank).toContain(words);
		value(await operations.saveMeasure(teal, services, job, measure(higherLeft, { note: 'wet plaster' })));
		const filled = textOf(value(await write({ what: 'measured', opening: 'c1.1' })).content);
		for (const words of [
			'Measured by Teal',
			'wet plaster',
			'4\'-0 3/8"',
			'stop before anything is drilled',
			'Shims, left guide',
			'approves nothing',
			'page 1 of 1'
		])
			expect(filled).toContain(words);
		expect(filled).not.toContain('C-1.2');
	});
});
