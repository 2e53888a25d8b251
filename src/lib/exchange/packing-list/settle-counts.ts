/**
 * Which column is ordered, which is on this list and which is still to come. By their names first; where the names are
 * not enough, by arithmetic: ordered = on this list + still to come. What neither tells is asked.
 */
import { headingWords } from '../heading-words.ts';
import type { ColumnReading } from '../headings.ts';
import { columnLetter, oneLine, shown, textOf, type SheetRow } from '../sheet.ts';
import { packingNames, type PackingField } from './fields.ts';
import { readCount } from './read-count.ts';
import { saysNothing } from './read-line.ts';

type Column = ColumnReading<PackingField>;
const roles = ['ordered', 'quantity', 'backordered'] as const;
type Role = (typeof roles)[number];
type Doubt = 'bare' | 'balance';

export interface SettledCounts {
	readonly columns: readonly Column[];
	/** Columns that may be the quantity, where it is not settled; a line in which all say the same is read. */
	readonly maybeQuantity: readonly number[];
	readonly questions: readonly { readonly column: Column; readonly reason: string }[];
}

/** Share of the lines in which the sum has to hold. */
const nearlyAll = 0.9;

const doubts: ReadonlyMap<string, Doubt> = new Map([
	...['quantity', 'pieces', 'pcs', 'count', 'number off', 'quantity pcs', 'quantity pieces'].map(
		(name) => [headingWords(name).join(' '), 'bare'] as const
	),
	...[
		'balance',
		'quantity balance',
		'balance due',
		'due',
		'quantity due',
		'remaining',
		'quantity remaining',
		'open',
		'quantity open',
		'rest'
	].map((name) => [headingWords(name).join(' '), 'balance'] as const)
]);

const isRole = (field: PackingField | null | undefined): field is Role =>
	field === 'ordered' || field === 'quantity' || field === 'backordered';

const keysOf = ({ heading, group }: Column): string[] => {
	const own = headingWords(heading);
	const both = Array.from(new Set([...own, ...headingWords(group)])).sort();
	return [own.join(' '), both.join(' ')];
};

const doubtOf = (column: Column): Doubt | null => {
	if (keysOf(column).some((key) => isRole(packingNames.sure.get(key)))) return null;
	return (
		keysOf(column)
			.map((key) => doubts.get(key))
			.find((doubt) => doubt !== undefined) ?? null
	);
};

/** Count in a cell; 0 where nothing is written, null where it can't be read. */
function countIn(row: SheetRow, index: number): number | null {
	const text = oneLine(textOf(row.cells[index]));
	if (/^[-–—]?$/u.test(text)) return 0;
	const read = readCount(text, true);
	return read.ok ? read.value : null;
}

/** Lines in which all three can be read and something was ordered, and in how many of them the sum holds. */
function weigh(
	rows: readonly SheetRow[],
	at: Readonly<Record<Role, number>>
): { lines: number; hold: number; tell: number } {
	let [lines, hold, tell] = [0, 0, 0];
	for (const row of rows) {
		const ordered = countIn(row, at.ordered);
		const here = countIn(row, at.quantity);
		const later = countIn(row, at.backordered);
		if (ordered === null || here === null || later === null || ordered === 0) continue;
		lines++;
		if (Math.abs(ordered - here - later) < 1e-9) {
			hold++;
			if (later > 0) tell++;
		}
	}
	return { lines, hold, tell };
}

/**
 * @param chosen columns that a person has told; they are not looked at
 * @param rows the lines below the headings
 */
export function settleCounts(
	columns: readonly Column[],
	chosen: ReadonlySet<number>,
	rows: readonly SheetRow[]
): SettledCounts {
	const sure = new Map<Role, number>();
	const doubtful: { column: Column; doubt: Doubt }[] = [];
	for (const column of columns) {
		const doubt = chosen.has(column.index) ? null : doubtOf(column);
		if (doubt !== null) doubtful.push({ column, doubt });
		else if (isRole(column.field)) sure.set(column.field, column.index);
	}
	const settled = new Map<number, { field: Role | null; how: string }>();
	const questions: { column: Column; reason: string }[] = [];
	let maybeQuantity: readonly number[] = [];
	const leave = (column: Column, reason: string): void => {
		settled.set(column.index, { field: null, how: 'not clear what it counts' });
		questions.push({ column, reason });
	};
	const [only] = doubtful;
	if (!only) return { columns, maybeQuantity, questions };
	const { found, many } = bySum(doubtful, sure, rows);
	if (found) {
		for (const { column } of doubtful) {
			const role = roles.find((each) => found.at[each] === column.index) ?? null;
			settled.set(column.index, {
				field: role,
				how:
					role === null
						? 'the other columns add up without it'
						: `${shown(column.heading)}: ordered = here + to follow in ${found.hold} of ${found.lines} lines`
			});
		}
	} else if (many) {
		const names = doubtful.map(({ column }) => `${column.letter} “${shown(column.heading)}”`).join(', ');
		for (const { column } of doubtful)
			settled.set(column.index, { field: null, how: 'not clear what it counts' });
		questions.push({
			column: only.column,
			reason: `${names}: the sums do not tell which is on this list and which is still to come; say which`
		});
		maybeQuantity = sure.has('quantity') ? [] : doubtful.map(({ column }) => column.index);
	} else {
		const bare = doubtful.filter(({ doubt }) => doubt === 'bare').map(({ column }) => column);
		for (const { column, doubt } of doubtful) {
			if (doubt !== 'balance') continue;
			if (rows.every((row) => countIn(row, column.index) === 0))
				settled.set(column.index, {
					field: sure.has('backordered') ? null : 'backordered',
					how: 'nothing stands in it'
				});
			else if (isLeftOver(column, sure, rows))
				settled.set(column.index, {
					field: 'backordered',
					how: `heading “${shown(column.heading)}”; less than what is on this list in some lines, so what is left after it`
				});
			else
				leave(
					column,
					`“${shown(column.heading)}” may be what is to follow after this list or before it, and the sums do not tell; say which, or leave it out`
				);
		}
		const [first, ...more] = bare;
		if (first) maybeQuantity = settleBare(first, sure, rows, settled, leave);
		for (const column of more)
			leave(column, `a second column “${shown(column.heading)}”; say which is on this list`);
	}
	return {
		columns: columns.map((column) => {
			const now = settled.get(column.index);
			return now ? { ...column, ...now } : column;
		}),
		maybeQuantity,
		questions
	};
}

/**
 * Whether a balance is what is left after this list. What was open before it is never less than what it brings, unless it
 * brings too much; so two lines or more have to say so, and one has to have something left.
 */
function isLeftOver(column: Column, sure: ReadonlyMap<Role, number>, rows: readonly SheetRow[]): boolean {
	const here = sure.get('quantity');
	if (here === undefined || sure.has('backordered')) return false;
	const counts = rows.flatMap((row) => {
		const [left, brought] = [countIn(row, column.index), countIn(row, here)];
		return left === null || brought === null || saysNothing(oneLine(textOf(row.cells[column.index])))
			? []
			: [{ left, brought }];
	});
	return (
		counts.filter(({ left, brought }) => left < brought).length >= 2 && counts.some(({ left }) => left > 0)
	);
}

/** A single `Qty` beside columns whose names are clear. Gives the columns that may be the quantity where it stays open. */
function settleBare(
	column: Column,
	sure: ReadonlyMap<Role, number>,
	rows: readonly SheetRow[],
	settled: Map<number, { field: Role | null; how: string }>,
	leave: (column: Column, reason: string) => void
): readonly number[] {
	const name = `“${shown(column.heading)}”`;
	const here = sure.get('quantity');
	const later = sure.get('backordered');
	const compare = (other: number, test: (own: number, other: number) => boolean): boolean =>
		rows.some((row) => {
			const [a, b] = [countIn(row, column.index), countIn(row, other)];
			return a !== null && b !== null && test(a, b);
		});
	if (here !== undefined) {
		if (sure.has('ordered') || compare(here, (own, other) => own < other))
			leave(
				column,
				`${name} stands beside ${columnLetter(here)}, which is on this list; say what it counts, or leave it out`
			);
		else
			settled.set(column.index, {
				field: 'ordered',
				how: `heading ${name} beside ${columnLetter(here)}, which is on this list`
			});
		return [];
	}
	if (later === undefined || sure.has('ordered')) {
		settled.set(column.index, { field: 'quantity', how: `heading ${name}` });
		return [];
	}
	if (compare(later, (own, other) => own < other)) {
		settled.set(column.index, {
			field: 'quantity',
			how: `heading ${name}; less than what is to follow, so not what was ordered`
		});
		return [];
	}
	if (!compare(later, (_, other) => other > 0)) {
		settled.set(column.index, { field: 'quantity', how: `heading ${name}; nothing is to follow` });
		return [];
	}
	leave(column, `${name} may be what was ordered or what is on this list; say which`);
	return [column.index];
}

/** The one way in which the sum holds in nearly all lines, and whether there are several. */
function bySum(
	doubtful: readonly { column: Column; doubt: Doubt }[],
	sure: ReadonlyMap<Role, number>,
	rows: readonly SheetRow[]
): { found: { at: Record<Role, number>; hold: number; lines: number } | null; many: boolean } {
	const ways: { at: Record<Role, number>; hold: number; lines: number }[] = [];
	const choices = (role: Role): number[] => {
		const told = sure.get(role);
		if (told !== undefined) return [told];
		return doubtful
			.filter(({ doubt }) => doubt === 'bare' || role === 'backordered')
			.map(({ column }) => column.index);
	};
	for (const ordered of choices('ordered'))
		for (const quantity of choices('quantity'))
			for (const backordered of choices('backordered')) {
				if (new Set([ordered, quantity, backordered]).size < 3) continue;
				const at = { ordered, quantity, backordered };
				const { lines, hold, tell } = weigh(rows, at);
				if (lines > 0 && hold >= lines * nearlyAll && tell > 0) ways.push({ at, hold, lines });
			}
	// A column called balance is what is to follow, before any bare one is.
	const balanced = ways.filter(({ at }) =>
		doubtful.some(({ column, doubt }) => doubt === 'balance' && column.index === at.backordered)
	);
	const left = balanced.length > 0 ? balanced : ways;
	return { found: left.length === 1 ? (left[0] ?? null) : null, many: left.length > 1 };
}
