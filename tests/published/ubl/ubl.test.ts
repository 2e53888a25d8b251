import { readdirSync, readFileSync } from 'node:fs';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PurchaseLine, PurchaseOrder } from '../../../src/lib/delivery/ordering/purchase-order.ts';
import { readXml } from '../../../src/lib/exchange/purchase-documents/xml-tree.ts';
import { writeOrderDocument } from '../../../src/lib/exchange/purchase-documents/write-order.ts';
import { line, order, supplier } from './sample-order.ts';
import { complaintOfXmllint, find, hasXmllint, text, treeOf, type Node } from './tree.ts';
import { violations } from './validate.ts';

const frame = {
	supplier,
	buyer: { name: 'Tern & Gannet Door Co.' },
	job: { name: 'Saltmarsh Pier Market Hall' },
	issuedOn: '2026-12-01',
	style: 'imperial'
} as const;

const written = (what: PurchaseOrder, more: Partial<Parameters<typeof writeOrderDocument>[1]> = {}): string =>
	writeOrderDocument(what, { ...frame, ...more });

const whole: readonly PurchaseLine[] = [
	line(),
	line({
		number: 2,
		unit: 'pair',
		size: '10',
		kind: 'bracket',
		hand: null,
		length: null,
		unitPrice: '210.00'
	}),
	line({ number: 3, unit: 'set', unitPrice: '9.5', note: 'All bolts.' }),
	line({ number: 4, unit: 'length', quantity: '2.5', width: 355_600_000, needBy: null }),
	line({ number: 5, unit: 'tube', quantity: '1.25', marks: ['C-101', 'S-201'], partIds: [], kind: null }),
	line({ number: 6, unit: 'ft', quantity: '0', unitPrice: '0.00', note: 'Cancelled in revision 2.' })
];

const orders: readonly (readonly [string, string])[] = [
	['as it is', written(order(whole))],
	['in metric', written(order(whole), { style: 'metric' })],
	['without any price', written(order(whole.map((each) => ({ ...each, unitPrice: null }))))],
	['without one of its prices', written(order([line(), line({ number: 2, unitPrice: null })]))],
	['revised', written(order(whole, { revision: 3 }), { note: 'Call before delivery.' })],
	[
		'with nothing known of its lines',
		written(
			order(
				[line({ size: '', finish: '', hand: null, length: null, needBy: null, marks: [], openingIds: [] })],
				{
					phase: ''
				}
			)
		)
	],
	[
		'with signs that XML has another use for, and other scripts',
		written(
			order([
				line({
					title: 'Rail <a & "b"> ]]> \u0000\u0007\uFFFF',
					note: "Größe 3 ≥ 2; 日本語; كتابة; 🚪\n'",
					finish: '\uD800 half'
				})
			]),
			{ buyer: { name: '<&>"' } }
		)
	]
];

describe('an order against the schema of UBL 2.1', () => {
	it.each(orders)('%s', (_, xml) => {
		expect(readXml('order.xml', new TextEncoder().encode(xml)).ok).toBe(true);
		expect(violations(treeOf(xml), { own: true })).toEqual([]);
	});

	it.skipIf(!hasXmllint).each(orders)('%s is well-formed for libxml2', (_, xml) => {
		expect(complaintOfXmllint(xml)).toBeNull();
	});

	it.skipIf(!hasXmllint)('libxml2 would say if it were not', () => {
		expect(complaintOfXmllint(written(order([line()])).replace('</Order>', ''))).toContain('error');
	});

	it('has a total only where every line has a price: 128.25 + 420 + 19 + 160.3125 + 80.15625 + 0', () => {
		// 2 · 64.125 = 128.25; 2 · 210 = 420; 2 · 9.5 = 19; 2.5 · 64.125 = 160.3125 → 160.31; 1.25 · 64.125 = 80.15625 → 80.16.
		const root = treeOf(written(order(whole)));
		expect(find(root, 'OrderLine/LineItem/LineExtensionAmount').map((node) => node.text)).toEqual([
			'128.25',
			'420.00',
			'19.00',
			'160.31',
			'80.16',
			'0.00'
		]);
		expect(text(root, 'AnticipatedMonetaryTotal/PayableAmount')).toBe('807.72');
		const unpriced = treeOf(written(order([line(), line({ number: 2, unitPrice: null })])));
		expect(find(unpriced, 'AnticipatedMonetaryTotal')).toEqual([]);
		expect(find(unpriced, 'OrderLine/LineItem/Price')).toHaveLength(1);
	});

	it('rounds an amount half-even: 0.125 → 0.12, 0.375 → 0.38', () => {
		const root = treeOf(
			written(
				order([
					line({ quantity: '1', unitPrice: '0.125' }),
					line({ number: 2, quantity: '1', unitPrice: '0.375' })
				])
			)
		);
		expect(find(root, 'OrderLine/LineItem/LineExtensionAmount').map((node) => node.text)).toEqual([
			'0.12',
			'0.38'
		]);
	});

	it('writes a length exactly, in inches where it is whole 64ths: 50 in, 1/64 in; 1000.1 mm stays in millimetres', () => {
		const lengths = (style: 'imperial' | 'metric', nm: number): string[] => {
			const root = treeOf(written(order([line({ length: nm })]), { style }));
			return find(root, 'OrderLine/LineItem/Item/AdditionalItemProperty')
				.filter((property) => text(property, 'Name') === 'Length')
				.flatMap((property) => find(property, 'ValueQuantity'))
				.map((node) => `${node.text} ${node.attributes.unitCode ?? ''}`);
		};
		expect(lengths('imperial', 1_270_000_000)).toEqual(['50 INH']);
		expect(lengths('imperial', 396_875)).toEqual(['0.015625 INH']);
		expect(lengths('imperial', 1_000_100_000)).toEqual(['1000.1 MMT']);
		expect(lengths('metric', 1_270_000_000)).toEqual(['1270 MMT']);
		expect(lengths('metric', 1)).toEqual(['0.000001 MMT']);
	});

	it('names the revision it is, and the one it takes the place of', () => {
		const first = treeOf(written(order([line()])));
		expect(text(first, 'AdditionalDocumentReference/VersionID')).toBe('1');
		expect(find(first, 'OrderDocumentReference')).toEqual([]);
		const third = treeOf(written(order([line()], { revision: 3 })));
		expect(text(third, 'AdditionalDocumentReference/VersionID')).toBe('3');
		expect(text(third, 'OrderDocumentReference/ID')).toBe('1042-03');
		expect(text(third, 'OrderDocumentReference/VersionID')).toBe('2');
		expect(text(third, 'Note')).toContain('Revision 3 takes the place of revision 2');
	});

	it('cancels a line of quantity 0, and says from where hands are seen', () => {
		const root = treeOf(written(order(whole)));
		expect(find(root, 'OrderLine/LineItem/LineStatusCode').map((node) => node.text)).toEqual(['Cancelled']);
		expect(text(root, 'OrderLine/LineItem/Item/AdditionalItemProperty/ValueQualifier')).toBe(
			'seen from the coil side'
		);
	});

	it.each([
		['without lines', order([]), frame],
		['without a number', order([line()], { number: ' ' }), frame],
		['without a buyer', order([line()]), { ...frame, buyer: { name: '' } }],
		['of no day', order([line()]), { ...frame, issuedOn: 'tomorrow' }]
	])('writes nothing %s', (_, what, how) => {
		expect(() => writeOrderDocument(what, how)).toThrow(RangeError);
	});
});

describe('an order keeps what it says', () => {
	const sign = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 });
	const decimal = (places: number): fc.Arbitrary<string> =>
		fc
			.tuple(fc.nat({ max: 999_999 }), fc.nat({ max: 10 ** places - 1 }))
			.map(([whole, part]) => `${whole}.${String(part).padStart(places, '0')}`);
	const anyLine = fc.record({
		quantity: decimal(4),
		unitPrice: fc.option(decimal(6), { nil: null }),
		marks: fc.array(sign, { maxLength: 3 }),
		title: sign,
		length: fc.option(fc.integer({ min: 1, max: 1e12 }), { nil: null }),
		hand: fc.constantFrom('left', 'right', null),
		unit: fc.constantFrom('each', 'pair', 'set', 'length', 'tube', 'ft')
	});
	/** What XML 1.0 has room for (production 2, Char, and no C1 controls), nothing at the ends. */
	const kept = (given: string): string =>
		Array.from(given.toWellFormed())
			.filter((sign) => {
				const code = sign.codePointAt(0) ?? 0;
				return code < 32
					? [9, 10, 13].includes(code)
					: (code < 127 || code > 159) && code !== 0xfffe && code !== 0xffff;
			})
			.join('')
			.trim();
	const properties = (item: Node, name: string): string[] =>
		find(item, 'AdditionalItemProperty')
			.filter((property) => text(property, 'Name') === name)
			.flatMap((property) => find(property, 'Value').map((node) => node.text));

	it('quantities, prices, marks, hands and lengths, for any order', () => {
		fc.assert(
			fc.property(
				fc.array(anyLine, { minLength: 1, maxLength: 5 }),
				fc.constantFrom('imperial', 'metric'),
				(lines, style) => {
					const given = lines.map((each, index) => line({ ...each, number: index + 1 }));
					const root = treeOf(written(order(given), { style }));
					expect(violations(root, { own: true })).toEqual([]);
					const items = find(root, 'OrderLine/LineItem');
					expect(items.map((item) => text(item, 'ID'))).toEqual(given.map(({ number }) => String(number)));
					for (const [index, item] of items.entries()) {
						const asked = given[index];
						if (!asked) throw new Error('more lines than there were');
						expect(new Decimal(text(item, 'Quantity') ?? 'none').eq(asked.quantity)).toBe(true);
						const price = text(item, 'Price/PriceAmount');
						expect(price === undefined).toBe(asked.unitPrice === null);
						if (price !== undefined) expect(new Decimal(price).eq(asked.unitPrice ?? 'none')).toBe(true);
						expect(find(item, 'Item').flatMap((at) => properties(at, 'Mark'))).toEqual(
							asked.marks.map(kept).filter((mark) => mark !== '')
						);
						expect(find(item, 'Item').flatMap((at) => properties(at, 'Hand'))).toEqual(
							asked.hand === null ? [] : [asked.hand]
						);
						const [length] = find(item, 'Item/AdditionalItemProperty/ValueQuantity');
						const nm = length?.attributes.unitCode === 'INH' ? 25_400_000 : 1_000_000;
						expect(length === undefined ? null : new Decimal(length.text).times(nm).toNumber()).toBe(
							asked.length
						);
					}
				}
			),
			{ numRuns: 150 }
		);
	});
});

describe('a document that is not as the schema wants it is found out', () => {
	const good = written(order([line()]));
	const broken = (from: string | RegExp, to: string): string[] => {
		const changed = good.replace(from, to);
		expect(changed).not.toBe(good);
		return violations(treeOf(changed), { own: true });
	};

	it.each<[string, string | RegExp, string, string]>([
		[
			'order of elements',
			/(\s*<cbc:UBLVersionID>.*<\/cbc:UBLVersionID>)(\s*<cbc:ID>.*<\/cbc:ID>)/u,
			'$2$1',
			'Order/UBLVersionID: out of order'
		],
		['a missing element', /<cbc:IssueDate>.*<\/cbc:IssueDate>/u, '', 'Order/IssueDate: missing'],
		[
			'an unknown element',
			'<cbc:UBLVersionID>2.1',
			'<cbc:Version>2.1</cbc:Version><cbc:UBLVersionID>2.1',
			'Order/Version: not in Order'
		],
		['an element of the other namespace', /cbc:Note>/gu, 'cac:Note>', 'Order/Note: not in Order'],
		['one too many', /(<cbc:IssueDate>.*<\/cbc:IssueDate>)/u, '$1$1', 'Order/IssueDate: 2 times'],
		['an amount without currency', / currencyID="USD"/u, '', 'no currencyID'],
		['an empty element', '<cbc:Name>Guide, left</cbc:Name>', '<cbc:Name/>', 'Item/Name: empty'],
		[
			'an empty aggregate',
			/<cac:BuyersItemIdentification>[\s\S]*?<\/cac:BuyersItemIdentification>/u,
			'<cac:BuyersItemIdentification/>',
			'empty'
		],
		['an empty attribute', 'unitCode="EA"', 'unitCode=""', '@unitCode: empty'],
		['a unit code that was taken out', 'unitCode="EA"', 'unitCode="TU"', 'unit code TU'],
		['a date that is none', '2026-12-01', '01.12.2026', 'not of its type'],
		['a number with an exponent', '>64.125<', '>6.4e1<', 'not of its type'],
		['two notes without a language', /(<cbc:Note>.*<\/cbc:Note>)/u, '$1$1', 'IND8'],
		['another namespace', 'xsd:Order-2', 'xsd:Order-1', 'namespace']
	])('%s', (_, from, to, expected) => {
		expect(broken(from, to).join('\n')).toContain(expected);
	});

	it('finds nothing in the order as it was', () => {
		expect(violations(treeOf(good), { own: true })).toEqual([]);
	});
});

describe('the documents of suppliers in the fixtures', () => {
	const folder = 'fixtures/purchase-documents';
	const valid = readdirSync(folder).filter((name) => name.endsWith('.xml') && !name.includes('doubts'));

	it('there are some', () => expect(valid.length).toBeGreaterThan(2));

	it.each(valid)('%s keeps to the schema', (name) => {
		const xml = readFileSync(`${folder}/${name}`, 'utf8');
		expect(violations(treeOf(xml), { own: false })).toEqual([]);
	});

	it('those with doubts break it only where they say', () => {
		const found = (name: string): string[] =>
			violations(treeOf(readFileSync(`${folder}/${name}`, 'utf8')), { own: false });
		expect(found('answer-with-doubts.xml')).toEqual([
			'OrderResponse/OrderLine/LineItem/Quantity: “four” is not of its type',
			'OrderResponse/OrderLine/LineItem: missing',
			'OrderResponse/IssueDate: missing',
			'OrderResponse/BuyerCustomerParty: missing'
		]);
		expect(found('despatch-with-doubts.xml')).toEqual([
			'DespatchAdvice/DespatchLine/Item/Dimension/Measure: no unitCode',
			'DespatchAdvice/DespatchLine/DeliveredQuantity: 2 times',
			'DespatchAdvice/DespatchLine/OrderLineReference: missing',
			'DespatchAdvice/DespatchLine/Item: missing',
			'DespatchAdvice/DeliveryCustomerParty: missing'
		]);
	});

	it.each(['despatch-1.xml', 'despatch-2.xml'])('the packing list %s keeps to it too', (name) => {
		const xml = readFileSync(`fixtures/deliveries/messes/${name}`, 'utf8');
		expect(violations(treeOf(xml), { own: false })).toEqual([]);
	});
});
