/** Rows and tables of packing lists: crates, continuations, headings of another order. All lists are invented. */
import { describe, expect, test } from 'vitest';
import { packingMappingSchema, readPackingList } from '../../src/lib/exchange/packing-list.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { fieldsOf, fromText, inches, ok, sheetOf } from './packing-text.ts';

describe('more than one table', () => {
	test('a table a crate with its headings repeated: every line gets its crate', async () => {
		const list = await fromText(
			'CRATE 3 OF 7\nMark,Item,Qty\nC-1,Guide,2\nC-1,Hood,1\nPage total,,3\n\nCRATE 4 OF 7 - hoods\nMark,Item,Qty\nC-2,Hood,1\nPallet 2,,\nC-3,Curtain,1\n'
		);
		expect(list.lines.map(({ line, crate }) => [line, crate])).toEqual([
			[3, '3'],
			[4, '3'],
			[9, '4'],
			[11, 'pallet 2']
		]);
		expect(list.facts.crates.all).toBe(7);
		expect(list.skipped).toEqual([
			{ line: 5, why: 'a total' },
			{ line: 7, why: 'names the crate of the lines below' },
			{ line: 8, why: 'the headings repeated' },
			{ line: 10, why: 'names the crate of the lines below' }
		]);
	});

	test('the second table has its columns in another order', async () => {
		const list = await fromText(
			'Mark,Item,Qty,Length (in)\nC-1,Guide,2,50\n\nQty,Length (mm),Item,Mark\n3,1270,Guide,C-2\n'
		);
		expect(list.lines.map(({ mark, quantity, length }) => [mark, quantity, length])).toEqual([
			['C-1', 2, inches(50)],
			['C-2', 3, inches(50)]
		]);
		expect(list.skipped.map(({ line }) => line)).toEqual([4]);
	});

	test('a fuller table further down does not hide the one above it', async () => {
		const list = await fromText(
			'Mark,Item,Qty\nC-1,Guide,2\n\nMark,Item,Qty,Length (in),Hand,Finish\nC-2,Guide,1,50,L,mill\n'
		);
		expect(list.lines.map(({ mark }) => mark)).toEqual(['C-1', 'C-2']);
		expect(list.headerRow).toBe(1);
	});

	test('a summary of the crates is not counted with the goods, and that is said', async () => {
		const list = await fromText(
			'Crate,Description,Qty,Weight\n1,Guides,6,80\n2,Hoods,2,40\n\nMark,Description,Qty,Length (in),Hand,Crate\nC-1,Guide,2,50,L,1\n'
		);
		expect(list.lines.map(({ line }) => line)).toEqual([6]);
		expect(list.questions.map(({ line }) => line)).toEqual([1]);
	});

	test('the crate of a line stands before that of the row above', async () => {
		const list = await fromText('Crate 1 of 2\nMark,Item,Qty,Crate\nC-1,Guide,2,\nC-1,Hood,1,2 of 2\n');
		expect(list.lines.map(({ crate }) => crate)).toEqual(['1', '2']);
	});
});

describe('rows', () => {
	test('words straight below a line go on with it; the same after a blank line are a remark', async () => {
		const list = await fromText(
			'Mark,Description,Qty,Remarks\nC-1,Guide,2,\n,punched at 12 in centres,,\n,,,one bent\nC-2,Hood,1,\n\n,goods remain ours until paid,,\n'
		);
		expect(list.lines.map(({ description, remark }) => [description, remark])).toEqual([
			['Guide punched at 12 in centres', 'one bent'],
			['Hood', null]
		]);
		expect(list.skipped).toEqual([
			{ line: 3, why: 'continues line 2: its description goes on' },
			{ line: 4, why: 'continues line 2: its remark goes on' },
			{ line: 7, why: 'a remark: one text and nothing else' }
		]);
	});

	test.each([
		['Page total,,3', 'a total'],
		['Carried forward,,12', 'a total'],
		['Page 2 of 3,,', 'a page number'],
		['Packed by: J. Tern,Checked by: ____,', 'about the list, not about goods'],
		[',,', '']
	])('%s is no line', async (row, why) => {
		const list = await fromText(`Mark,Description,Qty\nC-1,Guide,2\n${row}\nC-2,Hood,1\n`);
		expect(list.lines).toHaveLength(2);
		expect(list.skipped.map((each) => each.why)).toEqual(why === '' ? [] : [why]);
	});

	test('a line that counts something and does not say what is kept and asked', async () => {
		const list = await fromText('PO line,Pcs shipped,U/M,Crate\n14,2,EA,1\n,3,EA,1\n');
		expect(list.lines.map(({ orderLine, quantity }) => [orderLine, quantity])).toEqual([
			['14', 2],
			[null, 3]
		]);
		expect(list.questions.map(({ line }) => line)).toEqual([3]);
	});

	test('ditto marks stand for the line above, merged marks for all their rows', () => {
		const list = ok(
			readPackingList(
				[
					sheetOf(
						'List',
						[
							['Mark', 'Item', 'Qty', 'Finish', 'Length (in)'],
							['C-1', 'Guide', '2', 'mill', '50'],
							['', 'Hood', '1', '"', 'ditto'],
							['C-2', 'Hood', '1', '"', '60']
						],
						[{ top: 2, bottom: 3, left: 0, right: 0 }]
					)
				],
				{ measures: 'imperial' }
			)
		);
		expect(list.lines.map(({ mark, finish, length }) => [mark, finish, length])).toEqual([
			['C-1', 'mill', inches(50)],
			['C-1', 'mill', inches(50)],
			['C-2', 'mill', inches(60)]
		]);
	});

	test('lines that are struck through are left out, half struck or hidden ones asked', () => {
		const sheet = sheetOf('List', [
			['Mark', 'Item', 'Qty'],
			['C-1', 'Guide', '2'],
			['C-2', 'Guide', '2'],
			['C-3', 'Guide', '2'],
			['C-4', 'Guide', '2']
		]);
		const marked = sheet.rows.map((row) =>
			row.line === 2
				? { ...row, struck: [0, 1, 2] }
				: row.line === 3
					? { ...row, struck: [2] }
					: { ...row, hidden: row.line === 4 }
		);
		const list = ok(readPackingList([{ ...sheet, rows: marked }], { measures: 'imperial' }));
		expect(list.lines.map(({ mark }) => mark)).toEqual(['C-2', 'C-3', 'C-4']);
		expect(list.skipped).toEqual([{ line: 2, why: 'struck through' }]);
		expect(list.questions.map(({ line }) => line)).toEqual([3, 4]);
	});
});

describe('cells', () => {
	test.each(['14', 'L14', 'PO line 14', 'Line 014', '1042-01/14', '1042-01 line 14', '#14'])(
		'%s is line 14 of our order',
		async (text) => {
			const list = await fromText(`Your order 1042-01\n\nPO line;Mark;Qty\n${text};C-1;2\n`);
			expect(list.lines[0]?.orderLine).toBe('14');
		}
	);

	test('a line of another order keeps it, several lines stay as written', async () => {
		const list = await fromText(
			'Your order 1042-01\n\nPO line;Mark;Qty\n1077-02/14;C-1;2\n14/15;C-1;2\n14, 15;C-1;2\n'
		);
		expect(list.lines.map(({ orderLine }) => orderLine)).toEqual(['1077-02/14', '14/15', '14, 15']);
	});

	test('the order that all lines name is the order of the list', async () => {
		const list = await fromText('PO line;Mark;Qty\n1042-01/14;C-1;2\n1042-01/15;C-1;2\n');
		expect(list.facts.orderNumber).toBe('1042-01');
		expect(list.lines.map(({ orderLine }) => orderLine)).toEqual(['14', '15']);
	});

	test('the list’s own numbers are no lines of our order; a person may say otherwise', async () => {
		const text = 'No.;Mark;Item;Qty\n1;C-1;Guide;2\n2;C-1;Hood;2\n3;C-2;Guide;2\n';
		const list = await fromText(text);
		expect(list.lines.map(({ orderLine }) => orderLine)).toEqual([null, null, null]);
		expect(list.questions.map(({ place }) => place)).toEqual(['list.csv, line 1, A “No.”']);
		const told = await fromText(text, { columns: { '0': 'orderLine' } });
		expect(told.lines.map(({ orderLine }) => orderLine)).toEqual(['1', '2', '3']);
	});

	test('PO line beside the list’s own Line', async () => {
		expect(fieldsOf(await fromText('Line,PO line,Mark,Qty\n1,14,C-1,2\n'))).toEqual([
			null,
			'orderLine',
			'mark',
			'quantity'
		]);
	});

	test.each([
		['LH', 'left', 'Guide'],
		['r.h.', 'right', 'Guide'],
		['L/R', null, 'Guide, left and right'],
		['LH & RH', null, 'Guide, left and right']
	])('hand %s', async (text, hand, description) => {
		const list = await fromText(`Mark,Description,Qty,Hand\nC-1,Guide,2,${text}\n`);
		expect(list.lines[0]).toMatchObject({ hand, description });
		expect(list.questions).toEqual([]);
	});

	test('a substitution goes with the remarks', async () => {
		const list = await fromText(
			'Mark,Item,Qty,Remarks,Sub\nC-1,Curtain,1,one bent,22 ga for 24 ga\nC-2,Curtain,1,,yes\nC-3,Curtain,1,,no\n'
		);
		expect(list.lines.map(({ remark }) => remark)).toEqual([
			'one bent; substituted: 22 ga for 24 ga',
			'substituted',
			null
		]);
	});
});

test('a list mapped by hand: header row, columns and unit, and why each column is what it is', async () => {
	const mapping = packingMappingSchema.parse({
		headerRow: 2,
		columns: { '0': 'mark', '1': 'description', '2': 'quantity', '3': 'length' },
		unit: 'mm'
	});
	const list = await fromText('whatever,it,is,here\nalpha,beta,gamma,delta\nC-1,Guide,2,1270\n', mapping);
	expect(list.lines[0]).toMatchObject({
		line: 3,
		mark: 'C-1',
		description: 'Guide',
		quantity: 2,
		length: inches(50)
	});
	expect(list.columns.map(({ field, how }) => [field, how])).toEqual([
		['mark', 'chosen'],
		['description', 'chosen'],
		['quantity', 'chosen'],
		['length', 'chosen']
	]);
	expect(packingMappingSchema.safeParse({ columns: { '0': 'price' } }).success).toBe(false);
	const nowhere = readPackingList([sheetOf('List', [['Mark', 'Item', 'Qty']])], {
		measures: 'imperial',
		mapping: { headerRow: 99 }
	});
	expect(nowhere.ok ? '' : nowhere.message).toBe(
		'nothing stands in row 99; choose the row that holds the headings'
	);
});

test('100,000 lines: the limit is told; 20,000 are read', async () => {
	const lines = (count: number) =>
		new TextEncoder().encode(`Mark,Item,Qty\n${'C-1,Guide,1\n'.repeat(count)}`);
	const refused = await readTableFile('list.csv', lines(100_000));
	expect(refused.ok ? '' : refused.message).toContain('at most 20,000 are read');
	const table = await readTableFile('list.csv', lines(19_999));
	if (!table.ok) throw new Error(table.message);
	expect(ok(readPackingList(table.sheets, { measures: 'imperial' })).lines).toHaveLength(19_999);
});
