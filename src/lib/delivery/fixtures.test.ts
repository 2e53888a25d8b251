/**
 * The invented packing lists in `fixtures/deliveries` against the takeoff of their jobs. What each line must be called
 * was worked out by hand in the `….expected.json` beside each list, before this code was written.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { engineOf, typedRow, type Typed } from '../../../tests/opening-rows.ts';
import type { Measures } from '../takeoff/inputs.ts';
import { materialList } from '../takeoff/parts.ts';
import type { Part } from '../takeoff/result.ts';
import { compareDelivery, type Comparison, type DeliveryList } from './compare.ts';
import type { LineState, PackingLine } from './line.ts';

interface ExpectedSchedule {
	readonly measures: Measures;
	readonly rows: readonly { readonly cells: Typed }[];
}

interface ExpectedLine extends Omit<PackingLine, 'length' | 'width'> {
	readonly lengthInches?: number | null;
	readonly widthInches?: number | null;
	readonly lengthMillimetres?: number | null;
	readonly widthMillimetres?: number | null;
}

interface ExpectedList {
	readonly lines: readonly ExpectedLine[];
	readonly states: readonly { readonly line: number; readonly state: LineState; readonly why: string }[];
}

const fixture = (path: string): string =>
	readFileSync(new URL(`../../../fixtures/${path}`, import.meta.url), 'utf8');

function partsOfJob(schedule: string): Part[] {
	const { measures, rows } = JSON.parse(fixture(`schedules/${schedule}.expected.json`)) as ExpectedSchedule;
	const engine = engineOf();
	return materialList(
		engine,
		engine.takeoff(
			rows.map(({ cells }) => typedRow(cells, measures)),
			measures
		)
	);
}

const nm = (inches?: number | null, millimetres?: number | null): number | null => {
	if (typeof inches === 'number') return Math.round(inches * 25_400_000);
	return typeof millimetres === 'number' ? Math.round(millimetres * 1_000_000) : null;
};

function listOf(name: string): { list: DeliveryList; expected: ExpectedList } {
	const expected = JSON.parse(fixture(`deliveries/${name}.expected.json`)) as ExpectedList;
	const lines = expected.lines.map(
		({ lengthInches, widthInches, lengthMillimetres, widthMillimetres, ...line }): PackingLine => ({
			...line,
			length: nm(lengthInches, lengthMillimetres),
			width: nm(widthInches, widthMillimetres)
		})
	);
	return { list: { deliveryId: name, name, lines }, expected };
}

const statesOf = (comparison: Comparison, deliveryId: string): Record<string, LineState> =>
	Object.fromEntries(
		comparison.lines
			.filter((line) => line.deliveryId === deliveryId)
			.map(({ line, state }) => [`line ${String(line)}`, state])
	);

const expectedStates = ({ states }: ExpectedList): Record<string, LineState> =>
	Object.fromEntries(states.map(({ line, state }) => [`line ${String(line)}`, state]));

const saltmarsh = partsOfJob('saltmarsh-pier');
const first = listOf('saltmarsh-truck-1');
const second = listOf('saltmarsh-truck-2');

describe('the invented packing lists', () => {
	it('calls every line of the first truck what it must be', () => {
		const comparison = compareDelivery(saltmarsh, [first.list]);
		expect(statesOf(comparison, 'saltmarsh-truck-1')).toEqual(expectedStates(first.expected));
	});

	it('calls every line of the second truck what it must be after the first', () => {
		const comparison = compareDelivery(saltmarsh, [first.list, second.list]);
		expect(statesOf(comparison, 'saltmarsh-truck-2')).toEqual(expectedStates(second.expected));
	});

	it('calls every line of the metric job what it must be', () => {
		const { list, expected } = listOf('kelpgate-truck-1');
		const comparison = compareDelivery(partsOfJob('kelpgate-ferry'), [list], { lengthStyle: 'mm' });
		expect(statesOf(comparison, 'kelpgate-truck-1')).toEqual(expectedStates(expected));
	});

	it('tells what is on no list', () => {
		const onNone = compareDelivery(saltmarsh, [first.list])
			.lines.filter(({ state }) => state === 'notListed')
			.map(({ mark, description }) => `${mark ?? ''} ${description}`);
		// From the same files: "C-101 drive"; "S-201 bottom bars, end caps and hood supports".
		for (const part of ['C-101 Tube motor', 'S-201 Bottom bar', 'S-201 Hood support'])
			expect(onNone).toContain(part);
		expect(onNone).toEqual(expect.arrayContaining(['S-201 End cap, left', 'S-201 End cap, right']));
		expect(onNone.filter((part) => part.startsWith('C-101')).sort()).toEqual(['C-101 Tube motor']);
	});

	it('tells which tasks can start after both trucks', () => {
		const { openings } = compareDelivery(saltmarsh, [first.list, second.list]);
		const clear = (openingId: string): string[] =>
			openings
				.find((opening) => opening.openingId === openingId)
				?.tasks.filter((task) => task.clear)
				.map(({ task }) => task) ?? [];
		// C-101: all but the drive came, and its key switch is the shop's own. S-201: right guides 2 in short, drives of the wrong hand.
		expect(clear('C-101.1')).toEqual(['guides', 'brackets', 'hood', 'power']);
		expect(clear('S-201.1')).toEqual(['brackets', 'power']);
		// One right guide came for two openings: the first of them has it.
		expect(clear('S-202.1')).toEqual(['guides', 'brackets', 'power']);
		expect(clear('S-202.2')).toEqual(['brackets', 'power']);
		const right = openings.find(({ openingId }) => openingId === 'S-201.1')?.tasks[0]?.holds;
		expect(right).toEqual(['Guide, right: 0 of 1 here (1 wrong length on line 17 of saltmarsh-truck-1).']);
	});
});
