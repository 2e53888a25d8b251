/**
 * Purchase orders as files: the workbook recalculated by LibreOffice, the print read by Poppler. Orders are invented;
 * amounts are worked by hand beside them.
 */
import { describe, expect, it } from 'vitest';
import { orderChanges } from '../../src/lib/delivery/ordering/order-changes.ts';
import { inch, line, order } from '../../src/lib/delivery/ordering/sample-order.ts';
import type { OrderPaper } from '../../src/lib/exchange/order-paper.ts';
import { orderPdf } from '../../src/lib/exchange/print/order-pdf.ts';
import { writeOrderWorkbook } from '../../src/lib/exchange/workbook/order-workbook.ts';
import { printedFile } from '../printed-pages.ts';
import { needs, recalculate } from '../recalculate.ts';
import { formulaCells, open } from './workbook-cells.ts';

const first = order([
	line({ number: 1 }),
	line({ number: 2, title: 'Guide, right', hand: 'right', partIds: ['P-3', 'P-4'] }),
	// Half of a pair at 97.01: 3 · 48.505 = 145.515, half to the even cent 145.52; 1 · 48.505 = 48.50.
	line({
		number: 3,
		kind: 'bracket',
		title: 'Bracket, left',
		item: '16',
		size: '16',
		length: null,
		quantity: '3',
		unitPrice: '48.505'
	}),
	line({
		number: 4,
		kind: 'bracket',
		title: 'Bracket, right',
		item: '16',
		size: '16',
		length: null,
		hand: 'right',
		quantity: '1',
		unitPrice: '48.505'
	}),
	line({
		number: 5,
		kind: 'consumable',
		scope: 'stock',
		title: 'Sealant',
		item: 'sealant',
		length: null,
		hand: null,
		finish: '',
		quantity: '2.76',
		unit: 'tube',
		unitPrice: '7.80'
	}),
	line({
		number: 6,
		kind: 'control',
		title: 'Key switch',
		item: 'Key switch',
		length: null,
		hand: null,
		finish: '',
		unitPrice: null,
		needBy: null
	})
]);

const second = {
	...first,
	revision: 2,
	lines: first.lines.map((one) => {
		if (one.number === 1) return { ...one, length: 51 * inch, unitPrice: '27.01' };
		return one.number === 4 ? { ...one, quantity: '0', partIds: [], openingIds: [] } : one;
	})
};

const madeAt = new Date(Date.UTC(2026, 8, 1, 10));
const paper = (more: Partial<OrderPaper> = {}): OrderPaper => ({
	order: first,
	changes: [],
	jobName: 'Saltmarsh Pier Market Hall',
	buyerName: 'Tern & Gannet Door Co.',
	released: null,
	withPrices: true,
	style: 'feetInches',
	...more
});
const revised: Partial<OrderPaper> = { order: second, changes: orderChanges(first, second, 'feetInches') };

/** Row of the first line: six facts from row 3, a row free, the headings. */
const firstRow = 11;

async function recalculated(more: Partial<OrderPaper> = {}) {
	const bytes = await writeOrderWorkbook(paper(more), madeAt);
	const sheets = (await recalculate([{ name: 'order', bytes }])).get('order');
	return { bytes, lines: sheets?.get('Order') ?? [], changes: sheets?.get('Changes') ?? [] };
}

describe.skipIf(needs('libreoffice'))('the workbook of an order', () => {
	it('works its amounts and its total out anew', async () => {
		const { bytes, lines } = await recalculated();
		const column = lines[firstRow - 2]?.indexOf('Amount (USD)') ?? -1;
		expect(lines.slice(firstRow - 1, firstRow + 7).map((row) => [row[0], Number(row[column])])).toEqual([
			['1', 52.96],
			['2', 52.96],
			['3', 145.52],
			['4', 48.5],
			// 2.76 · 7.80 = 21.528
			['5', 21.53],
			['6', 0],
			// 52.96 + 52.96 + 145.52 + 48.50 + 21.53
			['Total', 321.47],
			['Lines without a price, which are not in the total', 1]
		]);
		// What stands beside the formulas is what they come to.
		for (const { row, column: at, stored, sheet } of formulaCells(await open(bytes)))
			expect(`${sheet} ${lines[row]?.[at]}`).toBe(`${sheet} ${String(stored)}`);
		expect(formulaCells(await open(bytes))).toHaveLength(6 + 2);
	});

	it('says everything there is to build from', async () => {
		const { lines } = await recalculated();
		expect(lines[0]?.[0]).toBe('Purchase order 1042-03, revision 1');
		expect(lines[1]?.[0]).toBe('Left and right are seen standing on the coil side.');
		expect(lines.slice(2, 8).map((row) => [row[0], row[2]])).toEqual([
			['Supplier', 'Northreach Shutter Works'],
			['Ordered by', 'Tern & Gannet Door Co.'],
			['Job', 'Saltmarsh Pier Market Hall'],
			['Phase', 'not named'],
			['Release', '1'],
			['Released', 'not released: a draft, not to be built from']
		]);
		expect(lines[firstRow]).toEqual([
			'2',
			'C-101',
			'Guide, right',
			'counter-face',
			'',
			'',
			`4'-2"`,
			'right, seen from the coil side',
			'powder-graphite',
			'2',
			'each',
			'26.48',
			'52.96',
			'2026-12-10',
			''
		]);
	});

	it('tells what changed', async () => {
		const { lines, changes } = await recalculated(revised);
		expect(changes.slice(4).map((row) => row.slice(0, 4))).toEqual([
			['1', 'length', `4'-2"`, `4'-3"`],
			['1', 'price', '26.48', '27.01'],
			['4', 'line', '1', 'cancelled']
		]);
		// 54.02 + 52.96 + 145.52 + 0 + 21.53
		expect(Number(lines[firstRow + 5]?.[12])).toBe(274.03);
	});

	it('has no price in any cell for someone who may not see them', async () => {
		const { bytes, lines, changes } = await recalculated({ ...revised, withPrices: false });
		const all = [...lines, ...changes].flat().join('\n');
		for (const price of [
			'26.48',
			'27.01',
			'48.505',
			'7.8',
			'52.96',
			'274.03',
			'USD',
			'price',
			'Amount',
			'Total'
		])
			expect(all).not.toContain(price);
		expect(formulaCells(await open(bytes))).toEqual([]);
		expect(changes.slice(4).map((row) => row[1])).toEqual(['length', 'line']);
	});

	it('carries what looks like a formula as text', async () => {
		const texts = [
			'=73000+191',
			'+73000+192',
			'-73000-193',
			'@SUM(73000,194)',
			'=HYPERLINK("http://x.example/","ran")'
		];
		const lines = texts.map((text, i) =>
			line({ number: i + 1, title: text, item: text, size: text, finish: text, marks: [text], note: text })
		);
		const evil = order(lines, {
			number: texts[0] ?? '',
			supplierName: texts[1] ?? '',
			phase: texts[2] ?? ''
		});
		const made = await recalculated({
			order: { ...evil, revision: 2 },
			changes: orderChanges(
				evil,
				{ ...evil, lines: lines.map((one, i) => ({ ...one, title: texts[4 - i] ?? '' })) },
				'feetInches'
			),
			jobName: texts[3] ?? '',
			buyerName: texts[4] ?? ''
		});
		const all = [...made.lines, ...made.changes].flat();
		for (const ran of ['73191', '73192', '-73193', '73194', 'ran']) expect(all).not.toContain(ran);
		for (const text of texts) expect(all).toContain(text);
		for (const { formula } of formulaCells(await open(made.bytes)))
			expect(formula).toMatch(/^(?:IF|SUM|SUMPRODUCT)\(/u);
	});
});

/** Without its spaces: a column breaks lines at spaces and hyphens. */
const squeezed = (text: string): string => text.replace(/\s+/gu, '');
const flat = (text: string): string => text.replace(/\s+/gu, ' ');

async function printedText(more: Partial<OrderPaper> = {}): Promise<{ text: string; pages: number }> {
	const file = await printedFile(await orderPdf(paper(more), 'letter', madeAt));
	const text = flat(file.pages.map((page) => page.text).join(' '));
	await file.close();
	return { text, pages: file.pages.length };
}

describe.skipIf(needs('poppler'))('the print of an order', () => {
	it('says who, what, which hand, by when and for how much', async () => {
		const { text, pages } = await printedText({
			released: { at: '2026-09-01T09:00:00.000Z', by: 'Ines', reason: null }
		});
		expect(pages).toBe(1);
		for (const said of [
			'Purchase order 1042-03, revision 1',
			'Northreach Shutter Works',
			'Tern & Gannet Door Co.',
			'Saltmarsh Pier Market Hall',
			'2026-09-01 by Ines',
			'Left and right are seen standing on the coil side.',
			'Guide, left (counter-face)',
			`4'-2"`,
			'left, seen from the coil side',
			'48.505',
			'145.52',
			'2026-12-10',
			'to be told',
			'Total USD 321.47',
			'1 line has no price and is not in it.'
		])
			expect(squeezed(text)).toContain(squeezed(said));
		expect(text).not.toContain('Changes since');
	});

	it('tells what changed since the revision before', async () => {
		const { text } = await printedText(revised);
		expect(text).toContain('Purchase order 1042-03, revision 2');
		expect(text).toContain('Changes since revision 1');
		expect(text).toContain(`line 1 (Guide, left, C-101): length 4'-3", was 4'-2".`);
		expect(text).toContain('line 4 (Bracket, right, C-101) is cancelled; it was 1.');
		expect(text).toContain('unit price 27.01, was 26.48.');
	});

	it('has no price for someone who may not see them', async () => {
		const { text } = await printedText({ ...revised, withPrices: false });
		for (const price of ['26.48', '27.01', '48.505', '7.80', 'USD', 'price', 'Total', 'Amount'])
			expect(text).not.toContain(price);
		expect(text).toContain('left, seen from the coil side');
	});

	it('goes on over pages with its headings, and carries many marks', async () => {
		const many = order(
			Array.from({ length: 120 }, (_one, i) =>
				line({ number: i + 1, marks: Array.from({ length: 40 }, (_mark, m) => `M-${m}`) })
			)
		);
		const file = await printedFile(await orderPdf(paper({ order: many }), 'a4', madeAt));
		expect(file.pages.length).toBeGreaterThan(3);
		for (const page of file.pages.slice(0, -1)) expect(page.text).toContain('What it is');
		expect(flat(file.pages[0]?.text ?? '')).toContain('M-11 and 28 more');
		await file.close();
	});
});
