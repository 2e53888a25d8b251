/** What a change of some rows does to the price of the whole job: worked out by the same engine, and only where it reaches. */
import type { Decimal } from 'decimal.js';
import { inUnit } from '../quantity/format.ts';
import { Money } from '../quantity/money.ts';
import type { Engine, JobTakeoff } from '../takeoff/engine.ts';
import type { Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { hasPrice, type Pricing } from './price.ts';

/** Of all rows of the job that have a price, decimals as text with two decimals. */
export interface JobFigures {
	/** What it sells for. */
	readonly price: string;
	readonly material: string;
	/** h, all trades, as they are priced. */
	readonly labourHours: string;
}

export interface PriceEffect {
	/** The job with the change. */
	readonly after: JobFigures;
	/** Rows of the marks it touches that then have no price, each with the first stop. */
	readonly withoutPrice: readonly { readonly name: string; readonly why: string }[];
	/** Rows of these marks that have none before. */
	readonly hadNoPrice: readonly string[];
}

/** Whole numbers, so that sums of many rows are exact and quick. */
interface Sums {
	/** Cents. */
	readonly price: number;
	/** Cents. */
	readonly material: number;
	/** Hundredths of an hour. */
	readonly hours: number;
}

const nothing: Sums = { price: 0, material: 0, hours: 0 };

const sum = (a: Sums, b: Sums, sign: 1 | -1 = 1): Sums => ({
	price: a.price + sign * b.price,
	material: a.material + sign * b.material,
	hours: a.hours + sign * b.hours
});

/** An amount, which is rounded to the cent already, as a whole number of cents. */
const centsOf = (amount: Decimal | undefined): number => amount?.times(100).toNumber() ?? 0;

const twoDecimals = (hundredths: number): string => new Money(hundredths).div(100).toFixed(2);

const figures = ({ price, material, hours }: Sums): JobFigures => ({
	price: twoDecimals(price),
	material: twoDecimals(material),
	labourHours: twoDecimals(hours)
});

const markOf = ({ cells }: OpeningRow): string => (typeof cells.mark === 'string' ? cells.mark : '');

/**
 * Prices variants of one job. Anchors are bought in full boxes for the whole job, so a change of one mark may move the
 * shares of others by cents: these are priced again too, and each figure is that of the whole job.
 */
export class PriceEffects {
	/** The job as it stands. */
	readonly now: JobFigures;
	readonly #engine: Engine;
	readonly #pricing: Pricing;
	readonly #measures: Measures;
	readonly #rows: ReadonlyMap<string, OpeningRow>;
	readonly #openings: ReadonlyMap<string, OpeningTakeoff>;
	/** Cents. */
	readonly #shares: ReadonlyMap<string, number>;
	readonly #sum: Sums;
	/** Rows of the job by share: the same shares come again and again. */
	readonly #priced = new Map<string, Map<number, Sums>>();

	constructor(engine: Engine, pricing: Pricing, rows: readonly OpeningRow[], measures: Measures) {
		this.#engine = engine;
		this.#pricing = pricing;
		this.#measures = measures;
		this.#rows = new Map(rows.map((row) => [row.id, row]));
		const job = engine.takeoff(rows, measures);
		this.#openings = new Map(job.openings.map((opening) => [opening.row.id, opening]));
		this.#shares = sharesOf(pricing, job);
		this.#sum = job.openings.reduce((all, opening) => sum(all, this.#kept(opening, this.#shares)), nothing);
		this.now = figures(this.#sum);
	}

	/** @param rows all rows of the variant in order; those that stay as they are, with the very same cells. */
	after(rows: readonly OpeningRow[]): PriceEffect {
		const marks = new Set<string>();
		const changed = new Set<string>();
		const there = new Set<string>();
		for (const row of rows) {
			there.add(row.id);
			const before = this.#rows.get(row.id);
			if (before?.cells === row.cells) continue;
			changed.add(row.id);
			marks.add(markOf(row));
			if (before) marks.add(markOf(before));
		}
		for (const row of this.#rows.values()) if (!there.has(row.id)) marks.add(markOf(row));
		marks.delete('');

		const concerned = rows.filter((row) => changed.has(row.id) || marks.has(markOf(row)));
		const fresh = new Map(
			this.#engine
				.takeoff(concerned, this.#measures)
				.openings.map((opening) => [opening.row.id, opening] as const)
		);
		const openings = rows.flatMap(({ id }) => fresh.get(id) ?? this.#openings.get(id) ?? []);
		const shares = sharesOf(this.#pricing, { openings, measures: this.#measures });

		let all = this.#sum;
		const hadNoPrice: string[] = [];
		for (const opening of this.#openings.values()) {
			const { id } = opening.row;
			const stays = there.has(id) && !fresh.has(id);
			if (stays && this.#shares.get(id) === shares.get(id)) continue;
			all = sum(all, this.#kept(opening, this.#shares), -1);
			if (stays) all = sum(all, this.#kept(opening, shares));
			else if (!hasPrice(opening)) hadNoPrice.push(nameOf(opening));
		}
		const withoutPrice: { name: string; why: string }[] = [];
		for (const opening of fresh.values()) {
			all = sum(all, this.#sumsOf(opening, shares.get(opening.row.id) ?? 0));
			if (hasPrice(opening)) continue;
			const stop = opening.checks.find(({ severity }) => severity === 'stop');
			withoutPrice.push({ name: nameOf(opening), why: stop?.text ?? 'It can’t be worked out.' });
		}
		return { after: figures(all), withoutPrice, hadNoPrice };
	}

	/** A row of the job as it stands, with its share among these. */
	#kept(opening: OpeningTakeoff, shares: ReadonlyMap<string, number>): Sums {
		const share = shares.get(opening.row.id) ?? 0;
		const known = this.#priced.get(opening.row.id) ?? new Map<number, Sums>();
		this.#priced.set(opening.row.id, known);
		const sums = known.get(share) ?? this.#sumsOf(opening, share);
		known.set(share, sums);
		return sums;
	}

	/** @param share of full boxes, in cents. */
	#sumsOf(opening: OpeningTakeoff, share: number): Sums {
		const amounts = this.#pricing.amounts(opening, new Money(share).div(100));
		if (!amounts) return nothing;
		// The hours of each trade to two decimals, as they are priced.
		const hours = this.#pricing.prices.rates.map(({ trade }) => {
			const minutes = opening.get(`${trade}Hours`);
			if (typeof minutes !== 'number') return 0;
			return new Money(inUnit(minutes, 'h').toFixed(9))
				.times(100)
				.toDecimalPlaces(0, Money.ROUND_HALF_UP)
				.toNumber();
		});
		return {
			price: centsOf(amounts.get('price')),
			material: centsOf(amounts.get('materialCost')),
			hours: hours.reduce((a, b) => a + b, 0) * opening.quantity
		};
	}
}

/** Shares of full boxes by row, in cents. */
const sharesOf = (pricing: Pricing, job: JobTakeoff): ReadonlyMap<string, number> =>
	new Map(Array.from(pricing.boxShares(job), ([id, share]) => [id, centsOf(share)]));

const nameOf = ({ openingId, mark }: OpeningTakeoff): string =>
	openingId ?? (mark === '' ? 'a row without a mark' : mark);
