/** The ugly packing lists hang together: checked against the order and the demo shop book's figures, not by the matcher. */
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import type { Part } from '../src/lib/takeoff/result.ts';
import { type ExpectedLine, type MessList, messLists, messOrder } from './mess-fixtures.ts';

const { order, parts, retired, openings } = messOrder();
const lists = [...messLists(), ...messLists('messes-blind')];
const linesByNumber = new Map(order.lines.map((line) => [line.number, line]));
const inch = 25_400_000;

const sum = (texts: readonly string[]): Decimal =>
	texts.reduce((total, text) => total.plus(text), new Decimal(0));

/** Parts an expected line speaks of. */
function partsMeant({ meaning }: ExpectedLine): Part[] {
	const ids = new Set((meaning.orderLines ?? []).flatMap((n) => linesByNumber.get(n)?.partIds ?? []));
	return parts.filter((part) => ids.has(part.partId) && meaning.marks?.includes(part.mark) === true);
}

/** Lists of earlier trucks, then the list itself. */
const withEarlier = (list: MessList): MessList[] => [
	...list.expected.after.flatMap((name) => lists.filter((other) => other.name === name)),
	list
];

describe('the order', () => {
	it('has a part for every opening of every line, and the counts come out', () => {
		for (const line of order.lines) {
			const own = parts.filter((part) => line.partIds.includes(part.partId));
			expect(own.map((part) => part.openingId).toSorted()).toEqual([...line.openingIds].toSorted());
			expect(sum(own.map((part) => part.quantity)).toString(), String(line.number)).toBe(line.quantity);
		}
		expect(new Set([...parts, ...retired].map((part) => part.partId)).size).toBe(
			parts.length + retired.length
		);
		expect(parts.filter((part) => part.supersedes !== null).map((part) => part.supersedes)).toEqual(
			expect.arrayContaining(retired.map((part) => part.partId))
		);
	});

	it('has the sizes of the demo shop book’s figures', () => {
		// Setback, engagement and bracket offset a side, extension of the guide: demo shop book, in inches.
		const counter = { setback: 0.25, engagement: 1.25, offset: 2, extension: 2 };
		const store = { setback: 0.5, engagement: 1.875, offset: 3, extension: 2 };
		for (const part of parts) {
			const opening = openings.find(({ openingId }) => openingId === part.openingId);
			if (!opening) throw new Error(part.openingId);
			const guide = /^[CT]/u.test(part.mark) ? counter : store;
			const mouth = opening.width + 2 * guide.setback * inch;
			if (part.kind === 'guide') expect(part.length).toBe(opening.height + guide.extension * inch);
			if (part.kind === 'curtain') expect(part.width).toBe(mouth + 2 * guide.engagement * inch);
			if (part.kind === 'bottomBar') expect(part.length).toBe(mouth + 2 * guide.engagement * inch);
			if (part.kind === 'barrel') expect(part.length).toBe(mouth + 2 * guide.offset * inch);
			if (part.kind === 'hoodPiece') {
				// Laps of 2 in between the pieces of an opening.
				const pieces = Number(part.quantity);
				expect(pieces * (part.length ?? 0)).toBe(mouth + 2 * guide.offset * inch + (pieces - 1) * 2 * inch);
			}
		}
	});
});

describe('the lists', () => {
	it('are many, and most of their lines are sure', () => {
		const lines = lists.flatMap(({ expected }) => expected.lines);
		expect(lines.length).toBeGreaterThanOrEqual(250);
		expect(lines.filter(({ outcome }) => outcome === 'sure').length / lines.length).toBeGreaterThan(0.75);
	});

	it.each(lists)('$name: order lines, marks and amounts hang together', ({ expected }) => {
		for (const line of expected.lines) {
			const { orderLines, marks, quantity } = line.meaning;
			for (const number of orderLines ?? []) expect(linesByNumber.has(number)).toBe(true);
			for (const mark of marks ?? []) expect(openings.some((opening) => opening.mark === mark)).toBe(true);
			expect(line.amounts === null).toBe(line.outcome !== 'sure');
			if (line.amounts === null) continue;
			const { whole, over, damaged, wrong } = line.amounts;
			expect(sum([whole, over, damaged, wrong]).toString()).toBe(quantity);
			expect(partsMeant(line).length).toBeGreaterThan(0);
			expect(line.differences.length > 0).toBe(line.state === 'wrong');
		}
	});

	it.each(lists)('$name: exact and short follow from the counts', (list) => {
		const sure = withEarlier(list).flatMap(({ expected }) =>
			expected.lines.filter(({ outcome }) => outcome === 'sure')
		);
		for (const line of list.expected.lines) {
			if (line.outcome !== 'sure') continue;
			const meant = partsMeant(line);
			const touching = sure.filter((other) => partsMeant(other).some((part) => meant.includes(part)));
			const wanted = sum(meant.map((part) => part.quantity)).toNumber();
			const whole = sum(touching.map((other) => other.amounts?.whole ?? '0')).toNumber();
			const why = `line ${line.line}: ${whole} of ${wanted}`;
			if (line.state === 'exact' || line.state === 'over') expect(whole, why).toBe(wanted);
			if (line.state === 'short' || line.state === 'backordered') expect(whole, why).toBeLessThan(wanted);
			expect(whole, why).toBeLessThanOrEqual(wanted);
		}
	});

	it.each(lists.filter(({ name }) => /\.(?:csv|txt)$/u.test(name)))(
		'$name: every line below the headings is told',
		({ bytes, expected }) => {
			const texts = new TextDecoder().decode(bytes).split('\n');
			const told = [...expected.lines, ...expected.skipped].map(({ line }) => line).toSorted((a, b) => a - b);
			const first = told[0] ?? 0;
			const filled = texts.flatMap((text, at) => (at + 1 >= first && /[^\s,;]/u.test(text) ? [at + 1] : []));
			expect(told).toEqual(filled);
		}
	);

	it.each(lists.filter(({ name }) => name.endsWith('.xml')))(
		'$name: a reading for every DespatchLine',
		({ bytes, expected }) => {
			const count = new TextDecoder().decode(bytes).split('<cac:DespatchLine>').length - 1;
			expect(expected.lines.map(({ line }) => line)).toEqual(
				Array.from({ length: count }, (_, at) => at + 1)
			);
		}
	);
});
