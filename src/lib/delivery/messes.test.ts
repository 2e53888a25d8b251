/**
 * The ugly packing lists of `fixtures/deliveries/messes`, read from their files and held against their order. What each
 * line means was worked out by hand beside each file, before this code was written. Counted here: lines that are sure and
 * matched right without a question, lines that are right or asked about, and lines matched wrongly in silence: none.
 */
import { Decimal } from 'decimal.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { messLists, messOrder, type ExpectedLine, type MessList } from '../../../tests/mess-fixtures.ts';
import { readPackingList } from '../exchange/packing-list.ts';
import { readDespatchAdvice } from '../exchange/purchase-documents/despatch-advice.ts';
import { readTableFile } from '../exchange/table-file.ts';
import { compareDelivery, type Comparison, type CompareOptions, type DeliveryList } from './compare.ts';
import type { ComparedLine, ListQuestion } from './comparison.ts';
import type { PackingFacts, PackingLine } from './line.ts';
import type { Alias } from './line-decision.ts';

const { jobName, order, parts, retired, openings } = messOrder();
const messes = messLists();

const aliasOf = (given: Pick<Alias, 'phrase' | 'kind' | 'item' | 'hand'>, at: number): Alias => ({
	...given,
	aliasId: `alias-${at}`,
	supplierId: order.supplierId
});

async function readLines({
	name,
	bytes
}: MessList): Promise<{ lines: readonly PackingLine[]; facts: PackingFacts }> {
	if (name.endsWith('.xml')) {
		const reading = readDespatchAdvice(name, bytes, { measures: 'imperial' });
		if (!reading.ok) throw new Error(`${name}: ${reading.message}`);
		return reading;
	}
	const table = await readTableFile(name, bytes);
	if (!table.ok) throw new Error(`${name}: ${table.message}`);
	const reading = readPackingList(table.sheets, { measures: 'imperial' });
	if (!reading.ok) throw new Error(`${name}: ${reading.message}`);
	return reading;
}

async function listOf(mess: MessList): Promise<DeliveryList> {
	const { lines, facts } = await readLines(mess);
	const { handsFrom, sizes } = mess.expected.supplier;
	return {
		deliveryId: mess.name,
		name: mess.name,
		lines,
		facts,
		supplierId: order.supplierId,
		handsFrom,
		sizes
	};
}

const options: CompareOptions = {
	orders: [{ orderNumber: order.number, revision: order.revision, lines: order.lines }],
	retired,
	jobNames: [jobName],
	placesSizes: openings.map(({ openingId, width, height, overallWidth }) => ({
		name: openingId,
		openingWidth: width,
		openingHeight: height,
		overallWidth
	}))
};

/** Lines of our order that hold the parts of a compared line. */
const orderLinesOf = ({ partIds }: ComparedLine): number[] =>
	order.lines.filter((line) => line.partIds.some((id) => partIds.includes(id))).map(({ number }) => number);

const marksOf = ({ partIds }: ComparedLine): string[] => [
	...new Set(parts.filter(({ partId }) => partIds.includes(partId)).map(({ mark }) => mark))
];

const isAsked = (line: ComparedLine, question: ListQuestion | null): boolean =>
	line.asked || question?.kind === 'isOurs' || question?.kind === 'isAnotherTruck';

/** Null when a line that was not asked about says all that was expected; else what is otherwise. */
function otherwise(expected: ExpectedLine, line: ComparedLine): string | null {
	const { meaning, amounts, differences, state } = expected;
	const told: string[] = [];
	const tell = (what: string, wanted: unknown, is: unknown): void => {
		if (JSON.stringify(wanted) !== JSON.stringify(is))
			told.push(`${what} ${JSON.stringify(is)}, expected ${JSON.stringify(wanted)}`);
	};
	const lines = orderLinesOf(line);
	if (state === 'exact') tell('order lines', meaning.orderLines, lines);
	if (meaning.orderLines && !lines.every((one) => meaning.orderLines?.includes(one)))
		tell('order lines', meaning.orderLines, lines);
	if (lines.length === 0) told.push('no order line');
	if (meaning.marks && !marksOf(line).every((mark) => meaning.marks?.includes(mark)))
		tell('marks', meaning.marks, marksOf(line));
	if (meaning.kind !== null) tell('kind', meaning.kind, line.kind);
	tell('differences', [...differences].sort(), line.differences.map(({ attribute }) => attribute).sort());
	if (state !== null) tell('state', state, line.state);
	if (amounts) {
		const { here, over, damaged, wrong, backordered } = line.amounts;
		tell('amounts', amounts, { whole: here, over, damaged, wrong, backordered });
	}
	return told.length === 0 ? null : told.join('; ');
}

interface Outcome {
	readonly place: string;
	readonly expected: ExpectedLine['outcome'];
	/** Counts without a question, and as expected. */
	readonly right: boolean;
	readonly asked: boolean;
	readonly told: string;
	readonly why: string;
}

async function outcomesOf(mess: MessList): Promise<{ outcomes: Outcome[]; comparison: Comparison }> {
	const earlier = mess.expected.after.flatMap((name) => messes.find((one) => one.name === name) ?? []);
	const lists = await Promise.all([...earlier, mess].map(listOf));
	const aliases = mess.expected.aliases.map(aliasOf);
	const comparison = compareDelivery(parts, lists, { ...options, aliases });
	const question = comparison.lists.at(-1)?.question ?? null;
	const lines = comparison.lines.filter(({ deliveryId }) => deliveryId === mess.name);
	const outcomes = mess.expected.lines.map((expected, at): Outcome => {
		const place = `${mess.name} line ${expected.line}`;
		const line = mess.name.endsWith('.xml') ? lines[at] : lines.find((one) => one.line === expected.line);
		if (!line)
			return { place, expected: expected.outcome, right: false, asked: false, told: 'no such line', why: '' };
		const asked = isAsked(line, question);
		const told = otherwise(expected, line);
		const counts = new Decimal(line.amounts.here).plus(line.amounts.over);
		const right =
			expected.outcome === 'notOurs'
				? counts.isZero()
				: expected.outcome === 'sure' && !asked && told === null;
		return {
			place,
			expected: expected.outcome,
			right,
			asked,
			told: told ?? '',
			why: `${line.text} | ${line.how} | ${expected.why}`
		};
	});
	return { outcomes, comparison };
}

describe('the ugly packing lists', () => {
	const all: Outcome[] = [];
	const comparisons = new Map<string, Comparison>();

	beforeAll(async () => {
		for (const mess of messes) {
			const { outcomes, comparison } = await outcomesOf(mess);
			all.push(...outcomes);
			comparisons.set(mess.name, comparison);
		}
		const sure = all.filter(({ expected }) => expected === 'sure');
		const right = sure.filter((one) => one.right);
		const askedAbout = all.filter((one) => one.asked);
		const rows = all.filter((one) => !one.right && !(one.asked && one.expected === 'asked'));
		console.info(
			[
				`${all.length} lines of ${messes.length} lists`,
				`sure as expected ${right.length} of ${sure.length} (${((100 * right.length) / sure.length).toFixed(1)} %)`,
				`asked about ${askedAbout.length}, of which ${askedAbout.filter(({ expected }) => expected === 'asked').length} as expected`,
				...rows.map(
					(one) =>
						`${one.place}, expected ${one.expected}${one.asked ? ', asked' : ''}: ${one.told} || ${one.why}`
				)
			].join('\n')
		);
	});

	it('are 250 lines or more', () => {
		expect(all.length).toBeGreaterThanOrEqual(250);
	});

	it('of the lines that are sure, 95 in 100 or more are matched right without a question', () => {
		const sure = all.filter(({ expected }) => expected === 'sure');
		expect(sure.filter((one) => one.right).length / sure.length).toBeGreaterThanOrEqual(0.95);
	});

	it('have no line matched wrongly in silence: each is right, or asked about', () => {
		expect(
			all.filter((one) => !one.right && !one.asked).map(({ place, told }) => `${place}: ${told}`)
		).toEqual([]);
	});
});
