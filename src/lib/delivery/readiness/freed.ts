/** What one more delivery would free: which part is worth chasing, and what each promise brings. */
import { Decimal } from 'decimal.js';
import type { Day } from '../ordering/purchase-order.ts';
import {
	countMost,
	dealForMost,
	type DealingForMost,
	type DealingInput,
	type KeyQuantity
} from './dealing.ts';

/** Something that is to come: a promise, a back order, a truck. */
export interface ComingDelivery {
	readonly label: string;
	/** Null where nobody gave a day. */
	readonly day: Day | null;
	readonly supplies: readonly KeyQuantity[];
}

interface Gain {
	/** How many openings more can start. */
	readonly more: number;
	/** Those that can start then and cannot now, in the wanted order. */
	readonly frees: readonly string[];
	/** Those that can start now and then give way to others; mostly nobody. */
	readonly instead: readonly string[];
	/** `more` is shown to be the most, now and then. */
	readonly proved: boolean;
}

/** One kind of part. */
interface FreedByPart extends Gain {
	readonly interchangeKey: string;
	/** The fewest that free as many openings as any number of it would; where it frees none, all that is missing. */
	readonly quantity: string;
	/** All that is missing of it for the openings that are not held. */
	readonly missing: string;
}

interface FreedByDelivery extends Gain {
	readonly delivery: ComingDelivery;
}

export interface Freed {
	/** As it is now, dealt out for the most. */
	readonly now: DealingForMost;
	/** The part worth chasing first, alone; null where no single kind of part frees anything. */
	readonly chase: FreedByPart | null;
	/** The most freed first; then the fewest pieces; then by key. */
	readonly parts: readonly FreedByPart[];
	/** The most freed first; then the earliest day; then as given. */
	readonly deliveries: readonly FreedByDelivery[];
	/** Work that was done. */
	readonly steps: number;
}

const zero = new Decimal(0);

/** What is short of each key when every opening that is not held is to start. */
function missingKeys({ openings, supplies, task }: DealingInput): Map<string, Decimal> {
	const missing = new Map<string, Decimal>();
	for (const { needs, held } of openings)
		for (const need of held ? [] : needs)
			if (task === null || need.task === task)
				missing.set(need.interchangeKey, (missing.get(need.interchangeKey) ?? zero).plus(need.quantity));
	for (const { interchangeKey, quantity } of supplies) {
		const short = missing.get(interchangeKey);
		if (short) missing.set(interchangeKey, short.minus(quantity));
	}
	return new Map([...missing].filter(([, amount]) => amount.gt(0)));
}

/** The earlier first; what has no day comes last. */
function comparedDays(a: Day | null, b: Day | null): number {
	if (a === b) return 0;
	return a !== null && (b === null || a < b) ? -1 : 1;
}

/** Steps of work for each question. */
const usualPatience = 10_000_000;

/**
 * Every gain is reckoned alone, against what is here now: two deliveries together may free more than both one by one.
 *
 * @param coming promises and back orders
 * @param patience steps of work for each question, above 0
 * @throws as `dealForMost`
 */
export function whatFrees(
	input: DealingInput,
	coming: readonly ComingDelivery[],
	patience = usualPatience
): Freed {
	const now = dealForMost(input, { patience });
	const clearNow = now.openings.filter(({ clear }) => clear).map(({ openingId }) => openingId);
	let { steps } = now;
	const withMore = (more: readonly KeyQuantity[]): DealingInput => ({
		...input,
		supplies: [...input.supplies, ...more]
	});
	const nothing = (proved: boolean): Gain => ({ more: 0, frees: [], instead: [], proved });
	/** Counted first: most parts free nothing, and who they are is asked only of the others. */
	const count = (more: readonly KeyQuantity[]): { more: number; proved: boolean } => {
		const then = countMost(withMore(more), patience);
		steps += then.steps;
		return { more: then.clear - now.clear, proved: now.proved && then.proved };
	};
	const gainOf = (more: readonly KeyQuantity[]): Gain => {
		const counted = count(more);
		// Fewer than now is only found where a search was broken off; what is here now is still here.
		if (counted.more <= 0) return nothing(counted.proved && counted.more === 0);
		// Whoever can start now keeps that, where as many can start with them as without.
		const then = dealForMost(withMore(more), { prefer: clearNow, patience });
		steps += then.steps;
		const clearThen = then.openings.filter(({ clear }) => clear).map(({ openingId }) => openingId);
		const [before, after] = [new Set(clearNow), new Set(clearThen)];
		return {
			more: then.clear - now.clear,
			frees: clearThen.filter((id) => !before.has(id)),
			instead: clearNow.filter((id) => !after.has(id)),
			proved: now.proved && then.proved
		};
	};

	const parts = [...missingKeys(input)].map(([interchangeKey, missing]): FreedByPart => {
		const some = (amount: Decimal): KeyQuantity[] => [{ interchangeKey, quantity: amount.toFixed() }];
		const all = count(some(missing));
		if (all.more <= 0) {
			const gain = nothing(all.proved && all.more === 0);
			return { interchangeKey, quantity: missing.toFixed(), missing: missing.toFixed(), ...gain };
		}
		let fewest = missing;
		// More of it never frees fewer, so the fewest are found by halving: in whole pieces, or all that is missing.
		let [low, high] = [0, missing.ceil().toNumber()];
		while (high - low > 1) {
			const middle = Math.floor((low + high) / 2);
			if (count(some(new Decimal(middle))).more >= all.more) [high, fewest] = [middle, new Decimal(middle)];
			else low = middle;
		}
		return {
			interchangeKey,
			quantity: fewest.toFixed(),
			missing: missing.toFixed(),
			...gainOf(some(fewest))
		};
	});
	parts.sort(
		(a, b) =>
			b.more - a.more ||
			new Decimal(a.quantity).cmp(b.quantity) ||
			(a.interchangeKey < b.interchangeKey ? -1 : 1)
	);
	const deliveries = coming
		.map((delivery): FreedByDelivery => ({ delivery, ...gainOf(delivery.supplies) }))
		.sort((a, b) => b.more - a.more || comparedDays(a.delivery.day, b.delivery.day));
	const [chase] = parts;
	return {
		now,
		chase: chase !== undefined && chase.more > 0 ? chase : null,
		parts,
		deliveries,
		steps
	};
}
