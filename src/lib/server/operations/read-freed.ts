import { Decimal } from 'decimal.js';
import { z } from 'zod';
import type { FreedAnswer } from '../../changes/readiness.ts';
import { partWords } from '../../delivery/part-words.ts';
import { taskOrder } from '../../delivery/readiness/clear-to-start.ts';
import type { KeyQuantity } from '../../delivery/readiness/dealing.ts';
import { whatFrees, type ComingDelivery } from '../../delivery/readiness/freed.ts';
import type { ReadinessInputs } from '../../delivery/readiness/inputs.ts';
import { holdsUp, shortPieces } from '../../delivery/readiness/standing.ts';
import { toDeal } from '../../delivery/readiness/to-deal.ts';
import { holderText } from '../../delivery/readiness/words.ts';
import { amountText } from '../../delivery/sentence.ts';
import type { Actor } from '../identity/actor.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import { readReadiness } from './readiness-facts.ts';
import type { Services } from './services.ts';

const query = z.strictObject({
	task: z.enum(taskOrder, 'A task is guides, brackets, coil, hood or power.').optional()
});

/** Steps of work for each question: some tenths of a second at the most, so that nobody else waits long. */
const patience = 1_000_000;
/** Kinds of parts that are listed. */
const mostListed = 60;

interface Coming {
	readonly label: string;
	readonly day: string | null;
	readonly supplies: KeyQuantity[];
}

/** What suppliers still owe: by order and promised day, and back orders by the list that told of them. */
function comingOf({ parts, counted = 'whereCounted' }: ReadinessInputs): ComingDelivery[] {
	const coming = new Map<string, Coming>();
	for (const standing of parts.filter(holdsUp))
		for (const { reason, amount, where, who } of shortPieces(standing, counted)) {
			const { order, part } = standing;
			const promised = order?.state === 'acknowledged' ? order.promised : null;
			const told: Partial<Record<typeof reason, readonly [label: string, day: string | null]>> = {
				acknowledged: [`${holderText(who)}, ${where}`, promised],
				ordered: [`${holderText(who)}, ${where}, not acknowledged`, null],
				backordered: [`Back order of ${holderText(who)}`, promised]
			};
			const [label, day] = told[reason] ?? [];
			if (label === undefined || day === undefined) continue;
			const key = JSON.stringify([label, day]);
			const known = coming.get(key) ?? { label, day, supplies: [] };
			coming.set(key, known);
			known.supplies.push({ interchangeKey: part.interchangeKey, quantity: amount.toFixed() });
		}
	return [...coming.values()];
}

/** What one more delivery, or one more kind of part, would let start: reckoned each alone, against what is here now. */
export async function readFreed(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<FreedAnswer>> {
	const parsed = query.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const read = await readReadiness(actor, services, jobId);
	if (!read.ok) return read;
	const { inputs, buying, style } = read.value;
	const freed = whatFrees(toDeal(inputs, parsed.data.task ?? null), comingOf(inputs), patience);
	const kinds = new Map(buying.parts.map((part) => [part.interchangeKey, part]));
	const holders = new Map<string, Set<string>>();
	for (const standing of inputs.parts.filter(holdsUp))
		for (const { who } of shortPieces(standing, inputs.counted ?? 'whereCounted')) {
			const { interchangeKey } = standing.part;
			const known = holders.get(interchangeKey) ?? new Set<string>();
			holders.set(interchangeKey, known.add(holderText(who)));
		}
	const telling = freed.parts.filter(({ more }) => more > 0);
	return done({
		now: freed.now.clear,
		parts: telling.slice(0, mostListed).map((one) => {
			const kind = kinds.get(one.interchangeKey);
			const amount = (text: string): string => (kind ? amountText(new Decimal(text), kind.unit) : text);
			const { more, frees, instead, proved } = one;
			return {
				what: kind ? partWords(kind, style) : one.interchangeKey,
				quantity: amount(one.quantity),
				missing: amount(one.missing),
				who: [...(holders.get(one.interchangeKey) ?? [])],
				...{ more, frees, instead, proved }
			};
		}),
		others: freed.parts.length - Math.min(telling.length, mostListed),
		deliveries: freed.deliveries.map(({ delivery: { label, day }, more, frees, instead, proved }) => ({
			...{ label, day, more, frees, instead, proved }
		}))
	});
}
