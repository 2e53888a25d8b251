/** What holds a task up: data for page, print and list, with who can do something about it. */
import { Decimal } from 'decimal.js';
import type { TaskGroup } from '../../takeoff/result.ts';
import type { Holder, PartStanding, ReadinessInputs } from './inputs.ts';
import { hereOf, holdsUp, shortPieces, type Counted, type PartReason, type ShortPieces } from './standing.ts';

type HoldKind = 'stop' | 'measure' | 'part' | 'decision';

export interface Hold {
	/** Null: it holds the whole opening. */
	readonly task: TaskGroup | null;
	readonly kind: HoldKind;
	/** Why a part is not here; null for other kinds. */
	readonly reason: PartReason | null;
	/** One sentence. */
	readonly text: string;
	readonly who: Holder;
	/** ISO 8601, UTC; null where it is not known. */
	readonly since: string | null;
	readonly partIds: readonly string[];
}

const zero = new Decimal(0);

/** `Guide, left: 1 of 2 damaged (Truck 1, line 7).` */
function partHold({ part }: PartStanding, pieces: ShortPieces, cameFor: string | null): Hold {
	const amount = `${pieces.amount.toFixed()} of ${part.quantity}`;
	const where = pieces.where === '' ? '' : ` (${pieces.where})`;
	const text =
		cameFor === null
			? `${part.title}: ${amount} ${pieces.words}${where}.`
			: `${part.title}: ${amount} dealt to another opening; that for ${cameFor} is ${pieces.words}${where}.`;
	return {
		task: part.task,
		kind: 'part',
		reason: pieces.reason,
		text,
		who: pieces.who,
		since: pieces.since,
		partIds: [part.partId]
	};
}

/** What every part has: by the dealing, else what came for it. */
function gotBy({ dealing, parts }: ReadinessInputs, by: Counted): (standing: PartStanding) => Decimal {
	if (!dealing) {
		const here = new Map(parts.map((standing) => [standing.part.partId, hereOf(standing, by)]));
		return ({ part }) => here.get(part.partId) ?? zero;
	}
	const got = new Map(
		dealing.openings.flatMap(({ gets }) =>
			gets.map(({ partId, quantity }) => [partId, new Decimal(quantity)] as const)
		)
	);
	return ({ part }) => got.get(part.partId) ?? zero;
}

/**
 * Holds of all parts that hold something up and are not whole and right here. Of parts that may stand in for one another
 * a part that went short only because of the dealing is held by what holds the one it would have had.
 *
 * @throws Error where the dealing gave out other pieces than are here
 */
export function partHolds(inputs: ReadinessInputs, by: Counted): Map<string, Hold[]> {
	const gotOf = gotBy(inputs, by);
	const holds = new Map<string, Hold[]>();
	const add = (standing: PartStanding, hold: Hold): void => {
		const { partId } = standing.part;
		holds.set(partId, [...(holds.get(partId) ?? []), hold]);
	};
	const alike = new Map<string, PartStanding[]>();
	const place = new Map(inputs.openings.map(({ openingId }, at) => [openingId, at]));
	const placeOf = ({ part }: PartStanding): number => place.get(part.openingId) ?? 0;
	for (const standing of [...inputs.parts].sort((a, b) => placeOf(a) - placeOf(b)))
		if (holdsUp(standing)) {
			const list = alike.get(standing.part.interchangeKey) ?? [];
			alike.set(standing.part.interchangeKey, list);
			list.push(standing);
		}
	for (const standings of alike.values()) {
		const short = standings.map((standing) => ({
			standing,
			amount: new Decimal(standing.part.quantity).minus(gotOf(standing))
		}));
		const unused: { readonly cameFor: string; readonly pieces: ShortPieces }[] = [];
		for (const one of short)
			for (const pieces of shortPieces(one.standing, by)) {
				const own = Decimal.min(one.amount, pieces.amount);
				if (own.gt(0)) add(one.standing, partHold(one.standing, { ...pieces, amount: own }, null));
				one.amount = one.amount.minus(own);
				const rest = pieces.amount.minus(own);
				if (rest.gt(0))
					unused.push({ cameFor: one.standing.part.openingId, pieces: { ...pieces, amount: rest } });
			}
		for (const { standing, amount } of short) {
			let left = amount;
			while (left.gt(0)) {
				const next = unused.shift();
				if (!next)
					throw new Error(
						`the dealing gave ${standing.part.openingId} fewer pieces of ${standing.part.title} than are here for it`
					);
				const taken = Decimal.min(left, next.pieces.amount);
				add(standing, partHold(standing, { ...next.pieces, amount: taken }, next.cameFor));
				left = left.minus(taken);
				const rest = next.pieces.amount.minus(taken);
				if (rest.gt(0)) unused.unshift({ ...next, pieces: { ...next.pieces, amount: rest } });
			}
		}
	}
	return holds;
}

/** Stops and field measure: each holds the whole opening. */
export function openingHolds({ openings, stops, measures }: ReadinessInputs): Map<string, Hold[]> {
	const stopsOf = new Map(stops?.map((stop) => [stop.openingId, stop]));
	const measureOf = new Map(measures?.map((measure) => [measure.openingId, measure]));
	const whole = { task: null, reason: null, partIds: [] };
	return new Map(
		openings.map(({ openingId }): [string, Hold[]] => {
			const stop = stopsOf.get(openingId);
			const stopped = (stop?.texts ?? []).map((text): Hold => ({
				...whole,
				kind: 'stop',
				text,
				who: 'estimator',
				since: stop?.since ?? null
			}));
			if (!measures) return [openingId, stopped];
			const measure = measureOf.get(openingId);
			const verdict = measure?.verdict ?? 'none';
			if (verdict === 'agrees') return [openingId, stopped];
			const words = {
				none: 'Not measured yet.',
				incomplete: 'The field measure is not complete.',
				stop: 'The field measure does not agree with what was ordered.'
			}[verdict];
			const by = measure?.by ?? null;
			const hold: Hold = {
				...whole,
				kind: 'measure',
				text: [words, ...(measure?.texts ?? []), ...(by === null ? [] : [`Measured by ${by}.`])].join(' '),
				who: verdict === 'stop' ? 'purchasing' : 'installer',
				since: measure?.at ?? null
			};
			return [openingId, [...stopped, hold]];
		})
	);
}
