/** Counts and ranges in mark cells: how many openings a row has, and of which marks. */
import { markOf, refusal, lineOf, staying, type Draft } from './draft.ts';
import { listed } from './preview.ts';
import type { Questions } from './questions.ts';
import type { ScheduleTable } from './table.ts';

const highestCount = 10_000;

const columnOf = ({ columns }: ScheduleTable, field: 'mark' | 'quantity') =>
	columns.find((column) => column.field === field) ?? null;

const quantityOf = ({ cells }: Draft): number | null =>
	typeof cells.quantity === 'number' ? cells.quantity : null;

/** A count in the mark is the quantity where no cell says another; where one does, a person says which holds. */
function settleCounts(drafts: readonly Draft[], table: ScheduleTable, questions: Questions): void {
	const counted = drafts.filter(({ count }) => count !== null);
	const both = counted.filter((draft) => quantityOf(draft) !== null);
	for (const draft of counted) {
		if (both.includes(draft) || draft.problems.some(({ field }) => field === 'quantity')) continue;
		if (draft.cells.openingNumber !== undefined || draft.count === null) continue;
		setQuantity(draft, table, draft.count);
		draft.notes.push(`quantity ${draft.count} stands in the mark`);
	}
	const [first] = both;
	if (!first) return;
	const same = both.every((draft) => draft.count === quantityOf(draft));
	const [count, quantity] = [first.count ?? 1, quantityOf(first) ?? 1];
	const column = { value: 'column', title: `the quantity cell: ${quantity} for ${markOf(first)}` };
	const mark = { value: 'mark', title: `the count in the mark: ${count} for ${markOf(first)}` };
	const times = {
		value: 'times',
		title: `both, one times the other: ${count * quantity} for ${markOf(first)}`
	};
	const answer = questions.ask({
		id: 'quantity',
		text: `A count stands in the mark and in the quantity cell too (${markOf(first)}: ${count} and ${quantity}). Which of them holds?`,
		lines: both.map(lineOf),
		choices: same ? [column, times] : [column, mark, times]
	});
	for (const draft of both) {
		const [inMark, inColumn] = [draft.count ?? 1, quantityOf(draft) ?? 1];
		if (answer === null) leaveOpen(draft);
		else
			setQuantity(
				draft,
				table,
				{ column: inColumn, mark: inMark, times: inMark * inColumn }[answer] ?? inColumn
			);
	}
}

function leaveOpen(draft: Draft): void {
	delete draft.cells.quantity;
	draft.quantityOpen = true;
}

function setQuantity(draft: Draft, table: ScheduleTable, quantity: number): void {
	if (quantity <= highestCount) {
		draft.cells.quantity = quantity;
		return;
	}
	leaveOpen(draft);
	const reason = `${quantity} openings of one mark; at most ${highestCount} are read`;
	draft.problems.push(
		refusal(
			table.sheet,
			draft.line,
			columnOf(table, 'quantity') ?? columnOf(table, 'mark'),
			'quantity',
			String(quantity),
			reason
		)
	);
}

/** One row for each mark of a range or list; a quantity above 1 is their total, or that of each. */
function settleRanges(drafts: readonly Draft[], questions: Questions): readonly Draft[] {
	const several = drafts.filter(
		(draft) => draft.out === null && draft.marks.length > 1 && markOf(draft) !== ''
	);
	const doubtful = several.filter((draft) => (quantityOf(draft) ?? 1) > 1);
	const [first] = doubtful;
	let answer: string | null = null;
	if (first) {
		const even = doubtful.every((draft) => (quantityOf(draft) ?? 1) % draft.marks.length === 0);
		const [quantity, marks] = [quantityOf(first) ?? 1, first.marks.length];
		const total = { value: 'total', title: `of all together: ${quantity / marks} of each mark` };
		const each = {
			value: 'each',
			title: `of each mark: ${quantity} of ${listed(first.marks.slice(0, 4))}${marks > 4 ? ' …' : ''}`
		};
		answer = questions.ask({
			id: 'range',
			text: `A row stands for several marks and has a quantity above 1 (${first.marks[0] ?? ''} to ${first.marks.at(-1) ?? ''}: ${quantity}). What is it the quantity of?`,
			lines: doubtful.map(lineOf),
			choices: even ? [total, each] : [each]
		});
	}
	return drafts.flatMap((draft) => {
		if (!several.includes(draft)) return [draft];
		const { marks, cells } = draft;
		const quantity = quantityOf(draft);
		const open = draft.quantityOpen || (doubtful.includes(draft) && answer === null);
		const each = quantity !== null && answer === 'total' && quantity > 1 ? quantity / marks.length : quantity;
		return marks.map((mark): Draft => {
			const own = { ...cells, mark };
			if (open) delete own.quantity;
			else if (each !== null) own.quantity = each;
			return {
				...draft,
				cells: own,
				problems: [...draft.problems],
				notes: [`one of ${marks.length} marks in one row: ${listed(marks)}`, ...draft.notes],
				quantityOpen: open
			};
		});
	});
}

/** Settles how many openings each row has; a row of several marks becomes several. */
export function settleMarks(
	drafts: readonly Draft[],
	table: ScheduleTable,
	questions: Questions,
	notes: string[]
): readonly Draft[] {
	settleCounts(staying(drafts), table, questions);
	const rows = settleRanges(drafts, questions);
	if (!columnOf(table, 'quantity') && staying(rows).length > 0)
		notes.push('No column for Quantity: one opening of each mark unless its mark says more.');
	for (const { cells, problems, notes: own, quantityOpen, out } of rows) {
		if (out !== null || quantityOpen || cells.openingNumber !== undefined || cells.quantity !== undefined)
			continue;
		if (problems.some((problem) => problem.field === 'quantity')) continue;
		cells.quantity = 1;
		own.push('no quantity: taken as 1');
	}
	return rows;
}
