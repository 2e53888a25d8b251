/** Rows of the grid before anything is computed: what an opening inherits from its mark, and what is missing. */
import type { Source } from '../rulebook/definition.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import { inputIds, inputs, type Cell, type Cells, type InputId, type OpeningRow } from './inputs.ts';
import { keysFor } from './keys.ts';
import type { Check } from './result.ts';

/** A row with everything it stands for. */
export interface ReadyRow {
	readonly row: OpeningRow;
	/** Own cells, and the mark's where they are blank. */
	readonly cells: Cells;
	readonly mark: string;
	readonly openingId: string | null;
	readonly openingIds: readonly string[];
	/** What keeps it from being computed, and duplicates. */
	readonly checks: readonly Check[];
	/** All required inputs are there and known to the shop book. */
	readonly complete: boolean;
}

const asTyped: Source = { basis: 'definition', text: 'What is typed in the row.' };

const stop = (code: string, text: string, clears: string): Check => ({
	severity: 'stop',
	code,
	text,
	rule: null,
	source: asTyped,
	clears
});

const isBlank = (cell: Cell | undefined): boolean => cell === undefined || cell === null || cell === '';

const markOf = (row: OpeningRow): string => {
	const { mark } = row.cells;
	return typeof mark === 'string' ? mark : '';
};

const numberOf = (row: OpeningRow): number | null => {
	const { openingNumber } = row.cells;
	return typeof openingNumber === 'number' ? openingNumber : null;
};

const quantityOf = (cells: Cells): number => (typeof cells.quantity === 'number' ? cells.quantity : 1);

/** Cells of its own stand; blank ones take the mark's. Number, quantity and note are never taken over. */
function inherit(own: Cells, mark: Cells): Cells {
	const cells: Partial<Record<InputId, Cell>> = {};
	for (const id of inputIds) {
		const cell = own[id];
		const kept = id === 'openingNumber' || id === 'quantity' || id === 'note';
		const value = isBlank(cell) && !kept ? mark[id] : cell;
		if (!isBlank(value) && value !== undefined) cells[id] = value;
	}
	return cells;
}

/** Groups the rows by mark and says what each stands for. The order of the rows is kept. */
export function readyRows(rows: readonly OpeningRow[], book: TechnicalBook): ReadyRow[] {
	const heads = new Map<string, OpeningRow>();
	const own = new Map<string, Map<number, number>>();
	const doubles = new Set<string>();
	for (const row of rows) {
		const mark = markOf(row);
		const number = numberOf(row);
		if (mark === '') continue;
		if (number === null) {
			if (heads.has(mark)) doubles.add(mark);
			else heads.set(mark, row);
		} else {
			const numbers = own.get(mark) ?? new Map<number, number>();
			numbers.set(number, (numbers.get(number) ?? 0) + 1);
			own.set(mark, numbers);
		}
	}
	const required = inputs.filter((input) => input.required && input.id !== 'quantity');
	const keyed = inputs
		.filter((input) => input.kind === 'key')
		.map((input) => ({ input, keys: new Set(keysFor(book, input)) }));

	return rows.map((row) => {
		const mark = markOf(row);
		const number = numberOf(row);
		const head = heads.get(mark);
		const cells = number !== null && head ? inherit(row.cells, head.cells) : row.cells;
		const checks: Check[] = [];
		if (number === null && doubles.has(mark))
			checks.push(
				stop(
					'duplicateMark',
					`Mark ${mark} stands in more than one row.`,
					'Give each mark one row, or number the opening.'
				)
			);
		if (number !== null) checks.push(...checkNumber(mark, number, head, own.get(mark)?.get(number) ?? 0));
		for (const input of required) {
			if (isBlank(cells[input.id]))
				checks.push(
					stop('inputMissing', `${input.title} is missing.`, `Enter the ${input.title.toLowerCase()}.`)
				);
		}
		for (const { input, keys } of keyed) {
			const cell = cells[input.id];
			if (typeof cell === 'string' && cell !== '' && !keys.has(cell))
				checks.push(
					stop(
						'keyUnknown',
						`${input.title} “${cell}” is not in the shop book.`,
						`One of: ${[...keys].join(', ')}.`
					)
				);
		}
		const complete = checks.every((check) => check.code !== 'inputMissing' && check.code !== 'keyUnknown');
		const openingIds =
			number !== null
				? [`${mark}.${String(number)}`]
				: Array.from({ length: quantityOf(cells) }, (_, i) => i + 1)
						.filter((n) => !(head === row && own.get(mark)?.has(n)))
						.map((n) => `${mark}.${String(n)}`);
		return {
			row,
			cells,
			mark,
			openingId: number === null ? null : `${mark}.${String(number)}`,
			openingIds,
			checks,
			complete
		};
	});
}

function checkNumber(mark: string, number: number, head: OpeningRow | undefined, times: number): Check[] {
	const checks: Check[] = [];
	if (!head)
		checks.push(
			stop(
				'markMissing',
				`Opening ${mark}.${String(number)} has no row for its mark.`,
				`Add a row for mark ${mark}.`
			)
		);
	else if (number > quantityOf(head.cells))
		checks.push(
			stop(
				'openingNumberTooHigh',
				`Opening ${mark}.${String(number)}, but mark ${mark} has ${String(quantityOf(head.cells))}.`,
				'Raise the quantity of the mark, or change the number.'
			)
		);
	if (times > 1)
		checks.push(
			stop(
				'duplicateMark',
				`Opening ${mark}.${String(number)} stands in more than one row.`,
				'Number each opening once.'
			)
		);
	return checks;
}
