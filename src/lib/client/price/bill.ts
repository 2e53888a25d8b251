/** How the price stands on paper: which lines are sums of those above them, and in which order. */
import type { JobPrice } from '../../price/price.ts';

export interface BillLine {
	readonly id: string;
	readonly title: string;
	/** A sum of lines above it. */
	readonly sum: boolean;
}

const sums: ReadonlySet<string> = new Set([
	'materialCost',
	'labourCost',
	'directCost',
	'unroundedPrice',
	'price'
]);

/** What stands at the foot of a bill, in this order; worked out in another one. */
const foot = ['profit', 'bond', 'unroundedPrice', 'rounding', 'price'];

/** The lines of the build-up, each sum below what it adds up. */
export function billLines(lines: JobPrice['lines']): BillLine[] {
	const above = lines.filter(({ id }) => !foot.includes(id));
	const below = foot.flatMap((id) => lines.find((line) => line.id === id) ?? []);
	return [...above, ...below].map(({ id, title }) => ({ id, title, sum: sums.has(id) }));
}
