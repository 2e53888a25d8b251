/**
 * Dealing out parts that came short and may stand in for one another, in two ways: the first wanted has them, or the most
 * openings can start. Marks on a packing list are advice; what may stand in is said by the interchange key.
 */
import { Decimal } from 'decimal.js';
import type { TaskGroup } from '../../takeoff/result.ts';
import { amountOf } from '../wanted.ts';
import { chooseMost } from './most/choose-most.ts';

/** One part that an opening needs. Parts that hold nothing up are left out by whoever asks. */
export interface Need {
	readonly partId: string;
	readonly interchangeKey: string;
	readonly task: TaskGroup;
	/** Decimal text, 0 or more. */
	readonly quantity: string;
}

export interface WantingOpening {
	readonly openingId: string;
	readonly needs: readonly Need[];
	/** Something else holds it (a stop, its measure), so parts alone do not let it start. */
	readonly held: boolean;
}

export interface KeyQuantity {
	readonly interchangeKey: string;
	/** Decimal text, 0 or more. */
	readonly quantity: string;
}

export interface DealingInput {
	/** In the wanted order; an opening stands once. */
	readonly openings: readonly WantingOpening[];
	/** Whole and right, here. A key may stand several times; its quantities add up. */
	readonly supplies: readonly KeyQuantity[];
	/** The task that should start; null for all of them. */
	readonly task: TaskGroup | null;
}

interface PartQuantity {
	readonly partId: string;
	readonly interchangeKey: string;
	readonly quantity: string;
}

interface DealtOpening {
	readonly openingId: string;
	/** Not held, and has all it needs for the task (for all tasks). */
	readonly clear: boolean;
	/** What it gets, by part; parts that get nothing are left out. */
	readonly gets: readonly PartQuantity[];
	/** What it lacks of all its needs, whatever the task. */
	readonly lacks: readonly PartQuantity[];
}

export interface Dealing {
	readonly way: 'inOrder' | 'forMost';
	readonly task: TaskGroup | null;
	/** In the wanted order. */
	readonly openings: readonly DealtOpening[];
	/** How many are clear. */
	readonly clear: number;
	/** What nobody needs; keys of which nothing is left are left out. */
	readonly left: readonly KeyQuantity[];
}

export interface DealingForMost extends Dealing {
	/** No way of dealing lets more openings start. */
	readonly bound: number;
	/** `clear` is shown to be the most. */
	readonly proved: boolean;
	/** Of all ways that let so many start it is shown to be the one the wanted order prefers. */
	readonly earliest: boolean;
	/** Work that was done. */
	readonly steps: number;
}

const zero = new Decimal(0);

function supplyOf(supplies: readonly KeyQuantity[]): Map<string, Decimal> {
	const supply = new Map<string, Decimal>();
	for (const { interchangeKey, quantity } of supplies)
		supply.set(interchangeKey, (supply.get(interchangeKey) ?? zero).plus(amountOf(quantity, interchangeKey)));
	return supply;
}

const neededFor = (task: TaskGroup | null, need: Need): boolean => task === null || need.task === task;

/** Gives parts to openings one after another, and says who has what. */
class Giving {
	readonly #input: DealingInput;
	readonly #supply: Map<string, Decimal>;
	readonly #got = new Map<Need, Decimal>();

	constructor(input: DealingInput) {
		const ids = new Set<string>();
		for (const { openingId } of input.openings) {
			if (ids.has(openingId)) throw new Error(`opening ${openingId} stands in the wanted order twice`);
			ids.add(openingId);
		}
		this.#input = input;
		this.#supply = supplyOf(input.supplies);
	}

	give(needs: readonly Need[]): void {
		for (const need of needs) {
			const here = this.#supply.get(need.interchangeKey) ?? zero;
			const got = this.#got.get(need) ?? zero;
			const more = Decimal.min(here, amountOf(need.quantity, need.partId).minus(got));
			this.#supply.set(need.interchangeKey, here.minus(more));
			this.#got.set(need, got.plus(more));
		}
	}

	result(): Omit<Dealing, 'way'> {
		const { task } = this.#input;
		const openings = this.#input.openings.map(({ openingId, needs, held }): DealtOpening => {
			const quantities = (quantity: (need: Need) => Decimal): PartQuantity[] =>
				needs.flatMap((need) => {
					const amount = quantity(need);
					const { partId, interchangeKey } = need;
					return amount.gt(0) ? [{ partId, interchangeKey, quantity: amount.toFixed() }] : [];
				});
			const lackOf = (need: Need): Decimal => new Decimal(need.quantity).minus(this.#got.get(need) ?? zero);
			return {
				openingId,
				clear: !held && needs.every((need) => !neededFor(task, need) || lackOf(need).lte(0)),
				gets: quantities((need) => this.#got.get(need) ?? zero),
				lacks: quantities(lackOf)
			};
		});
		const left = [...this.#supply].flatMap(([interchangeKey, amount]) =>
			amount.gt(0) ? [{ interchangeKey, quantity: amount.toFixed() }] : []
		);
		return { task, openings, clear: openings.filter(({ clear }) => clear).length, left };
	}
}

/**
 * The first wanted has them: every opening takes what it needs of what those before it left, whether or not it can start.
 *
 * @throws Error for a quantity that is no plain decimal number, or an opening that stands twice
 */
export function dealInOrder(input: DealingInput): Dealing {
	const giving = new Giving(input);
	for (const { needs } of input.openings) giving.give(needs);
	return { way: 'inOrder', ...giving.result() };
}

/** Steps of work before the best found has to do. */
const usualPatience = 40_000_000;

/**
 * The most openings can start. Those that are chosen have what the task needs; what is left goes to openings that are
 * not held in the wanted order, and then to those that are. Openings that something else holds are never chosen.
 *
 * `proved` where the search came to its end; otherwise `clear` is the best found and `bound` still holds. When `proved`
 * and `earliest`, two ways that let as many start differ first at an opening which this one lets start.
 *
 * @param prefer opening ids that come before all others where several choices are as good; the wanted order unless given
 * @param patience steps of work, above 0
 * @throws Error for a quantity that is no plain decimal number, or an opening that stands twice; RangeError for a quantity
 * too long to be counted exactly
 */
export function dealForMost(
	input: DealingInput,
	{ prefer = [], patience = usualPatience }: { prefer?: readonly string[]; patience?: number } = {}
): DealingForMost {
	const giving = new Giving(input);
	const preferred = new Set(prefer);
	const free = input.openings.filter(({ held }) => !held);
	const candidates = [
		...free.filter(({ openingId }) => preferred.has(openingId)),
		...free.filter(({ openingId }) => !preferred.has(openingId))
	];
	const { chosen, bound, proved, earliest, steps } = chooseMost(
		wholeNumbers(
			candidates.map(({ needs }) => needs.filter((need) => neededFor(input.task, need))),
			supplyOf(input.supplies)
		),
		patience
	);
	const first = new Set(chosen.map((at) => candidates[at]));
	const chosenInOrder = free.filter((opening) => first.has(opening));
	for (const { needs } of chosenInOrder) giving.give(needs.filter((need) => neededFor(input.task, need)));
	for (const { needs } of chosenInOrder) giving.give(needs);
	for (const { needs, held } of input.openings) if (!held) giving.give(needs);
	for (const { needs } of input.openings) giving.give(needs);
	return { way: 'forMost', ...giving.result(), bound, proved, earliest, steps };
}

/** How many openings the most are, without saying which: much less work. @throws as `dealForMost` */
export function countMost(
	{ openings, supplies, task }: DealingInput,
	patience: number
): { clear: number; proved: boolean; steps: number } {
	const needs = openings
		.filter(({ held }) => !held)
		.map((opening) => opening.needs.filter((need) => neededFor(task, need)));
	const { chosen, proved, steps } = chooseMost(wholeNumbers(needs, supplyOf(supplies)), patience, true);
	return { clear: chosen.length, proved, steps };
}

/** Needs and supplies in the smallest decimal that stands in any of a key, so that all are whole numbers. */
function wholeNumbers(
	openings: readonly (readonly Need[])[],
	supply: ReadonlyMap<string, Decimal>
): { needs: Map<number, number>[]; supply: number[] } {
	const keys = [...new Set(openings.flatMap((needs) => needs.map(({ interchangeKey }) => interchangeKey)))];
	const rowOf = new Map(keys.map((key, row) => [key, row]));
	const wanted = openings.map((needs) => {
		const sums = new Map<string, Decimal>();
		for (const { interchangeKey, quantity, partId } of needs) {
			const amount = amountOf(quantity, partId);
			if (amount.gt(0)) sums.set(interchangeKey, (sums.get(interchangeKey) ?? zero).plus(amount));
		}
		return sums;
	});
	const places = new Map(keys.map((key) => [key, (supply.get(key) ?? zero).decimalPlaces()]));
	for (const sums of wanted)
		for (const [key, amount] of sums) places.set(key, Math.max(places.get(key) ?? 0, amount.decimalPlaces()));
	const whole = (key: string, amount: Decimal): number => {
		const count = amount.times(new Decimal(10).pow(places.get(key) ?? 0)).toNumber();
		if (!Number.isSafeInteger(count))
			throw new RangeError(`${amount.toFixed()} (${key}) has too many digits to be dealt out exactly`);
		return count;
	};
	return {
		needs: wanted.map(
			(sums) => new Map([...sums].map(([key, amount]) => [rowOf.get(key) ?? 0, whole(key, amount)]))
		),
		supply: keys.map((key) => whole(key, supply.get(key) ?? zero))
	};
}
