/** What the whole job comes to, and by phase, wall, size and item. */
import { inUnit } from '../quantity/format.ts';
import { Money } from '../quantity/money.ts';
import { none } from '../shopbook/tables.ts';
import { trades } from '../shopbook/words.ts';
import { anchorSize, anchorStockOf, anchorUses, boxesOf, type AnchorUse } from './anchors.ts';
import type { Engine, JobTakeoff } from './engine.ts';
import type { Measures } from './inputs.ts';
import type { OpeningTakeoff, Severity } from './result.ts';
import { taskRuleIds } from './rules/labour.ts';
import { unitFor } from './vocabulary.ts';

/** A sum over openings, in `unit`. */
export interface Amount {
	readonly id: string;
	readonly title: string;
	readonly value: number;
	readonly unit: string;
}

/** A thing of one kind and size: how many, and how long or large in all. */
export interface ItemTotal {
	readonly item: string;
	readonly title: string;
	readonly count: number;
	readonly amounts: readonly Amount[];
}

/** Anchors of one fastener and length: where they go and what is bought. */
export interface AnchorTotal {
	readonly anchor: string;
	readonly substrate: string;
	readonly title: string;
	readonly size: string;
	readonly guides: number;
	readonly brackets: number;
	readonly hoodSupports: number;
	readonly total: number;
	/** With waste, to the full box. */
	readonly boxes: number;
	readonly perBox: number;
	/** Bits for the holes; 0 where nothing is drilled. */
	readonly bits: number;
}

interface PhaseTotal {
	readonly phase: string;
	readonly marks: number;
	readonly openings: number;
	readonly amounts: readonly Amount[];
}

export interface JobTotals {
	readonly marks: number;
	readonly openings: number;
	/** Marks or openings that could not be computed; their sums are not in here. */
	readonly notComputed: readonly string[];
	readonly checks: Readonly<Record<Severity, number>>;
	readonly amounts: readonly Amount[];
	readonly byPhase: readonly PhaseTotal[];
	readonly anchors: readonly AnchorTotal[];
	readonly curtains: readonly ItemTotal[];
	readonly guides: readonly ItemTotal[];
	readonly barrels: readonly ItemTotal[];
	readonly bracketPairs: readonly ItemTotal[];
	readonly drives: readonly ItemTotal[];
	readonly hoods: readonly ItemTotal[];
	readonly consumables: readonly Amount[];
	readonly hoursByTask: readonly (Amount & { readonly trade: string })[];
	readonly hoursByTrade: readonly Amount[];
}

/** Quantities that may be added over openings. */
export const summable = [
	'openingArea',
	'curtainArea',
	'curtainWeight',
	'rodCount',
	'slatCount',
	'linkCount',
	'endLocks',
	'assemblyBolts',
	'anchorTotal',
	'hoodPieces',
	'hoodSupports',
	'hoodSupportAnchors',
	'endCaps',
	'hoodArea',
	'hoodWeight',
	'barrelWeight',
	'coilWeight',
	'shippingWeight',
	'labourHours',
	'liftTime'
] as const;

class Sum {
	readonly #engine: Engine;
	readonly #measures: Measures;
	readonly #values = new Map<string, number>();

	constructor(engine: Engine, measures: Measures) {
		this.#engine = engine;
		this.#measures = measures;
	}

	add(opening: OpeningTakeoff, ids: readonly string[]): void {
		for (const id of ids) {
			const value = opening.get(id);
			if (typeof value === 'number')
				this.#values.set(id, (this.#values.get(id) ?? 0) + value * opening.quantity);
		}
	}

	amounts(): Amount[] {
		return [...this.#values].map(([id, value]) => {
			const definition = this.#engine.rules.definition(id);
			const unit = definition ? unitFor(definition, this.#measures) : '1';
			return { id, title: definition?.title ?? id, value: inUnit(value, unit), unit };
		});
	}
}

export function totalsOf(engine: Engine, job: JobTakeoff): JobTotals {
	const { measures } = job;
	const { book } = engine;
	const done = job.openings.filter((opening) => opening.computed);
	const phases = [...new Set(job.openings.map((opening) => opening.phase))];
	const byPhase = phases.map((phase): PhaseTotal => {
		const inPhase = job.openings.filter((opening) => opening.phase === phase);
		const sum = new Sum(engine, measures);
		for (const opening of inPhase) if (opening.computed) sum.add(opening, summable);
		return {
			phase,
			marks: countMarks(inPhase),
			openings: inPhase.reduce((n, opening) => n + opening.quantity, 0),
			amounts: sum.amounts()
		};
	});

	/** Things by the key that picks them, with the sums of these quantities. */
	const items = (
		keyIds: readonly string[],
		rows: readonly { readonly key: string; readonly title: string }[],
		ids: readonly string[]
	): ItemTotal[] => {
		const found = new Map<string, { count: number; sum: Sum }>();
		for (const opening of done)
			for (const keyId of keyIds) {
				const key = opening.get(keyId);
				if (typeof key !== 'string' || key === none) continue;
				const entry = found.get(key) ?? { count: 0, sum: new Sum(engine, measures) };
				entry.count += opening.quantity;
				entry.sum.add(opening, ids);
				found.set(key, entry);
			}
		return [...found].map(([item, { count, sum }]) => ({
			item,
			title: rows.find((row) => row.key === item)?.title ?? item,
			count,
			amounts: sum.amounts()
		}));
	};
	const sumOf = (ids: readonly string[]): Amount[] => {
		const sum = new Sum(engine, measures);
		for (const opening of done) sum.add(opening, ids);
		return sum.amounts();
	};
	const valueIn = (amounts: readonly Amount[], id: string): number =>
		amounts.find((amount) => amount.id === id)?.value ?? 0;
	const taskHours = sumOf(book.tasks.map((task) => taskRuleIds(task.key).hours));
	const usedUp = sumOf(book.consumables.map((item) => item.key));

	const checks = { stop: 0, caution: 0, note: 0 };
	for (const opening of job.openings) for (const check of opening.checks) checks[check.severity] += 1;

	return {
		marks: countMarks(job.openings),
		openings: job.openings.reduce((n, opening) => n + opening.quantity, 0),
		notComputed: job.openings
			.filter((opening) => !opening.computed)
			.map((opening) => opening.openingId ?? opening.mark),
		checks,
		amounts: sumOf(summable),
		byPhase,
		anchors: anchorTotals(engine, done),
		curtains: items(['curtain'], book.curtains, [
			'curtainArea',
			'curtainWeight',
			'rodCount',
			'slatCount',
			'endLocks'
		]),
		guides: items(['guideLeft', 'guideRight'], book.guides, ['guideLength']),
		barrels: items(['barrel'], book.barrels, ['bracketDistance', 'barrelWeight']),
		bracketPairs: items(['bracket'], book.brackets, ['bracketWeight']),
		drives: items(['drive'], book.drives, ['driveWeight']),
		hoods: items(['hood'], book.hoods, ['hoodPieces', 'hoodSupports', 'endCaps', 'hoodArea', 'hoodWeight']),
		consumables: book.consumables.map(({ key, title, waste, unit }) => ({
			id: key,
			title,
			value: buy(valueIn(usedUp, key), waste),
			unit
		})),
		hoursByTask: book.tasks.map(({ key, title, trade }) => {
			const id = taskRuleIds(key).hours;
			return { id, title, value: valueIn(taskHours, id), unit: 'h', trade };
		}),
		hoursByTrade: sumOf(trades.map((trade) => `${trade}Hours`))
	};
}

const countMarks = (openings: readonly OpeningTakeoff[]): number =>
	new Set(openings.map(({ mark }) => mark)).size;

/** Whole units to buy: the sum with its waste, rounded up once for the job. */
const buy = (quantity: number, waste: string): number =>
	new Money(quantity.toFixed(6)).times(new Money(waste).plus(1)).toDecimalPlaces(6).ceil().toNumber();

/** Anchors of the job by fastener and length, in the order they come up. */
function anchorTotals({ book }: Engine, openings: readonly OpeningTakeoff[]): AnchorTotal[] {
	const found = new Map<string, Record<AnchorUse, number>>();
	for (const { stock, use, count } of openings.flatMap(anchorUses)) {
		const entry = found.get(stock) ?? { guides: 0, brackets: 0, hoodSupports: 0 };
		entry[use] += count;
		found.set(stock, entry);
	}
	return [...found].flatMap(([key, uses]) => {
		const stock = anchorStockOf(book, key);
		if (!stock) return [];
		const row = stock.anchor;
		const total = uses.guides + uses.brackets + uses.hoodSupports;
		return [
			{
				anchor: key,
				substrate: row.substrate,
				title: row.anchor,
				size: anchorSize(stock),
				...uses,
				total,
				boxes: boxesOf(total, book.constants.wasteAnchors, row.perBox),
				perBox: Number(row.perBox),
				bits: row.holesPerBit === '0' ? 0 : Math.ceil(total / Number(row.holesPerBit))
			}
		];
	});
}
