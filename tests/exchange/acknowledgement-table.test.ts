/** Acknowledgements as tables, invented, with their reading written by hand. */
import { describe, expect, it } from 'vitest';
import {
	readAcknowledgementTable,
	type AcknowledgementOptions,
	type AcknowledgementReading
} from '../../src/lib/exchange/acknowledgement-table.ts';
import { dayOrderOf, readDay } from '../../src/lib/exchange/day-text.ts';
import { currencyIn, decimalMarkOf, readPrice } from '../../src/lib/exchange/price-text.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { open, save } from './workbook-cells.ts';
import Excel from 'exceljs';

type Read = Extract<AcknowledgementReading, { ok: true }>;

async function read(
	content: string | Uint8Array,
	options: Partial<AcknowledgementOptions> = {}
): Promise<AcknowledgementReading> {
	const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
	const file = await readTableFile('answer', bytes);
	if (!file.ok) throw new Error(file.message);
	return readAcknowledgementTable(file.sheets, { measures: 'imperial', ...options });
}

async function good(...wanted: Parameters<typeof read>): Promise<Read> {
	const reading = await read(...wanted);
	if (!reading.ok) throw new Error(reading.message);
	return reading;
}

const list = `Northreach Shutter Works,,,,,,,,
Order acknowledgement NA-77,,,,,,,,
Your order: 1042-03 Rev. 2,,,,,,,,
All prices in USD,,,,,,,,
Lengths in feet and inches,,,,,,,,
Line,Mark,Description,Hand,Length,Qty,UOM,Unit price,Ship date,Status
1,C-101,Guide,LH,4'-2",4,EA,$26.48,12/10/2026,Accepted
2,C-101,Guide,RH,50,4,EA,"$1,026.48",12/17/2026,Changed
L3,C-101,Bracket 10,,,4,PR,58.00,,Not available
,,Total,,,,,"$4,338.00",,
`;

describe('an acknowledgement', () => {
	it('is read by its headings, with what stands above them', async () => {
		const { acknowledgement, columns, skipped, questions, headerRow } = await good(list);
		expect(headerRow).toBe(6);
		expect(acknowledgement).toMatchObject({
			number: 'NA-77',
			orderNumber: '1042-03',
			orderRevision: 2,
			currency: 'USD',
			promised: null,
			whole: null
		});
		const inch = 25_400_000;
		const nothing = { size: null, finish: null, width: null };
		expect(acknowledgement.lines).toEqual([
			{
				...nothing,
				line: 7,
				orderLine: 1,
				mark: 'C-101',
				description: 'Guide',
				hand: 'left',
				length: 50 * inch,
				quantity: '4',
				unit: 'EA',
				unitPrice: '26.48',
				promised: '2026-12-10',
				answer: 'accepted'
			},
			{
				...nothing,
				line: 8,
				orderLine: 2,
				mark: 'C-101',
				description: 'Guide',
				hand: 'right',
				length: 50 * inch,
				quantity: '4',
				unit: 'EA',
				unitPrice: '1026.48',
				promised: '2026-12-17',
				answer: 'changed'
			},
			{
				...nothing,
				line: 9,
				orderLine: 3,
				mark: 'C-101',
				description: 'Bracket 10',
				hand: null,
				length: null,
				quantity: '4',
				unit: 'PR',
				unitPrice: '58.00',
				promised: null,
				answer: 'refused'
			}
		]);
		expect(columns.map(({ field }) => field)).toEqual([
			'orderLine',
			'mark',
			'description',
			'hand',
			'length',
			'quantity',
			'unit',
			'unitPrice',
			'promised',
			'answer'
		]);
		expect(skipped).toEqual([{ line: 10, why: 'a total' }]);
		expect(questions).toEqual([]);
	});

	it('is read from a workbook, where days are days', async () => {
		const workbook = new Excel.Workbook();
		const sheet = workbook.addWorksheet('Answer');
		sheet.addRow(['PO number', '1042-03']);
		sheet.addRow(['PO line', 'Quantity confirmed', 'Net price', 'Promised', 'Total']);
		sheet.addRow([1, 4, 26.48, new Date(Date.UTC(2026, 11, 1)), 105.92]);
		const { acknowledgement, questions } = await good(await save(workbook));
		expect(questions).toEqual([]);
		expect(acknowledgement.orderNumber).toBe('1042-03');
		expect(acknowledgement.lines[0]).toMatchObject({
			orderLine: 1,
			quantity: '4',
			unitPrice: '26.48',
			promised: '2026-12-01'
		});
		expect((await open(await save(workbook))).worksheets).toHaveLength(1);
	});

	it('asks where a day or a price can be read two ways, and takes neither', async () => {
		const { acknowledgement, questions } = await good(
			'Line;Qty;Price;Promised\n1;4;1.234;03/04/2026\n2;-1;-5;2026-02-30\nx;2;abc;soon\n'
		);
		expect(
			acknowledgement.lines.map(({ orderLine, quantity, unitPrice, promised }) => [
				orderLine,
				quantity,
				unitPrice,
				promised
			])
		).toEqual([
			[1, '4', null, null],
			[2, null, null, null],
			[null, '2', null, null]
		]);
		expect(questions.map(({ place, reason }) => `${place}: ${reason}`)).toEqual([
			'answer, line 2, C “Price”: “1.234” could be 1234 or 1.234; write it as one of them, with a dot before decimals and nothing between thousands',
			'answer, line 2, D “Promised”: “03/04/2026” could be 3 April 2026 or 4 March 2026; write it as 2026-04-03 or 2026-03-04',
			'answer, line 3, B “Qty”: “-1” is not a count; write a number, 0 or more',
			'answer, line 3, C “Price”: “-5” is below 0; write the price of one, 0 or more',
			'answer, line 3, D “Promised”: “2026-02-30” is not a day of the calendar; write it as 2026-12-01',
			'answer, line 4, A “Line”: “x” is not the number of a line; write it as 14',
			'answer, line 4, C “Price”: “abc” is not a price; write a number such as 58.00',
			'answer, line 4, D “Promised”: “soon” is not a day of the calendar; write it as 2026-12-01'
		]);
	});

	it('takes what a person said, or what other cells of the column say', async () => {
		const days = 'Line,Qty,Promised\n1,4,03/04/2026\n2,4,13/04/2026\n';
		expect((await good(days)).acknowledgement.lines.map(({ promised }) => promised)).toEqual([
			'2026-04-03',
			'2026-04-13'
		]);
		const one = 'Line,Qty,Promised\n1,4,03/04/2026\n';
		expect((await good(one, { dayOrder: 'monthFirst' })).acknowledgement.lines[0]?.promised).toBe(
			'2026-03-04'
		);
		const prices = 'Line;Qty;Price\n1;4;1.234\n2;4;58,50\n';
		expect((await good(prices)).acknowledgement.lines.map(({ unitPrice }) => unitPrice)).toEqual([
			'1234',
			'58.50'
		]);
		expect(
			(await good('Line;Qty;Price\n1;4;1.234\n', { decimalMark: '.' })).acknowledgement.lines[0]?.unitPrice
		).toBe('1.234');
	});

	it('takes no currency, number or revision where two are named', async () => {
		const { acknowledgement, questions } = await good(
			'Your order 1042-03 rev 2,,\nYour order 1042-04 rev 3,,\nLine,Qty,Price\n1,4,58.00 USD\n2,4,58.00 EUR\n'
		);
		expect(acknowledgement).toMatchObject({ orderNumber: null, orderRevision: null, currency: null });
		expect(questions.map(({ reason }) => reason)).toEqual([
			'the number of the order is given as 1042-03 and as 1042-04; none is taken',
			'the revision of the order is given as 2 and as 3; none is taken',
			'the currency is given as USD and as EUR; none is taken'
		]);
	});

	it('can be a sentence on the whole order', async () => {
		const accepted = await good(
			'Acknowledgement NA-78\nYour purchase order no. 1042-03 revision 2 is accepted as ordered.\nDelivery date: 10 December 2026\n'
		);
		expect(accepted.acknowledgement).toEqual({
			number: 'NA-78',
			orderNumber: '1042-03',
			orderRevision: 2,
			currency: null,
			promised: '2026-12-10',
			whole: 'accepted',
			lines: []
		});
		const refused = await good('PO 1042-03\nWe regret that we cannot accept this order.\n');
		expect(refused.acknowledgement.whole).toBe('refused');
		expect(await read('Dear all\nthe weather is fine\n')).toMatchObject({ ok: false });
	});

	it('stays refused where words refuse what a table repeats', async () => {
		const { acknowledgement } = await good('We cannot accept this order.,\nLine,Qty\n1,4\n');
		expect(acknowledgement.whole).toBe('refused');
	});

	it('needs lines below its headings', async () => {
		expect(await read('Line,Qty,Price\n')).toMatchObject({
			ok: false,
			message: 'no lines below the headings in line 1'
		});
	});
});

describe('a day', () => {
	it.each([
		['2026-12-01', '2026-12-01'],
		['2026/12/01', '2026-12-01'],
		['20261201', '2026-12-01'],
		['2026-12-01T00:00:00Z', '2026-12-01'],
		['2026-12-01 14:30', '2026-12-01'],
		['12/31/2026', '2026-12-31'],
		['31.12.2026', '2026-12-31'],
		['31-12-26', '2026-12-31'],
		['5/5/26', '2026-05-05'],
		['1 Dec 2026', '2026-12-01'],
		['1-Dec-26', '2026-12-01'],
		['Dec 1, 2026', '2026-12-01'],
		['December 1st, 2026', '2026-12-01'],
		['1st of December 2026', '2026-12-01'],
		['Tue 1 Dec 2026', '2026-12-01'],
		['Tuesday, 1 December 2026', '2026-12-01'],
		['29 Feb 2028', '2028-02-29']
	])('“%s” is %s', (text, day) => {
		expect(readDay(text, null)).toEqual({ ok: true, day });
	});

	it.each([
		'29 Feb 2026',
		'31/04/2026',
		'1 De 2026',
		'1 Dec',
		'12/2026',
		'0/0/2026',
		'',
		'week 49',
		'2026-13-01',
		'1 Dec 202'
	])('“%s” is none', (text) => {
		expect(readDay(text, null)).toMatchObject({ ok: false });
	});

	it('is dayed first or monthed first only where something says so', () => {
		expect(readDay('03/04/2026', 'dayFirst')).toEqual({ ok: true, day: '2026-04-03' });
		expect(readDay('03/04/2026', 'monthFirst')).toEqual({ ok: true, day: '2026-03-04' });
		expect(dayOrderOf(['03/04/2026', '13/04/2026'])).toBe('dayFirst');
		expect(dayOrderOf(['03/04/2026', '04/13/2026'])).toBe('monthFirst');
		expect(dayOrderOf(['13/04/2026', '04/13/2026'])).toBeNull();
		expect(dayOrderOf(['03/04/2026'])).toBeNull();
	});
});

describe('a price', () => {
	it.each([
		['58', '58', null],
		['$58.00', '58.00', null],
		['58.00 USD', '58.00', 'USD'],
		['USD58.00', '58.00', 'USD'],
		['€ 58,00', '58.00', 'EUR'],
		['1,234.50', '1234.50', null],
		['1.234,50', '1234.50', null],
		['1 234,50', '1234.50', null],
		['1,234,567', '1234567', null],
		['0.035', '0.035', null],
		['48.5050', '48.5050', null],
		['26.48 / EA', '26.48', null],
		['26.48 each', '26.48', null]
	])('“%s” is %s', (text, price, currency) => {
		expect(readPrice(text, null)).toEqual({ ok: true, price, currency });
	});

	it.each([
		'1,234',
		'1.234',
		'-5.00',
		'(5.00)',
		'5.00-',
		'abc',
		'',
		'1.2.3',
		'12,34.5',
		'1,2,3',
		'5 5',
		'1e5'
	])('“%s” is asked about', (text) => {
		expect(readPrice(text, null)).toMatchObject({ ok: false });
	});

	it('is told by others', () => {
		expect(decimalMarkOf(['1,234', '58.50'])).toBe('.');
		expect(decimalMarkOf(['1.234', '58,50'])).toBe(',');
		expect(decimalMarkOf(['1.234', '1,234'])).toBeNull();
		expect(decimalMarkOf(['58.50', '58,50'])).toBeNull();
		expect(readPrice('1,234', '.')).toMatchObject({ price: '1234' });
		expect(readPrice('1,234', ',')).toMatchObject({ price: '1.234' });
	});

	it('names its currency by its code, and by a sign that is of one only', () => {
		expect(currencyIn('Currency: CHF')).toBe('CHF');
		expect(currencyIn('Currency: BRL')).toBe('BRL');
		expect(currencyIn('Prices in ZAR')).toBe('ZAR');
		expect(currencyIn('$ 58')).toBeNull();
		expect(currencyIn('£58')).toBe('GBP');
	});
});
