import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { DocumentQuestion } from './document-fields.ts';
import { readDespatchAdvice } from './despatch-advice.ts';
import { looksLikeXml } from './documents.ts';
import { readOrderResponse } from './order-response.ts';
import { readPurchaseDocument } from './purchase-document.ts';

const folder = 'fixtures/purchase-documents';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

interface Expected {
	readonly kind: string;
	readonly acknowledgement?: unknown;
	readonly facts?: unknown;
	readonly lines?: unknown;
	readonly skipped: unknown;
	readonly questions: readonly { readonly line: number; readonly place: string; readonly text: string }[];
}

const sorted = (lines: readonly string[]): string[] => [...lines].sort();

describe('documents of suppliers', () => {
	const names = readdirSync(folder)
		.filter((name) => name.endsWith('.xml'))
		.map((name) => name.replace(/\.xml$/u, ''));

	it('there are five', () => expect(names).toHaveLength(5));

	it.each(names)('%s is read as its plan says', (name) => {
		const expected = JSON.parse(readFileSync(`${folder}/${name}.expected.json`, 'utf8')) as Expected;
		const reading = readPurchaseDocument(`${name}.xml`, readFileSync(`${folder}/${name}.xml`), {
			measures: 'imperial'
		});
		if (!reading.ok) throw new Error(reading.message);
		expect(reading.kind).toBe(expected.kind);
		if (reading.kind === 'OrderResponse') expect(reading.acknowledgement).toEqual(expected.acknowledgement);
		else {
			expect(reading.facts).toEqual(expected.facts);
			expect(reading.lines).toEqual(expected.lines);
		}
		expect(reading.skipped).toEqual(expected.skipped);
		const place = (question: DocumentQuestion): string =>
			expected.questions.find(
				(wanted) =>
					wanted.line === question.line &&
					wanted.text === question.text &&
					question.place.includes(wanted.place)
			)?.place ?? question.place;
		expect(
			sorted(reading.questions.map((question) => `${question.line} ${place(question)}: ${question.text}`))
		).toEqual(sorted(expected.questions.map(({ line, place, text }) => `${line} ${place}: ${text}`)));
		// Every question names the file and, where it stands somewhere, the line of it.
		for (const question of reading.questions) {
			expect(question.place).toMatch(new RegExp(`^${name}\\.xml`, 'u'));
			expect(question.reason).not.toBe('');
		}
	});

	it('say a place that can be found: the ZZQ of the doubtful answer stands in line 12 of its file', () => {
		const text = readFileSync(`${folder}/answer-with-doubts.xml`, 'utf8');
		const line = text.split('\n').findIndex((each) => each.includes('ZZQ')) + 1;
		const reading = readOrderResponse('a.xml', bytesOf(text));
		expect(reading.ok && reading.questions.find(({ text: what }) => what === 'ZZQ')?.place).toBe(
			`a.xml, answered line 1, Quantity (line ${line} of the file)`
		);
	});
});

describe('packing lists that came as documents', () => {
	const messes = 'fixtures/deliveries/messes';

	it.each(['despatch-1', 'despatch-2'])('%s is read with the facts of its plan, line by line', (name) => {
		const plan = JSON.parse(readFileSync(`${messes}/${name}.expected.json`, 'utf8')) as {
			readonly list: unknown;
			readonly lines: readonly { readonly line: number }[];
		};
		const bytes = readFileSync(`${messes}/${name}.xml`);
		const reading = readDespatchAdvice(`${name}.xml`, bytes, { measures: 'imperial' });
		if (!reading.ok) throw new Error(reading.message);
		expect(reading.facts).toEqual(plan.list);
		expect(reading.lines.map(({ line }) => line)).toEqual(plan.lines.map(({ line }) => line));
		expect(reading.questions).toEqual([]);
	});
});

const deliveries = 'fixtures/deliveries';

describe('packs', () => {
	const read = (path: string) => {
		const reading = readDespatchAdvice('a.xml', readFileSync(`${deliveries}/${path}`), {
			measures: 'imperial'
		});
		if (!reading.ok) throw new Error(reading.message);
		return reading.lines;
	};

	it('say how many are in one, as a list on paper would write it', () => {
		expect(read('messes/despatch-2.xml')[6]).toMatchObject({
			description: 'Hood support, box of 2',
			quantity: 2
		});
		expect(read('messes-blind/despatch-3.xml').slice(3, 5)).toMatchObject([
			{ description: 'Wedge anchor 3/8 x 3, left wall, box of 12', quantity: 2 },
			{ description: 'Key switch, box of 2', quantity: 2 }
		]);
	});

	it('say nothing where single pieces are counted, or where it is no whole number of 1 or more', () => {
		const text = readFileSync(`${deliveries}/messes-blind/despatch-3.xml`, 'utf8');
		const described = (changed: string): string | undefined => {
			const reading = readDespatchAdvice('a.xml', bytesOf(changed), { measures: 'imperial' });
			return reading.ok ? reading.lines[4]?.description : reading.message;
		};
		expect(described(text.replaceAll('unitCode="BX"', 'unitCode="EA"'))).toBe('Key switch');
		expect(described(text.replace('<cbc:PackSizeNumeric>2<', '<cbc:PackSizeNumeric>0<'))).toBe('Key switch');
		expect(described(text.replace('<cbc:PackSizeNumeric>2<', '<cbc:PackSizeNumeric>2.5<'))).toBe(
			'Key switch'
		);
	});

	it('a reason that repeats the back order adds nothing to it', () => {
		const [line] = read('messes-blind/despatch-3.xml').slice(2, 3);
		expect(line).toMatchObject({ quantity: 5, backordered: 4, remark: '4 to follow' });
	});
});

const namespaces = (document: string): string =>
	`xmlns="urn:oasis:names:specification:ubl:schema:xsd:${document}-2" xmlns:cac="urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2" xmlns:cbc="urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"`;

const response = (body: string): Uint8Array =>
	bytesOf(
		`<OrderResponse ${namespaces('OrderResponse')}><cbc:ID>A</cbc:ID><cbc:IssueDate>2026-12-01</cbc:IssueDate>${body}</OrderResponse>`
	);
const parties = '<cac:SellerSupplierParty/><cac:BuyerCustomerParty/>';
const answered = (lineItem: string, after = ''): string =>
	`<cac:OrderReference><cbc:ID>1</cbc:ID></cac:OrderReference>${parties}<cac:OrderLine><cac:LineItem><cbc:ID>1</cbc:ID>${lineItem}</cac:LineItem>${after}</cac:OrderLine>`;
const item = '<cac:Item><cbc:Name>Guide</cbc:Name></cac:Item>';

const readAnswer = (body: string): Extract<ReturnType<typeof readOrderResponse>, { ok: true }> => {
	const reading = readOrderResponse('a.xml', response(body));
	if (!reading.ok) throw new Error(reading.message);
	return reading;
};

describe('what a supplier says yes and no with', () => {
	it.each([
		['1', null],
		['2', 'refused'],
		['3', 'changed'],
		['5', 'accepted'],
		['6', 'changed'],
		['7', 'refused'],
		['Revised', 'changed'],
		['Cancelled', 'refused'],
		['NoStatus', null]
	])('status %s of a line is %s', (code, answer) => {
		const { acknowledgement, questions } = readAnswer(
			answered(`<cbc:LineStatusCode>${code}</cbc:LineStatusCode>${item}`)
		);
		expect(acknowledgement.lines[0]?.answer).toBe(answer);
		expect(questions).toEqual([]);
	});

	it('asks about a line that is said to be delivered already', () => {
		const { acknowledgement, questions } = readAnswer(
			answered(`<cbc:LineStatusCode>42</cbc:LineStatusCode>${item}`)
		);
		expect(acknowledgement.lines[0]?.answer).toBeNull();
		expect(questions.map(({ reason }) => reason).join()).toContain('delivered already');
	});

	it.each([
		['AP', 'accepted'],
		['RE', 'refused'],
		['29', 'accepted'],
		['27', 'refused']
	])('code %s without lines: the whole is %s', (code, whole) => {
		const { acknowledgement } = readAnswer(
			`<cbc:OrderResponseCode>${code}</cbc:OrderResponseCode><cac:OrderReference><cbc:ID>1</cbc:ID></cac:OrderReference>${parties}`
		);
		expect(acknowledgement.whole).toBe(whole);
	});

	it('a code for all goes for lines that say nothing of their own', () => {
		const { acknowledgement } = readAnswer(
			`<cbc:OrderResponseCode>AP</cbc:OrderResponseCode>${answered(item)}<cac:OrderLine><cac:LineItem><cbc:ID>2</cbc:ID><cbc:LineStatusCode>7</cbc:LineStatusCode>${item}</cac:LineItem></cac:OrderLine>`
		);
		expect(acknowledgement.whole).toBeNull();
		expect(acknowledgement.lines.map(({ answer }) => answer)).toEqual(['accepted', 'refused']);
	});

	it.each([
		['AB', 'only that the order has been received'],
		['CA', 'no line says which']
	])('code %s without lines is no answer', (code, reason) => {
		const reading = readOrderResponse(
			'a.xml',
			response(
				`<cbc:OrderResponseCode>${code}</cbc:OrderResponseCode><cac:OrderReference><cbc:ID>1</cbc:ID></cac:OrderReference>${parties}`
			)
		);
		if (reading.ok) throw new Error('it should not be an answer');
		expect(reading.message).toContain('nothing to compare');
		expect(reading.message).toContain(reason);
	});
});

describe('prices', () => {
	const priced = (price: string, quantity = '<cbc:Quantity unitCode="EA">4</cbc:Quantity>'): string =>
		answered(`${quantity}<cac:Price>${price}</cac:Price>${item}`);
	const one = (body: string): { price: string | null; reasons: string } => {
		const { acknowledgement, questions } = readAnswer(body);
		return {
			price: acknowledgement.lines[0]?.unitPrice ?? null,
			reasons: questions.map(({ reason }) => reason).join('; ')
		};
	};

	it.each([
		['12', '12.00'],
		['12.5', '12.50'],
		['.125', '0.125'],
		['0', '0.00']
	])('%s is %s for one', (written, price) => {
		expect(one(priced(`<cbc:PriceAmount currencyID="USD">${written}</cbc:PriceAmount>`))).toEqual({
			price,
			reasons: ''
		});
	});

	it.each([
		['<cbc:PriceAmount>12</cbc:PriceAmount>', 'no currencyID'],
		['<cbc:PriceAmount currencyID="XYZ">12</cbc:PriceAmount>', 'no currency of ISO 4217'],
		['<cbc:PriceAmount currencyID="USD">-12</cbc:PriceAmount>', 'below 0'],
		['<cbc:PriceAmount currencyID="USD">1e3</cbc:PriceAmount>', 'not a number'],
		['<cbc:PriceAmount currencyID="USD">1,200.00</cbc:PriceAmount>', 'not a number'],
		[
			'<cbc:PriceAmount currencyID="USD">12</cbc:PriceAmount><cbc:BaseQuantity unitCode="PR">1</cbc:BaseQuantity>',
			'for 1 pair'
		],
		[
			'<cbc:PriceAmount currencyID="USD">12</cbc:PriceAmount><cbc:BaseQuantity unitCode="EA">0</cbc:BaseQuantity>',
			'for nothing'
		],
		[
			'<cbc:PriceAmount currencyID="USD">12</cbc:PriceAmount><cbc:OrderableUnitFactorRate>12</cbc:OrderableUnitFactorRate>',
			'another unit'
		],
		['<cbc:BaseQuantity unitCode="EA">1</cbc:BaseQuantity>', 'PriceAmount is missing']
	])('%s is asked', (price, reason) => {
		const read = one(priced(price));
		expect(read.price).toBeNull();
		expect(read.reasons).toContain(reason);
	});

	it('asks when prices of one answer are in several currencies', () => {
		const line = (currency: string): string =>
			`<cac:OrderLine><cac:LineItem><cbc:ID>1</cbc:ID><cac:Price><cbc:PriceAmount currencyID="${currency}">1</cbc:PriceAmount></cac:Price>${item}</cac:LineItem></cac:OrderLine>`;
		const { acknowledgement, questions } = readAnswer(
			`<cac:OrderReference><cbc:ID>1</cbc:ID></cac:OrderReference>${parties}${line('USD')}${line('EUR')}`
		);
		expect(acknowledgement.currency).toBeNull();
		expect(questions.map(({ text }) => text)).toContain('USD, EUR');
	});
});

describe('which order and which line', () => {
	it.each([
		['3', 3],
		['L14', 14],
		['Line 007', 7],
		['1042-03/3', null],
		['0', null]
	])('LineID %s is line %s', (written, number) => {
		const { acknowledgement, questions } = readAnswer(
			answered(item, `<cac:OrderLineReference><cbc:LineID>${written}</cbc:LineID></cac:OrderLineReference>`)
		);
		expect(acknowledgement.lines[0]?.orderLine).toBe(number);
		expect(questions).toHaveLength(number === null ? 1 : 0);
	});

	it('asks when two places name two revisions', () => {
		const { acknowledgement, questions } = readAnswer(
			`<cac:OrderReference><cbc:ID>1042-03 rev 2</cbc:ID><cac:DocumentReference><cbc:ID>x</cbc:ID><cbc:VersionID>3</cbc:VersionID></cac:DocumentReference></cac:OrderReference>${parties}<cac:OrderLine><cac:LineItem><cbc:ID>1</cbc:ID>${item}</cac:LineItem></cac:OrderLine>`
		);
		expect(acknowledgement).toMatchObject({ orderNumber: '1042-03', orderRevision: null });
		expect(questions).toHaveLength(1);
	});

	it('asks when an answer is to two orders', () => {
		const { acknowledgement, questions } = readAnswer(
			`<cac:OrderReference><cbc:ID>1</cbc:ID></cac:OrderReference><cac:OrderReference><cbc:ID>2</cbc:ID></cac:OrderReference>${parties}<cac:OrderLine><cac:LineItem><cbc:ID>1</cbc:ID>${item}</cac:LineItem></cac:OrderLine>`
		);
		expect(acknowledgement.orderNumber).toBeNull();
		expect(questions).toHaveLength(1);
	});
});

describe('what is no such document', () => {
	const message = (bytes: Uint8Array): string => {
		const reading = readPurchaseDocument('file.xml', bytes, { measures: 'metric' });
		return reading.ok ? 'read' : reading.message;
	};

	it.each([
		[
			`<Invoice ${namespaces('Invoice')}/>`,
			'this is an Invoice; an OrderResponse or a DespatchAdvice is wanted'
		],
		[`<Order ${namespaces('Order')}/>`, 'this is an Order;'],
		['<DespatchAdvice/>', 'its DespatchAdvice has no namespace'],
		[`<DespatchAdvice xmlns="urn:example"/>`, 'of the namespace urn:example'],
		['<html><body/></html>', 'another kind (html)'],
		[`<DespatchAdvice ${namespaces('DespatchAdvice')}/>`, 'no DespatchLine'],
		['PK\u0003\u0004', 'not XML'],
		['', 'is empty']
	])('%s', (text, expected) => {
		expect(message(bytesOf(text))).toContain(expected);
	});

	it.each([
		['<?xml version="1.0"?><a/>', true],
		['\uFEFF  <DespatchAdvice', true],
		['Mark,Qty', false],
		['<3 boxes', false]
	])('%s looks like XML: %s', (text, is) => {
		expect(looksLikeXml(bytesOf(text))).toBe(is);
	});

	it('tells the one that is wanted when only one is', () => {
		const despatch = readFileSync(`${folder}/despatch-by-crates.xml`);
		const answer = readFileSync(`${folder}/answer-as-a-whole.xml`);
		const [one, other] = [
			readOrderResponse('d.xml', despatch),
			readDespatchAdvice('a.xml', answer, { measures: 'metric' })
		];
		expect(!one.ok && one.message).toBe('d.xml: this is a DespatchAdvice; an OrderResponse is wanted.');
		expect(!other.ok && other.message).toBe('a.xml: this is an OrderResponse; a DespatchAdvice is wanted.');
	});
});
