/** The material list as delimited text: what stands in it, and that nothing in it runs as a formula. */
import { expect, test } from 'vitest';
import { readDelimited } from '../../src/lib/exchange/delimited-text.ts';
import { materialHeadings, materialListText } from '../../src/lib/exchange/material-list.ts';
import { textOf } from '../../src/lib/exchange/sheet.ts';
import { materialList } from '../../src/lib/takeoff/parts.ts';
import type { Part } from '../../src/lib/takeoff/result.ts';
import { engineOf, openingA, typedRow } from '../opening-rows.ts';

const part: Part = {
	partId: 'P-11111-22222',
	openingId: 'C-1.1',
	mark: 'C-1',
	kind: 'curtain',
	title: 'Curtain, counter slat',
	side: null,
	item: 'counter-slat',
	// 10'-3" = 123 in and 5'-9" = 69 in, by 25.4 mm an inch
	width: 123 * 25_400_000,
	length: 69 * 25_400_000,
	size: '',
	hand: 'left',
	finish: 'mill',
	quantity: '1',
	unit: 'each',
	supply: 'maker',
	interchangeKey: 'any',
	task: 'coil',
	supersedes: 'P-00000-00000'
};

const lines = (text: string): string[] =>
	text
		.replace(/^\uFEFF/u, '')
		.split('\r\n')
		.slice(0, -1);

test('one line a part under the headings, lengths as people write them', () => {
	const text = materialListText([part], 'imperial');
	expect(text.startsWith('\uFEFF')).toBe(true);
	expect(lines(text)).toEqual([
		'Part id,Opening,Mark,Kind,What it is,Item,Size,Width,Length,Hand,Finish,Quantity,Unit,Supply,Needed for,Takes the place of',
		`P-11111-22222,C-1.1,C-1,curtain,"Curtain, counter slat",counter-slat,,"10'-3""","5'-9""",left,mill,1,each,maker,coil,P-00000-00000`
	]);
	// 123 × 25.4 = 3124.2; 69 × 25.4 = 1752.6
	expect(lines(materialListText([part], 'metric'))[1]).toContain(',3124.2 mm,1752.6 mm,');
});

test.each(['=cmd()', '+1+1', '-2+3', '@SUM(1)', '\tx', '\r=1'])('%j does not run as a formula', (mark) => {
	const text = materialListText([{ ...part, mark, openingId: `${mark}.1` }], 'imperial');
	for (const field of text.split(/,|\r\n/u)) expect(field).not.toMatch(/^"?[=+\-@\t\r]/u);
});

test('what was made safe comes back as it was', () => {
	const text = materialListText([{ ...part, mark: '=cmd()' }], 'imperial');
	const reading = readDelimited('list.csv', new TextEncoder().encode(text));
	if (!reading.ok) throw new Error(reading.message);
	const at = materialHeadings.indexOf('Mark');
	expect(textOf(reading.sheet.rows[1]?.cells[at])).toBe('=cmd()');
});

test('opening A (worked by hand in the demo book): curtain 10′-3″ × 5′-9″, guides 4′-2″, barrel 10′-4 1/2″', () => {
	const engine = engineOf();
	const job = engine.takeoff([typedRow(openingA)], 'imperial');
	const text = materialListText(materialList(engine, job), 'imperial');
	const of = (kind: string) => lines(text).filter((line) => line.split(',')[3] === kind);
	// curtainWidth 123, curtainLength 69; guideLength 50; bracketDistance 124.5
	expect(of('curtain')[0]).toContain(`"10'-3""","5'-9"""`);
	expect(of('guide')).toHaveLength(2);
	expect(of('guide')[0]).toContain(`"4'-2"""`);
	expect(of('barrel')[0]).toContain(`"10'-4 1/2"""`);
});
