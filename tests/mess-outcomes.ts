/**
 * The ugly packing lists, read from their files and held against their order: what became of each line beside what was
 * worked out for it by hand.
 */
import { Decimal } from 'decimal.js';
import { readPackingList } from '../src/lib/exchange/packing-list.ts';
import { readDespatchAdvice } from '../src/lib/exchange/purchase-documents/despatch-advice.ts';
import { readTableFile } from '../src/lib/exchange/table-file.ts';
import { compareDelivery, type CompareOptions, type DeliveryList } from '../src/lib/delivery/compare.ts';
import type { ComparedLine, ListQuestion } from '../src/lib/delivery/comparison.ts';
import type { PackingFacts, PackingLine } from '../src/lib/delivery/line.ts';
import type { Alias } from '../src/lib/delivery/line-decision.ts';
import { messOrder, type ExpectedLine, type MessList } from './mess-fixtures.ts';

/** The reader says that it finds no table of parts. */
class ListRefused extends Error {}

const { jobName, order, parts, retired, openings } = messOrder();

const aliasOf = (given: Pick<Alias, 'phrase' | 'kind' | 'item' | 'hand'>, at: number): Alias => ({
	...given,
	aliasId: `alias-${at}`,
	supplierId: order.supplierId
});

interface Reading {
	readonly lines: readonly PackingLine[];
	readonly facts: PackingFacts;
	readonly questions: readonly { readonly line: number; readonly field?: string | null }[];
}

async function readLines({ name, bytes }: MessList): Promise<Reading> {
	if (name.endsWith('.xml')) {
		const reading = readDespatchAdvice(name, bytes, { measures: 'imperial' });
		if (!reading.ok) throw new Error(`${name}: ${reading.message}`);
		return reading;
	}
	const table = await readTableFile(name, bytes);
	if (!table.ok) throw new Error(`${name}: ${table.message}`);
	const reading = readPackingList(table.sheets, { measures: 'imperial' });
	if (!reading.ok) throw new ListRefused(reading.message);
	return reading;
}

interface ListRead {
	readonly list: DeliveryList;
	/** Lines with a cell that the reader asks about. */
	readonly unread: ReadonlySet<number>;
}

async function listOf(mess: MessList): Promise<ListRead> {
	const { lines, facts, questions } = await readLines(mess);
	const { handsFrom, sizes } = mess.expected.supplier;
	const list = {
		deliveryId: mess.name,
		name: mess.name,
		lines,
		facts,
		supplierId: order.supplierId,
		handsFrom,
		sizes
	};
	return {
		list,
		unread: new Set(questions.flatMap(({ line, field }) => ((field ?? null) === null ? [] : [line])))
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

export interface Outcome {
	readonly place: string;
	readonly expected: ExpectedLine['outcome'];
	/** Counts without a question, and as expected. */
	readonly right: boolean;
	readonly asked: boolean;
	readonly told: string;
	readonly why: string;
}

/**
 * What became of every line of a list that was expected, after the lists that came before it.
 * `messes` are all lists of its folder.
 */
async function outcomesOf(mess: MessList, messes: readonly MessList[]): Promise<Outcome[]> {
	const earlier = mess.expected.after.flatMap((name) => messes.find((one) => one.name === name) ?? []);
	const read = await Promise.all([...earlier, mess].map(listOf));
	const unread = read.at(-1)?.unread ?? new Set<number>();
	const aliases = mess.expected.aliases.map(aliasOf);
	const comparison = compareDelivery(
		parts,
		read.map(({ list }) => list),
		{ ...options, aliases }
	);
	const question = comparison.lists.at(-1)?.question ?? null;
	const lines = comparison.lines.filter(({ deliveryId }) => deliveryId === mess.name);
	return mess.expected.lines.map((expected, at): Outcome => {
		const place = `${mess.name} line ${expected.line}`;
		const line = mess.name.endsWith('.xml') ? lines[at] : lines.find((one) => one.line === expected.line);
		if (!line)
			return { place, expected: expected.outcome, right: false, asked: false, told: 'no such line', why: '' };
		// A line that is doubtful for a cell that can’t be read is asked about by the reader.
		const asked = isAsked(line, question) || (expected.outcome === 'asked' && unread.has(expected.line));
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
}

/** A list that is refused as a whole: nothing is counted, and a person is told. */
const refused = (mess: MessList, reason: string): Outcome[] =>
	mess.expected.lines.map((expected) => ({
		place: `${mess.name} line ${expected.line}`,
		expected: expected.outcome,
		right: false,
		asked: true,
		told: reason,
		why: expected.why
	}));

/** What became of every line of every list of a folder. */
export async function allOutcomes(messes: readonly MessList[]): Promise<Outcome[]> {
	const all: Outcome[] = [];
	for (const mess of messes)
		all.push(
			...(await outcomesOf(mess, messes).catch((error: unknown) => {
				if (error instanceof ListRefused) return refused(mess, error.message);
				throw error;
			}))
		);
	return all;
}

/** Lines that are neither right nor asked about. */
export const wrongInSilence = (all: readonly Outcome[]): string[] =>
	all.filter((one) => !one.right && !one.asked).map(({ place, told }) => `${place}: ${told}`);

/** Of the lines that are sure, the share that is right without a question: 0 to 1. */
export function shareRight(all: readonly Outcome[]): number {
	const sure = all.filter(({ expected }) => expected === 'sure');
	return sure.filter((one) => one.right).length / sure.length;
}

/** The figures, and every line that is otherwise than expected. */
export function figures(all: readonly Outcome[]): string {
	const sure = all.filter(({ expected }) => expected === 'sure');
	const asked = all.filter((one) => one.asked);
	const rows = all.filter((one) => !one.right && !(one.asked && one.expected === 'asked'));
	return [
		`${all.length} lines`,
		`sure as expected ${sure.filter((one) => one.right).length} of ${sure.length} (${(100 * shareRight(all)).toFixed(1)} %)`,
		`asked about ${asked.length}, of which ${asked.filter(({ expected }) => expected === 'asked').length} as expected`,
		...rows.map(
			(one) =>
				`${one.place}, expected ${one.expected}${one.asked ? ', asked' : ''}: ${one.told} || ${one.why}`
		)
	].join('\n');
}
