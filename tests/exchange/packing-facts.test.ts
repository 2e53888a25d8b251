/** What a packing list says of itself. All lists are invented. */
import { describe, expect, test } from 'vitest';
import { readPackingList } from '../../src/lib/exchange/packing-list.ts';
import { fromText, ok, sheetOf } from './packing-text.ts';

const table = 'Mark;Item;Qty;Crate\nC-1;Guide;2;1\n';
const factsOf = async (above: string, below = '') => (await fromText(`${above}\n\n${table}\n${below}`)).facts;

describe('numbers and names', () => {
	test.each([
		['Packing list PL-4502; Your order 1042-01 rev 2', 'PL-4502', '1042-01', 2],
		['Packing slip no. 88817;PO # 1042-01;Revision: 3', '88817', '1042-01', 3],
		['Delivery note: DN-17; Our order NS-88; P.O. 1042-01 Rev. 2', 'DN-17', '1042-01', 2],
		['PL-4642;po 1042-01 r2', 'PL-4642', '1042-01', 2],
		['Packing list no.;PL-9;Customer PO;1042-01/R2', 'PL-9', '1042-01', 2],
		['Packing list 2 of 3;Order date 12/3/2026', null, null, null],
		['Back order of PL-4643;Sales order 5512', null, null, null]
	])('%s', async (above, listNumber, orderNumber, orderRevision) => {
		expect(await factsOf(above)).toMatchObject({ listNumber, orderNumber, orderRevision });
	});

	test('labels in one row, their values in the next', async () => {
		expect(
			await factsOf('Packing list no.;Your order;Job\nPL-7;1042-01;Saltmarsh Pier Market Hall')
		).toMatchObject({
			listNumber: 'PL-7',
			orderNumber: '1042-01',
			jobName: 'Saltmarsh Pier Market Hall'
		});
	});

	test('the job: by its label, else the second name of the head, and never the sender', async () => {
		expect((await factsOf('Northreach Shutter Works;Job: Saltmarsh Pier Market Hall')).jobName).toBe(
			'Saltmarsh Pier Market Hall'
		);
		expect((await factsOf('Northreach Shutter Works\nKelpgate Ferry Terminal; lengths in mm')).jobName).toBe(
			'Kelpgate Ferry Terminal'
		);
		expect((await factsOf('PACKING LIST\nNorthreach Shutter Works;Packing list PL-1')).jobName).toBeNull();
	});

	test('two orders: none is taken, and it is asked', async () => {
		const { facts, questions } = await fromText(`Your order 1042-01;Your order 1077-02\n${table}`);
		expect(facts.orderNumber).toBeNull();
		expect(questions.map(({ reason }) => reason)).toEqual([
			'two orders of ours, 1042-01 and 1077-02; say which lines answer which'
		]);
	});
});

describe('sides and sizes', () => {
	test.each([
		['LH / RH as seen from the side opposite the coil', 'farSide', 0],
		['Left and right viewed from the coil side', 'coilSide', 0],
		['Hands as seen from outside', 'farSide', 1],
		['Handing given looking at the counter front', 'farSide', 1],
		['Hands seen from inside', 'coilSide', 1],
		['Left at the outside store: two pallets', null, 0],
		['Handle with care', null, 0]
	])('%s', async (text, from, assumed) => {
		const { facts, questions } = await fromText(`${text}\n\n${table}`);
		expect(facts.handsFrom).toBe(from);
		// What is outside is only taken for the side away from the coil, and that is said.
		expect(questions).toHaveLength(assumed);
	});

	test('two sides are asked, and none is taken', async () => {
		const { facts, questions } = await fromText(
			`Hands seen from the coil side\n${table}\nLH/RH viewed from the far side\n`
		);
		expect(facts.handsFrom).toBeNull();
		expect(questions).toHaveLength(1);
	});

	test.each([
		['All sizes are opening sizes, width x height', 'opening'],
		['Widths are overall, guides included.', 'overall'],
		['Lengths shown are cut lengths of the parts', 'part'],
		['Sizes are not opening sizes but overall', 'overall'],
		['Lengths in mm', null]
	])('%s', async (text, sizes) => {
		expect((await factsOf('', text)).sizes).toBe(sizes);
	});

	test('a heading says it as well', async () => {
		const { facts, lines } = await fromText(
			'Mark,Item,Qty,Opening width (in),Opening height (in)\nC-1,Guide,2,120,48\n'
		);
		expect(facts.sizes).toBe('opening');
		expect(lines[0]).toMatchObject({ width: 120 * 25_400_000, length: 48 * 25_400_000 });
	});
});

describe('crates and pages', () => {
	test('named, counted and missing', async () => {
		const { facts, missing } = await fromText(
			'Packing list PL-1;Page 2 of 3\n\nMark;Item;Qty;Crate\nC-1;Guide;2;3/7\nC-1;Hood;1;crate 4 of 7\nC-1;Bar;1;06\n'
		);
		expect(facts.crates).toEqual({ all: 7, named: ['3', '4', '6'] });
		expect(facts.pages).toEqual({ all: 3, named: [2] });
		expect(missing).toEqual({ crates: ['1', '2', '5', '7'], pages: [1, 3] });
	});

	test('where it does not say how many there are, none is missing', async () => {
		const { facts, missing } = await fromText(table);
		expect(facts.crates).toEqual({ all: null, named: ['1'] });
		expect(missing).toEqual({ crates: [], pages: [] });
	});

	test.each(['7 crates', 'Total crates: 7', 'Number of boxes 7', '7 crates in all'])('%s', async (text) => {
		expect((await factsOf(text)).crates.all).toBe(7);
	});

	test('a post office box is no crate, and a sheet of steel no page', async () => {
		const { crates, pages } = await factsOf(
			'Northreach Shutter Works;P.O. Box 12',
			'spare sheet 4 x 8 ft in the truck'
		);
		expect([crates.named, pages.named]).toEqual([['1'], []]);
	});

	test('a range, and two counts that differ', async () => {
		expect((await factsOf('Crates 3-5 of 7')).crates).toEqual({ all: 7, named: ['1', '3', '4', '5'] });
		expect((await factsOf('Crate 1 of 7', 'Crate 1 of 8')).crates.all).toBeNull();
	});
});

test('other sheets: a cover gives facts, another table of parts is told', () => {
	const parts = [
		['Mark', 'Item', 'Qty'],
		['C-1', 'Guide', '2'],
		['C-2', 'Guide', '2']
	];
	const list = ok(
		readPackingList(
			[
				sheetOf('Cover', [['Packing list PL-5', 'Your order 1042-01']]),
				sheetOf('Crate 1', parts),
				sheetOf('Crate 2', parts.slice(0, 2))
			],
			{
				measures: 'imperial'
			}
		)
	);
	expect(list.sheet).toBe('Crate 1');
	expect(list.facts).toMatchObject({ listNumber: 'PL-5', orderNumber: '1042-01' });
	expect(list.questions.map(({ place }) => place)).toEqual(['Crate 2']);
	const missing = readPackingList([sheetOf('Crate 1', parts)], {
		measures: 'imperial',
		mapping: { sheet: 'Crate 9' }
	});
	expect(missing).toMatchObject({ ok: false, message: 'no sheet of this name; there are “Crate 1”' });
});
