import { setImmediate } from 'node:timers/promises';
import { z } from 'zod';
import { applyChanges } from '../../changes/apply.ts';
import type { Change } from '../../changes/message.ts';
import type { ComparisonAnswer, ScheduleCosts } from '../../changes/schedule-answer.ts';
import { choicesOf, type RowChange } from '../../exchange/schedule-comparison.ts';
import { PriceEffects, type PriceEffect } from '../../price/effects.ts';
import type { OpeningRow } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import { chooseChanges, type ChosenChanges } from './chosen-changes.ts';
import { done, type Outcome } from './outcome.ts';
import { mayDo } from './permissions.ts';
import {
	jsonField,
	readJobSchedule,
	settled,
	type ScheduleForm,
	type ScheduleReading
} from './read-schedule.ts';
import type { Services } from './services.ts';

/** Changes priced alone in one answer: the first ones, or the first of those asked for. It is about a second's work. */
const pricedAtOnce = 300;

const idsSchema = z.array(z.string().max(200)).max(100_000).nullable();

/** What a schedule that comes again would change, and what each change and all that are chosen do to the price. */
export async function compareJobSchedule(
	actor: Actor,
	services: Services,
	jobId: string,
	form: ScheduleForm
): Promise<Outcome<ComparisonAnswer>> {
	const read = await readJobSchedule(actor, services, jobId, form);
	if (!read.ok) return read;
	const whole = settled(read.value.preview);
	if (!whole.ok) return whole;
	const chosen = chooseChanges(form, read.value);
	if (!chosen.ok) return chosen;
	/** Ids of the changes to be priced alone; without it those at the top. */
	const priced = jsonField(form, 'priced', idsSchema, null, 'The choice of prices');
	if (!priced.ok) return priced;
	return done({
		...chosen.value.comparison,
		chosen: [...chosen.value.chosen],
		costs: mayDo(actor, 'readPrice')
			? await costsOf(actor, services, read.value, chosen.value, priced.value)
			: null
	});
}

/** A change alone means its cells that are chosen; where none is, those that usually are, or all. */
function alone(change: RowChange, chosen: ReadonlySet<string>): ReadonlySet<string> {
	const choices = choicesOf(change);
	const taken = choices.filter(({ id }) => chosen.has(id));
	const usual = choices.filter((choice) => choice.usual);
	const some = taken.length > 0 ? taken : usual.length > 0 ? usual : choices;
	return new Set(some.map(({ id }) => id));
}

async function costsOf(
	actor: Actor,
	services: Services,
	{ job, engine }: ScheduleReading,
	{ comparison, rows, chosen, changes }: ChosenChanges,
	priced: readonly string[] | null
): Promise<ScheduleCosts> {
	const { technicalDigest, priceDigest, measures } = job;
	const pricing = await services.engines.pricing(actor.companyId, technicalDigest, priceDigest);
	const effects = new PriceEffects(engine, pricing, rows, measures);
	const effectOf = (taken: ReadonlySet<string>): PriceEffect =>
		effects.after(changedRows(rows, changes(taken, '')));
	const wanted = priced === null ? null : new Set(priced);
	const each: Record<string, PriceEffect> = {};
	const first = comparison.changes.filter(({ id }) => wanted?.has(id) ?? true).slice(0, pricedAtOnce);
	for (const change of first) {
		each[change.id] = effectOf(alone(change, chosen));
		// Other requests get their turn between two changes.
		await setImmediate();
	}
	return { currency: pricing.prices.currency, now: effects.now, chosen: effectOf(chosen), each };
}

/** The rows as they would be; those that stay keep their very cells. */
function changedRows(rows: readonly OpeningRow[], changes: readonly Change[]): OpeningRow[] {
	const applied = applyChanges(
		rows.map(({ id, cells }) => ({ id, cells, removed: false })),
		changes,
		{ reinstate: false }
	);
	if (!applied.ok) throw new Error('a comparison does not fit the rows it was made of');
	return applied.rows.flatMap(({ id, cells, removed }) => (removed ? [] : [{ id, cells }]));
}
