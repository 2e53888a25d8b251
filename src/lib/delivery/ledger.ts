/** The account of every ordered part: what came for it, in which state, on which line. */
import { Decimal } from 'decimal.js';
import type { Part } from '../takeoff/result.ts';
import { dealOut, type Deal, type Supply } from './deal-out.ts';
import type { Lot, Wanted } from './wanted.ts';
import type { ReadLine } from './read-line.ts';

/** What is dealt out, in this order: damaged pieces are told of parts that no whole one came for. */
export const pools = ['whole', 'damaged', 'wrong', 'backordered', 'missing'] as const;
export type Pool = (typeof pools)[number];

export interface PartAccount {
	readonly part: Part;
	readonly ordered: Decimal;
	/** A line speaks of it. */
	listed: boolean;
	readonly amounts: Record<Pool | 'over', Decimal>;
	/** Every deal to it, and its line. */
	readonly deals: { readonly pool: Pool; readonly amount: Decimal; readonly read: ReadLine }[];
	readonly lines: ReadLine[];
}

/** Deals of one line, one for each of its shares. */
export type LineDeals = Readonly<Record<Pool, readonly Deal[]>>;

const zero = new Decimal(0);

export class Ledger {
	/** In the wanted order. */
	readonly accounts: readonly PartAccount[];
	readonly #deals: Record<Pool, Deal[]>[];
	readonly #received = new Map<Lot, Decimal>();
	readonly #waiting = new Map<string, Part[]>();

	constructor(order: Wanted, lines: readonly ReadLine[]) {
		this.accounts = order.parts.map(({ part, ordered }) => ({
			part,
			ordered,
			listed: false,
			amounts: { whole: zero, damaged: zero, wrong: zero, backordered: zero, missing: zero, over: zero },
			deals: [],
			lines: []
		}));
		this.#deals = lines.map(() => ({ whole: [], damaged: [], wrong: [], backordered: [], missing: [] }));
		this.#deal(lines);
		this.#list(lines);
		for (const { part, ordered, amounts } of this.accounts)
			if (amounts.whole.lt(ordered)) {
				const waiting = this.#waiting.get(part.interchangeKey) ?? [];
				this.#waiting.set(part.interchangeKey, waiting);
				waiting.push(part);
			}
	}

	dealsOf(lineIndex: number): LineDeals {
		const deals = this.#deals[lineIndex];
		if (!deals) throw new RangeError(`there is no line ${lineIndex}`);
		return deals;
	}

	/** Whole and right over all lists, of all parts of a lot. */
	received(lot: Lot): Decimal {
		const kept =
			this.#received.get(lot) ??
			lot.parts.reduce((sum, { at }) => sum.plus(this.accounts[at]?.amounts.whole ?? zero), zero);
		this.#received.set(lot, kept);
		return kept;
	}

	/** Parts that still wait for one that may stand in, whatever their mark. */
	waitingFor(lot: Lot): readonly Part[] {
		return this.#waiting.get(lot.part.interchangeKey) ?? [];
	}

	#deal(lines: readonly ReadLine[]): void {
		const room = this.accounts.map(({ ordered }) => ordered);
		for (const pool of pools) {
			const takers: number[] = [];
			const supplies: Supply[] = [];
			lines.forEach(({ shares }, index) => {
				for (const share of shares.shares) {
					takers.push(index);
					supplies.push({ lot: share.lot, amount: share[pool] ?? share.lot.ordered });
				}
			});
			dealOut(room, supplies).forEach((deal, supply) => {
				const index = takers[supply] ?? 0;
				const read = lines[index];
				this.#deals[index]?.[pool].push(deal);
				for (const { at, amount } of deal.dealt) {
					const account = this.accounts[at];
					if (!account || !read) continue;
					account.amounts[pool] = account.amounts[pool].plus(amount);
					account.deals.push({ pool, amount, read });
					if (!account.lines.includes(read)) account.lines.push(read);
				}
			});
		}
	}

	/** Which parts a line speaks of; what is over is told at the last of them. */
	#list(lines: readonly ReadLine[]): void {
		const listed = new Set<Lot>();
		lines.forEach(({ shares }, index) => {
			shares.shares.forEach(({ lot }, at) => {
				if (!listed.has(lot))
					for (const one of lot.parts) {
						const account = this.accounts[one.at];
						if (account) account.listed = true;
					}
				listed.add(lot);
				const last = this.accounts[lot.parts.at(-1)?.at ?? -1];
				const left = this.#deals[index]?.whole[at]?.left ?? zero;
				const surplus = at === 0 ? shares.surplus : zero;
				if (last) last.amounts.over = last.amounts.over.plus(left).plus(surplus);
			});
		});
	}
}
