/** The price of a job: every mark built up in exact decimals, the job as their sum, openings as shares of their mark. */
import { Money, shareOut } from '../quantity/money.ts';
import { inUnit } from '../quantity/format.ts';
import type { Decimal } from 'decimal.js';
import {
	loadRuleBook,
	type Explanation,
	type RuleBook,
	type RuleBookSource,
	type RuleProblem
} from '../rulebook/rule-book.ts';
import type { PriceBook } from '../shopbook/schema.ts';
import { technicalTables, vocabularies } from '../shopbook/tables.ts';
import { anchorStockOf, anchorUses, boxesOf } from '../takeoff/anchors.ts';
import type { Engine, JobTakeoff } from '../takeoff/engine.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { chosenQuantities, inputQuantities, unitFor } from '../takeoff/vocabulary.ts';
import {
	boughtRules,
	purchaseItems,
	purchasePrices,
	purchaseSums,
	type MarkPurchases,
	type PurchasePrices
} from './purchase.ts';
import { priceInputs, priceRules } from './rules.ts';
import { priceConstants, priceScopes, priceTables } from './tables.ts';

/** Amounts are decimals as text with two decimals, in the currency of the price book. */
export interface MarkPrice {
	readonly rowId: string;
	readonly mark: string;
	readonly openingId: string | null;
	readonly phase: string;
	readonly openings: number;
	/** By rule id; null where the mark could not be computed, or a wall has no anchor. */
	readonly amounts: Readonly<Record<string, string>> | null;
	/** Each opening's own share of the mark's price; they add up to it to the cent. */
	readonly byOpening: readonly { readonly openingId: string; readonly price: string }[];
}

export interface JobPrice {
	readonly currency: string;
	/** Ids and titles of the lines, in the order of the build-up. */
	readonly lines: readonly { readonly id: string; readonly title: string }[];
	readonly marks: readonly MarkPrice[];
	/** Sum of all marks, line by line. */
	readonly totals: Readonly<Record<string, string>>;
	readonly byPhase: readonly { readonly phase: string; readonly price: string }[];
	/** Marks with no price, because of a stop. */
	readonly notPriced: readonly string[];
	/** What is not in the price. */
	readonly notIncluded: readonly string[];
}

export interface Pricing {
	readonly rules: RuleBook;
	readonly prices: PriceBook;
	/** Ids of the money lines in order. */
	readonly lines: readonly { readonly id: string; readonly title: string }[];
	price(job: JobTakeoff): JobPrice;
	/** What the material of a job costs to buy. Neither labour nor any share of the shop is in it, or can be worked out from it. */
	purchases(job: JobTakeoff): PurchasePrices;
	/** Every line of one mark by rule id, with its share of full boxes; null where it has no price. */
	amounts(opening: OpeningTakeoff, boxShare: Decimal): ReadonlyMap<string, Decimal> | null;
	/** What each mark bears of the anchors left over in full boxes; the workbook shows it as a marked value. */
	boxShares(job: JobTakeoff): ReadonlyMap<string, Decimal>;
	explain(job: JobTakeoff, rowId: string, id: string): Explanation | null;
}

/** Decimals a quantity keeps when it enters the price; the rules round further. */
const entryDecimals = 9;

export function buildPricing(
	engine: Engine,
	prices: PriceBook
): { ok: true; pricing: Pricing } | { ok: false; problems: readonly RuleProblem[] } {
	const { source, missing } = priceSource(engine, prices);
	if (missing.length > 0)
		return {
			ok: false,
			problems: missing.map((rule) => ({ rule, problem: 'the price book has no price for it' }))
		};
	const loaded = loadRuleBook(source);
	if (!loaded.ok) return loaded;
	const bought = loadRuleBook({ ...source, rules: [...source.rules, ...boughtRules(engine.book)] });
	if (!bought.ok) return bought;
	return { ok: true, pricing: new BookPricing(engine, prices, loaded.book, bought.book) };
}

function priceSource(
	engine: Engine,
	prices: PriceBook
): { source: RuleBookSource; missing: readonly string[] } {
	const { book } = engine;
	const tables = priceTables(book, prices);
	const constants = priceConstants(book, prices);
	const priced = new Set(tables.tables.map(({ id }) => id));
	const source: RuleBookSource = {
		quantities: [
			...inputQuantities,
			...chosenQuantities,
			...engine.quantities.filter((q) => !isChosen(q.id)),
			...priceInputs
		],
		vocabularies: [...vocabularies, ...technicalTables(book).filter(({ id }) => !priced.has(id))],
		tables: tables.tables,
		scopes: priceScopes,
		constants: constants.constants,
		rules: priceRules(book, prices),
		functions: []
	};
	return { source, missing: [...tables.missing, ...constants.missing] };
}

const isChosen = (id: string): boolean => chosenQuantities.some((quantity) => quantity.id === id);

/** Computed, and every wall it is fixed to has an anchor; without one there is a stop and no price. */
export function hasPrice(opening: OpeningTakeoff): boolean {
	const supports = opening.get('hoodSupportAnchors');
	return (
		opening.computed &&
		opening.get('anchorStockLeft') !== null &&
		opening.get('anchorStockRight') !== null &&
		(supports === 0 || opening.get('anchorStockHead') !== null)
	);
}

class BookPricing implements Pricing {
	readonly rules: RuleBook;
	readonly prices: PriceBook;
	readonly lines: readonly { readonly id: string; readonly title: string }[];
	readonly #engine: Engine;
	/** The same rules, and those of the quantities bought. */
	readonly #bought: RuleBook;

	constructor(engine: Engine, prices: PriceBook, rules: RuleBook, bought: RuleBook) {
		this.#engine = engine;
		this.#bought = bought;
		this.prices = prices;
		this.rules = rules;
		const amounts = priceRules(engine.book, prices)
			.filter((rule) => rule.unit === 'money')
			.map(({ id, title }) => ({ id, title }));
		const at = amounts.findIndex(({ id }) => id === 'materialCost');
		const box = priceInputs.find(({ id }) => id === 'boxRounding');
		this.lines = [
			...amounts.slice(0, at),
			{ id: 'boxRounding', title: box?.title ?? 'boxRounding' },
			...amounts.slice(at)
		];
	}

	price(job: JobTakeoff): JobPrice {
		const shares = this.boxShares(job);
		const marks = job.openings.map((opening): MarkPrice => {
			const head = {
				rowId: opening.row.id,
				mark: opening.mark,
				openingId: opening.openingId,
				phase: opening.phase,
				openings: opening.quantity
			};
			const values = this.amounts(opening, shares.get(opening.row.id) ?? new Money(0));
			if (!values) return { ...head, amounts: null, byOpening: [] };
			const total = values.get('price') ?? new Money(0);
			const weights = opening.openingIds.map(() => new Money(1));
			const split = weights.length === 0 ? [] : shareOut(total, weights);
			return {
				...head,
				amounts: Object.fromEntries([...values].map(([id, value]) => [id, value.toFixed(2)])),
				byOpening: opening.openingIds.map((openingId, i) => ({
					openingId,
					price: (split[i] ?? new Money(0)).toFixed(2)
				}))
			};
		});
		const sum = (of: readonly MarkPrice[], id: string): string =>
			of.reduce((total, { amounts }) => total.plus(amounts?.[id] ?? 0), new Money(0)).toFixed(2);
		return {
			currency: this.prices.currency,
			lines: this.lines,
			marks,
			totals: Object.fromEntries(this.lines.map(({ id }) => [id, sum(marks, id)])),
			byPhase: [...new Set(marks.map(({ phase }) => phase))].map((phase) => ({
				phase,
				price: sum(
					marks.filter((mark) => mark.phase === phase),
					'price'
				)
			})),
			notPriced: marks
				.filter(({ amounts }) => amounts === null)
				.map(({ mark, openingId }) => openingId ?? mark),
			notIncluded: [
				'Mobilisation, learning, height and night factors',
				'Feed, conductor, breaker and disconnect of motor circuits'
			]
		};
	}

	purchases(job: JobTakeoff): PurchasePrices {
		const shares = this.boxShares(job);
		const marks = job.openings.map((opening): MarkPurchases => {
			const { mark, openingId, quantity: openings } = opening;
			const head = { rowId: opening.row.id, mark, openingId, openings };
			if (!hasPrice(opening)) return { ...head, bought: null };
			const share = shares.get(opening.row.id) ?? new Money(0);
			const known = this.#evaluate(opening, share);
			const items = purchaseItems(this.#engine.book, this.#bought, opening, (id) =>
				this.#bought.evaluateExact(id, (name) => known.get(name) ?? this.#value(opening, share, name))
			);
			return { ...head, bought: { items, sums: purchaseSums(known.set('boxRounding', share)) } };
		});
		return purchasePrices(this.prices.currency, marks);
	}

	/** Every rule of the price in exact decimals, in the unit of its definition. */
	#evaluate(opening: OpeningTakeoff, boxShare: Decimal): Map<string, Decimal> {
		const known = new Map<string, Decimal>();
		for (const id of this.rules.order)
			known.set(
				id,
				this.rules.evaluateExact(id, (name) => known.get(name) ?? this.#value(opening, boxShare, name))
			);
		return known;
	}

	amounts(opening: OpeningTakeoff, boxShare: Decimal): ReadonlyMap<string, Decimal> | null {
		if (!hasPrice(opening)) return null;
		const known = this.#evaluate(opening, boxShare).set('boxRounding', boxShare);
		return new Map(this.lines.map(({ id }) => [id, known.get(id) ?? new Money(0)]));
	}

	/** What the mark brings along; null for a value of the price book, which the rule book looks up itself. */
	#value(opening: OpeningTakeoff, boxShare: Decimal, name: string): Decimal | string | null {
		if (name === 'openings') return new Money(opening.quantity);
		if (name === 'boxRounding') return boxShare;
		const definition = this.rules.definition(name);
		const value = name.includes('.') ? null : opening.get(name);
		if (typeof value !== 'number' || !definition) return value === null ? null : String(value);
		return new Money(inUnit(value, definition.unit).toFixed(entryDecimals));
	}

	boxShares(job: JobTakeoff): ReadonlyMap<string, Decimal> {
		const { book } = this.#engine;
		const shares = new Map<string, Decimal>();
		const uses = new Map<string, Map<string, number>>();
		for (const opening of job.openings) {
			if (!hasPrice(opening)) continue;
			for (const { stock, count } of anchorUses(opening)) {
				const rows = uses.get(stock) ?? new Map<string, number>();
				rows.set(opening.row.id, (rows.get(opening.row.id) ?? 0) + count);
				uses.set(stock, rows);
			}
		}
		for (const [stock, rows] of uses) {
			const row = anchorStockOf(book, stock)?.anchor;
			const cost = this.prices.anchors.find(({ key }) => key === stock)?.cost;
			if (!row || cost === undefined) continue;
			const count = [...rows.values()].reduce((a, b) => a + b, 0);
			const withWaste = new Money(count).times(new Money(book.constants.wasteAnchors).plus(1));
			const bought = new Money(boxesOf(count, book.constants.wasteAnchors, row.perBox)).times(row.perBox);
			const left = bought.minus(withWaste).times(cost).toDecimalPlaces(2, Money.ROUND_HALF_EVEN);
			const parts = shareOut(
				left,
				[...rows.values()].map((n) => new Money(n))
			);
			[...rows.keys()].forEach((rowId, i) => {
				shares.set(rowId, (shares.get(rowId) ?? new Money(0)).plus(parts[i] ?? 0));
			});
		}
		return shares;
	}

	explain(job: JobTakeoff, rowId: string, id: string): Explanation | null {
		const opening = job.openings.find(({ row }) => row.id === rowId);
		if (!opening || !hasPrice(opening)) return null;
		const share = this.boxShares(job).get(rowId) ?? new Money(0);
		const amounts = this.#evaluate(opening, share);
		if (!this.rules.rule(id)) {
			return this.#engine.rules.definition(id) ? this.#engine.explain(opening, id, job.measures) : null;
		}
		return this.rules.explain(
			id,
			(name) => {
				if (name.includes('.')) return null;
				const amount = amounts.get(name);
				const definition = this.rules.definition(name);
				if (amount && definition) return this.rules.toBase(name, amount.toNumber());
				if (name === 'openings') return opening.quantity;
				if (name === 'boxRounding') return share.toNumber();
				return opening.get(name);
			},
			(definition) => unitFor(definition, 'imperial')
		);
	}
}
