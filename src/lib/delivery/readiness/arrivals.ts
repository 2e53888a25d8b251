/** What came for a part, list by list. */
import { Decimal } from 'decimal.js';
import type { Attribute, PartArrival } from '../comparison.ts';
import type { PartAccount, Pool } from '../ledger.ts';

interface Gathered {
	readonly deliveryId: string;
	readonly name: string;
	readonly counted: boolean;
	readonly amounts: Record<Pool, Decimal>;
	readonly wrongIn: Set<Attribute>;
	readonly lines: Set<number>;
}

/** One for each list that dealt something to the part; two where some of its lines were counted and others not. */
export function arrivalsOf({ deals, lines }: PartAccount): PartArrival[] {
	const zero = new Decimal(0);
	const found = new Map<string, Gathered>();
	const of = ({ list, count }: PartAccount['lines'][number]): Gathered => {
		const key = JSON.stringify([list.deliveryId, count !== null]);
		const known = found.get(key) ?? {
			deliveryId: list.deliveryId,
			name: list.name,
			counted: count !== null,
			amounts: { whole: zero, damaged: zero, wrong: zero, backordered: zero, missing: zero },
			wrongIn: new Set(),
			lines: new Set()
		};
		found.set(key, known);
		return known;
	};
	for (const read of lines) of(read).lines.add(read.line.line);
	for (const { pool, amount, read } of deals) {
		const arrival = of(read);
		arrival.amounts[pool] = arrival.amounts[pool].plus(amount);
		if (pool === 'wrong') for (const { attribute } of read.differences) arrival.wrongIn.add(attribute);
	}
	return [...found.values()].map(({ amounts, wrongIn, lines: numbers, ...named }) => ({
		...named,
		amounts: {
			whole: amounts.whole.toFixed(),
			damaged: amounts.damaged.toFixed(),
			wrong: amounts.wrong.toFixed(),
			backordered: amounts.backordered.toFixed(),
			missing: amounts.missing.toFixed()
		},
		wrongIn: [...wrongIn],
		lines: [...numbers]
	}));
}
