/** What *clear to start* of a job is judged by, out of everything that is known of it. */
import { predecessorsOf } from '../../delivery/ordering/lineage.ts';
import type { MeasureStanding, OpenDecision, ReadinessInputs } from '../../delivery/readiness/inputs.ts';
import { standingsOf } from '../../delivery/readiness/standings.ts';
import type { Comparison } from '../../delivery/comparison.ts';
import { capital } from '../../delivery/sentence.ts';
import { stopsOf } from '../../takeoff/stops.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobKey } from '../storage/keys.ts';
import { lengthStyleOf } from '../../takeoff/inputs.ts';
import { comparisonOf, inWantedOrder, wantedParts } from './compare-job.ts';
import { keyOf } from './find-job.ts';
import { readBuying, type JobBuying } from './job-buying.ts';
import { verdictsOf } from './measure-verdicts.ts';
import { markRows } from './opening-keys.ts';
import { dayOf, orderStandings, suppliersOf } from './order-making.ts';
import type { OrderStanding } from './order-standing.ts';
import { done, type Outcome } from './outcome.ts';
import { orderDecisions, partOrders } from './part-orders.ts';
import type { Services } from './services.ts';

export interface ReadinessFacts {
	readonly buying: JobBuying;
	readonly comparison: Comparison;
	/** Every order as it stands, those withdrawn too. */
	readonly standings: readonly OrderStanding[];
	readonly inputs: ReadinessInputs;
	/** The day it is where the server is. */
	readonly today: string;
	readonly style: 'mm' | 'feetInches';
}

/** Entries of the history that are looked through for when a row was changed last. */
const mostLookedThrough = 500;

/** When each row was changed last, as far as the latest entries tell. */
async function rowsChanged({ storage }: Services, key: JobKey): Promise<ReadonlyMap<string, string>> {
	const entries = await storage.history.search(key, {
		before: null,
		until: null,
		rowIds: null,
		actorId: null,
		kind: null,
		most: mostLookedThrough,
		largest: 1
	});
	const changed = new Map<string, string>();
	for (const { rowIds, madeAt } of entries)
		for (const id of rowIds) if (!changed.has(id)) changed.set(id, madeAt);
	return changed;
}

/** Stops as they are now stand since their row, or the row of its mark, was changed last. */
async function stopStandings(
	services: Services,
	key: JobKey,
	{ takeoff }: JobBuying
): Promise<NonNullable<ReadinessInputs['stops']>> {
	const stopped = stopsOf(takeoff);
	if (stopped.length === 0) return [];
	const changed = await rowsChanged(services, key);
	const marks = markRows(takeoff);
	const rowsOf = new Map(
		takeoff.openings.flatMap(({ openingIds, row, mark }) =>
			openingIds.map((id) => [id, [row.id, marks.get(mark) ?? row.id]] as const)
		)
	);
	return stopped.map(({ openingId, stops }) => {
		const moments = (rowsOf.get(openingId) ?? []).flatMap((row) => changed.get(row) ?? []).sort();
		return { openingId, since: moments.at(-1) ?? null, texts: stops };
	});
}

const measureStandings = (buying: JobBuying): MeasureStanding[] =>
	[...verdictsOf(buying)].map(([openingId, { verdict, text, at, by }]) => ({
		openingId,
		verdict,
		at,
		by,
		texts: [capital(text)]
	}));

/** Lines that only a person can say the meaning of: the parts they may be about wait for that. */
function lineDecisions({ lines }: Comparison, { deliveries }: JobBuying): OpenDecision[] {
	const received = new Map(deliveries.map(({ deliveryId, receivedAt }) => [deliveryId, receivedAt]));
	return lines
		.filter(({ asked }) => asked)
		.map(({ delivery, deliveryId, line, text, partIds, proposals }) => ({
			partIds: [...new Set([...partIds, ...proposals.flatMap((proposal) => proposal.partIds)])],
			text: `${delivery ?? ''}, line ${line ?? ''} waits for an answer: ${text}`,
			who: 'purchasing',
			since: received.get(deliveryId ?? '') ?? null
		}));
}

export async function readReadiness(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<ReadinessFacts>> {
	const read = await readBuying(actor, services, jobId);
	if (!read.ok) return read;
	const buying = read.value;
	const { takeoff, issued, parts, plans, deliveries, job } = buying;
	const comparison = comparisonOf(buying);
	const today = dayOf(services.now());
	const predecessors = predecessorsOf(issued.map(({ part }) => part));
	const suppliers = await suppliersOf(actor, services, buying);
	const standings = orderStandings(buying, suppliers, predecessors, today);
	const marks = new Map(
		takeoff.openings.flatMap(({ openingIds, mark }) => openingIds.map((id) => [id, mark] as const))
	);
	const { parts: standing, spare } = standingsOf(
		wantedParts(buying),
		comparison,
		deliveries.map(({ deliveryId, receivedAt, counted }) => ({
			deliveryId,
			receivedAt,
			countFinished: counted !== null
		})),
		partOrders(standings)
	);
	return done({
		buying,
		comparison,
		standings,
		today,
		style: lengthStyleOf(job.measures),
		inputs: {
			openings: inWantedOrder(plans).map(({ openingId }) => ({
				openingId,
				mark: marks.get(openingId) ?? ''
			})),
			parts: standing,
			spare,
			stops: await stopStandings(services, keyOf(actor, jobId), buying),
			measures: measureStandings(buying),
			decisions: [...lineDecisions(comparison, buying), ...orderDecisions(standings, parts, predecessors)]
		}
	});
}
