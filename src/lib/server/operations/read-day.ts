import { z } from 'zod';
import type { DayAnswer } from '../../changes/readiness.ts';
import { daysAfter, isDay, workday } from '../../delivery/ordering/dates.ts';
import { partSize } from '../../delivery/part-words.ts';
import type { Day } from '../../delivery/ordering/purchase-order.ts';
import { listForTheDay } from '../../delivery/readiness/board.ts';
import { clearToStart } from '../../delivery/readiness/clear-to-start.ts';
import type { Actor } from '../identity/actor.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import { dealBoth, dealQuery } from './read-board.ts';
import { readReadiness } from './readiness-facts.ts';
import type { Services } from './services.ts';

const query = z.strictObject({
	deal: dealQuery,
	/** The next working day unless given. */
	day: z.string().refine(isDay, 'A day is written as 2026-12-01.').optional()
});

/** The next day from Monday to Friday. Holidays are not known. */
export function nextWorkday(today: Day): Day {
	let day = daysAfter(today, 1);
	while (workday(day) !== day) day = daysAfter(day, 1);
	return day;
}

/** What is planned to start up to a day: what can, with what to bring, and what is held, by whom and since when. */
export async function readDay(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<DayAnswer>> {
	const parsed = query.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const read = await readReadiness(actor, services, jobId);
	if (!read.ok) return read;
	const { inputs, buying, today, style } = read.value;
	const { deal, day = nextWorkday(today) } = parsed.data;
	const both = dealBoth(read.value, null);
	const start = clearToStart({ ...inputs, dealing: deal === 'most' ? both.most : both.inOrder });
	const list = listForTheDay(start, inputs.parts, buying.plans, day);
	const brought = new Set(
		list.start.flatMap(({ tasks }) => tasks.flatMap(({ bring }) => bring.map(({ partId }) => partId)))
	);
	const shown = new Set([...list.start, ...list.held].map(({ openingId }) => openingId));
	return done({
		jobName: buying.job.name,
		today,
		deal,
		list,
		sizes: Object.fromEntries(
			buying.parts
				.filter(({ partId }) => brought.has(partId))
				.map((part) => [
					part.partId,
					[partSize(part, style), part.finish].filter((text) => text !== '').join(', ')
				])
		),
		places: Object.fromEntries(
			buying.takeoff.openings.flatMap(({ openingIds, location }) =>
				openingIds.filter((id) => shown.has(id)).map((id) => [id, location])
			)
		),
		notChecked: start.notChecked,
		byList: start.byList
	});
}
