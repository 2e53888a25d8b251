/** Which column counts what, and what a count may look like. Lists and readings are invented, the sums reckoned by hand. */
import { describe, expect, test } from 'vitest';
import { fieldsOf, fromText, type Read } from './packing-text.ts';

const counts = (list: Read) =>
	list.lines.map(({ ordered, quantity, backordered }) => [ordered, quantity, backordered]);
const reasons = (list: Read): string => list.questions.map(({ reason }) => reason).join('\n');

describe('columns of counts', () => {
	test('shuffled, with the trade’s short words', async () => {
		const list = await fromText(
			'Bal,Item,Qty Shp,Qty Ord,Mark\n1,Guide,3,4,C-101\n0,Hood,4,4,C-101\n2,Bracket,0,2,C-102\n'
		);
		// 4 = 3 + 1, 4 = 4 + 0, 2 = 0 + 2
		expect(fieldsOf(list)).toEqual(['backordered', 'kind', 'quantity', 'ordered', 'mark']);
		expect(counts(list)).toEqual([
			[4, 3, 1],
			[4, 4, 0],
			[2, 0, 2]
		]);
		expect(list.questions).toEqual([]);
	});

	test.each(['B.O.', 'B/O', 'BO', 'Bkord', 'Back-ordered', 'Qty B/O'])(
		'%s is what is to follow',
		async (heading) => {
			const list = await fromText(`Mark,Item,Ordered,Shipped,${heading}\nC-1,Guide,4,3,1\n`);
			expect(counts(list)).toEqual([[4, 3, 1]]);
		}
	);

	test('Qty beside Shipped is what was ordered', async () => {
		const list = await fromText('Mark,Item,Qty,Shipped,B/O\nC-1,Guide,4,3,1\nC-1,Hood,2,2,0\n');
		expect(counts(list)).toEqual([
			[4, 3, 1],
			[2, 2, 0]
		]);
		expect(list.questions).toEqual([]);
	});

	test('Qty less than Shipped can’t be what was ordered: asked, and left out', async () => {
		const list = await fromText('Mark,Item,Qty,Shipped\nC-1,Guide,1,3\nC-1,Hood,2,2\n');
		expect(counts(list)).toEqual([
			[null, 3, null],
			[null, 2, null]
		]);
		expect(list.questions.map(({ place }) => place)).toEqual(['list.csv, line 1, C “Qty”']);
	});

	test('Qty beside B/O alone may be either: read only where that makes no difference, until somebody says', async () => {
		const text = 'Mark,Item,Qty,B/O\nC-1,Guide,4,1\nC-1,Hood,2,0\nC-2,Guide,4,2\n';
		const list = await fromText(text);
		expect(counts(list)).toEqual([
			[null, null, 1],
			[null, 2, 0],
			[null, null, 2]
		]);
		expect(reasons(list)).toContain('ordered or what is on this list');
		const told = await fromText(text, { columns: { '2': 'ordered' } });
		expect(told.lines.map(({ ordered }) => ordered)).toEqual([4, 2, 4]);
		const shipped = await fromText(text, { columns: { '2': 'quantity' } });
		expect(shipped.lines.map(({ quantity }) => quantity)).toEqual([4, 2, 4]);
		expect(shipped.questions).toEqual([]);
	});

	test('Qty below B/O in one line can’t be what was ordered', async () => {
		const list = await fromText('Mark,Item,Qty,B/O\nC-1,Guide,1,3\nC-1,Hood,2,0\n');
		expect(counts(list)).toEqual([
			[null, 1, 3],
			[null, 2, 0]
		]);
		expect(list.questions).toEqual([]);
	});

	test('a balance without the order beside it is what is left, where it is less than what is here in two lines', async () => {
		const list = await fromText('Mark,Item,Sent,Bal\nC-1,Guide,4,0\nC-1,Hood,2,2\nC-1,Bracket,3,1\n');
		// What was open before 4 came was not 0, and before 3 came not 1.
		expect(counts(list)).toEqual([
			[null, 4, 0],
			[null, 2, 2],
			[null, 3, 1]
		]);
		expect(list.questions).toEqual([]);
	});

	test.each([
		['one line alone', '4,0\nC-1,Hood,2,2'],
		['what was open before', '4,4\nC-1,Hood,2,4\nC-1,Bracket,3,3']
	])('a balance that may be %s is asked', async (_, rows) => {
		const list = await fromText(`Mark,Item,Sent,Bal\nC-1,Guide,${rows}\n`);
		expect(list.lines.every(({ backordered }) => backordered === null)).toBe(true);
		expect(list.questions.map(({ place }) => place)).toEqual(['list.csv, line 1, D “Bal”']);
	});

	test.each(['Nos', 'Nos.', 'NOS', 'No. off'])('%s is how many there are', async (heading) =>
		expect(counts(await fromText(`${heading},Tag,Goods\n3,C-1,Guide\n`))).toEqual([[null, 3, null]])
	);

	test('a total behind its sum is a total; goods that begin with the word are goods', async () => {
		const list = await fromText(
			'Qty,Mark,Description\n3,C-1,Guide\n3,,Subtotal crate 1\n2,C-2,Total lift motor\n5,,Total pieces\n'
		);
		expect(list.lines.map(({ line }) => line)).toEqual([2, 4]);
		expect(list.skipped.map(({ line }) => line)).toEqual([3, 5]);
	});

	test('headings that a scan spoiled are read where one word only can be meant', async () => {
		const list = await fromText('Mark,Descrlption,Oty,Flnish,Lth\nC-1,Guide,3,white,50\n');
		expect(fieldsOf(list)).toEqual(['mark', 'description', 'quantity', 'finish', 'length']);
	});

	test('a sum that holds in three lines of five does not tell', async () => {
		const list = await fromText(
			'Mark,Item,Ord,Shp,Bal\nC-1,Guide,4,3,1\nC-1,Hood,2,1,1\nC-1,Cap,3,1,2\nC-2,Guide,4,2,9\nC-2,Hood,2,1,8\n'
		);
		expect(list.questions.map(({ place }) => place)).toEqual(['list.csv, line 1, E “Bal”']);
	});

	test('a balance that is no difference is asked', async () => {
		// 4 − 3 is not 7, 2 − 2 is not 5.
		const list = await fromText('Mark,Item,Ord,Shp,Bal\nC-1,Guide,4,3,7\nC-1,Hood,2,2,5\n');
		expect(counts(list)).toEqual([
			[4, 3, null],
			[2, 2, null]
		]);
		expect(list.questions.map(({ place }) => place)).toEqual(['list.csv, line 1, E “Bal”']);
	});

	test('three columns without a name: the sum tells what was ordered, and the other two are asked', async () => {
		const list = await fromText('Mark,Item,Qty,Qty,Qty\nC-1,Guide,4,3,1\nC-1,Hood,5,2,3\nC-1,Bar,6,6,0\n');
		expect(list.lines.map(({ quantity }) => quantity)).toEqual([null, null, null]);
		expect(reasons(list)).toContain('the sums do not tell');
	});

	test('a line in which the sum does not hold is told where all others do', async () => {
		const list = await fromText(
			'Mark,Item,Ordered,Shipped,B/O\nA-1,Guide,4,3,1\nA-2,Guide,4,4,0\nA-3,Guide,2,1,1\nA-4,Guide,2,2,0\nA-5,Guide,3,1,1\n'
		);
		expect(list.questions.map(({ line, reason }) => [line, reason])).toEqual([
			[6, '3 ordered is not 1 on this list and 1 to follow; say which is wrong']
		]);
	});

	test('what came before is neither on this list nor to follow', async () => {
		const list = await fromText('Mark,Item,Ordered,Shipped to date,This truck,B/O\nC-1,Guide,6,2,3,1\n');
		expect(fieldsOf(list)).toEqual(['mark', 'kind', 'ordered', 'earlier', 'quantity', 'backordered']);
		expect(list.questions).toEqual([]);
	});

	test('nothing on the truck where all that was ordered is to follow', async () => {
		const list = await fromText('Mark,Item,Ordered,Shipped,B/O\nC-1,Guide,4,,4\nC-1,Hood,2,-,1\n');
		expect(list.lines.map(({ quantity }) => quantity)).toEqual([0, null]);
	});
});

describe('counts', () => {
	test.each([
		['4 ea', 4, null, 'ea'],
		['1 ctn', 1, null, 'ctn'],
		['1 pr', 1, null, 'pr'],
		['2 of 4', 2, 4, null],
		['2/4', 2, 4, null],
		['3 of 4 pcs', 3, 4, 'pcs'],
		['2,5', 2.5, null, null],
		['nil', 0, null, null]
	])('%s', async (text, quantity, ordered, unit) => {
		const list = await fromText(`Mark;Item;Qty\nC-1;Guide;${text}\n`);
		expect(list.lines[0]).toMatchObject({ quantity, ordered, unit });
		expect(list.questions).toEqual([]);
	});

	test.each([
		['-2', 'below 0', []],
		['(2)', 'below 0', []],
		['99999999999', 'more than 9,999,999', []],
		['5/4', 'more than all', ['5']],
		['1/2', 'part of one', ['1']],
		['1,000', 'thousands', ['1000', '1']],
		['1O', 'scanner', ['10']],
		['some', 'not a count', []],
		['4+1', 'not a count', []]
	])('%s is asked with its cell', async (text, reason, readings) => {
		const list = await fromText(`Mark;Item;Qty\nC-1;Guide;${text}\n`);
		expect(list.lines[0]?.quantity).toBeNull();
		expect(list.questions).toMatchObject([
			{ place: 'list.csv, line 2, C “Qty”', field: 'quantity', text, readings }
		]);
		expect(reasons(list)).toContain(reason);
	});

	test('1/2 is one of two where others show that the list writes so', async () => {
		const list = await fromText('Mark;Item;Qty\nC-1;Guide;1/2\nC-1;Hood;4/4\n');
		expect(counts(list)).toEqual([
			[2, 1, null],
			[4, 4, null]
		]);
	});

	test('a unit or an order that contradicts its own column is asked', async () => {
		const list = await fromText(
			'Mark;Item;Ordered;Qty;Unit\nC-1;Guide;6;2 of 4;each\nC-1;Bracket;2;2 pr;each\n'
		);
		expect(list.questions.map(({ line, field }) => [line, field])).toEqual([
			[2, 'ordered'],
			[3, 'unit']
		]);
	});

	test('pieces in a box go with the words of the line, not with its crate', async () => {
		const list = await fromText('Mark,Item,Qty,Unit,Per box,Crate\nC-1,Wedge anchor,2,box,24,3\n');
		expect(list.lines[0]).toMatchObject({
			description: 'Wedge anchor, box of 24',
			quantity: 2,
			unit: 'box',
			crate: '3'
		});
	});
});
