/** What the lines themselves say of the list: the orders of ours that they name, and their crates. */
import type { PackingLine } from '../../delivery/line.ts';
import { oneLine, textOf } from '../sheet.ts';
import { cratesNamed, readCrate } from './crates.ts';
import type { FactsFound } from './facts.ts';
import { readOrderLine } from './order-line.ts';
import type { GoodsRow } from './rows.ts';

/** Orders of ours that the cells of lines name. */
export function ordersIn(goods: readonly GoodsRow[]): string[] {
	return goods.flatMap(({ row, table }) =>
		table.columns.flatMap(({ field, index }) => {
			if (field !== 'orderLine' && field !== 'orderNumber') return [];
			const text = oneLine(textOf(row.cells[index]));
			const order = readOrderLine(text)?.order ?? (field === 'orderNumber' && /\d/u.test(text) ? text : null);
			return order === null ? [] : [order];
		})
	);
}

/** Crates of the lines in their order, then those that only the text names; and how many there are. */
export function cratesOf(
	{ facts }: FactsFound,
	goods: readonly GoodsRow[],
	lines: readonly PackingLine[]
): { all: number | null; named: string[] } {
	const counts = new Set(facts.crates.all === null ? [] : [facts.crates.all]);
	for (const { row, table } of goods) {
		const column = table.columns.find(({ field }) => field === 'crate');
		const all = column ? readCrate(oneLine(textOf(row.cells[column.index]))).all : null;
		if (all !== null) counts.add(all);
	}
	const [only] = counts;
	const named = new Set(lines.flatMap(({ crate }) => (crate === null ? [] : cratesNamed(crate))));
	return {
		all: counts.size === 1 && only !== undefined ? only : null,
		named: [...new Set([...named, ...facts.crates.named])]
	};
}
