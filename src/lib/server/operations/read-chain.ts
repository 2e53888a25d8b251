import type { ChainAnswer, ChainMeasure, ChainPart } from '../../changes/chain.ts';
import { knownAs, predecessorsOf } from '../../delivery/ordering/lineage.ts';
import { partSize } from '../../delivery/part-words.ts';
import { clearToStart } from '../../delivery/readiness/clear-to-start.ts';
import type { Part } from '../../takeoff/result.ts';
import type { Actor } from '../identity/actor.ts';
import type { IssuedPart, PartDates } from '../storage/part.repository.ts';
import { chainHistory } from './chain-history.ts';
import { chainLines } from './chain-lines.ts';
import { chainOrders } from './chain-orders.ts';
import { keyOf } from './find-job.ts';
import { measuresThatCount } from './job-buying.ts';
import { verdictsOf } from './measure-verdicts.ts';
import { markRows } from './opening-keys.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { mayDo } from './permissions.ts';
import { readReadiness, type ReadinessFacts } from './readiness-facts.ts';
import type { Services } from './services.ts';

const noSuchPart = refuse(404, {
	message: 'This job never had a part of this id. Look for it by its opening, or by a line of an order.'
});

/** The parts a part took the place of, and those that took its place; the first issued first. */
function lineageOf(
	issued: readonly IssuedPart[],
	partId: string
): { readonly before: Part[]; readonly after: Part[] } {
	const parts = issued.map(({ part }) => part);
	const byId = new Map(parts.map((part) => [part.partId, part]));
	const before: Part[] = [];
	const seen = new Set([partId]);
	for (let id = byId.get(partId)?.supersedes ?? null; id !== null && !seen.has(id);) {
		seen.add(id);
		const part = byId.get(id);
		if (part) before.unshift(part);
		id = part?.supersedes ?? null;
	}
	const predecessors = predecessorsOf(parts);
	const own = new Set([partId]);
	const after = parts.filter((part) => part.partId !== partId && knownAs(part, own, predecessors) === partId);
	return { before, after };
}

function measuresOf({ buying }: ReadinessFacts, openingId: string): ChainMeasure[] {
	const counts = measuresThatCount(buying.measures).get(openingId)?.measureId;
	const verdict = verdictsOf(buying).get(openingId);
	return buying.measures
		.filter((measure) => measure.openingId === openingId)
		.map(({ measureId, by, measuredAt, withdrawn }) => ({
			measureId,
			by,
			at: measuredAt,
			withdrawn,
			verdict:
				measureId === counts && verdict
					? { outcome: verdict.verdict, text: `${openingId}: ${verdict.text}` }
					: null
		}));
}

/** The life of a part in both directions: what it took the place of, orders, answers, trucks, counts, measures, changes. */
export async function readChain(
	actor: Actor,
	services: Services,
	jobId: string,
	partId: string
): Promise<Outcome<ChainAnswer>> {
	const read = await readReadiness(actor, services, jobId);
	if (!read.ok) return read;
	const { buying, comparison, standings, inputs, style } = read.value;
	const found = buying.issued.find(({ part }) => part.partId === partId);
	if (!found) return noSuchPart;
	const { before, after } = lineageOf(buying.issued, partId);
	const now = new Map(buying.parts.map((part) => [part.partId, part]));
	const part = now.get(partId) ?? found.part;
	const dates = await services.storage.parts.dates(
		keyOf(actor, jobId),
		[part, ...before, ...after].map((one) => one.partId)
	);
	const view = (one: Part): ChainPart => {
		const { openingId, title, finish, hand, item, quantity, unit, supply } = one;
		const { issuedAt, retiredAt }: Partial<PartDates> = dates.get(one.partId) ?? {};
		return {
			partId: one.partId,
			...{ openingId, title, size: partSize(one, style), finish, hand, item, quantity, unit, supply },
			issuedAt: issuedAt ?? null,
			retiredAt: retiredAt ?? null
		};
	};
	const buys = mayDo(actor, 'readOrder');
	const orders = chainOrders(standings, partId, buys);
	const lines = chainLines(buying, comparison, partId);
	const { openingId } = part;
	const opening = buying.takeoff.openings.find(({ openingIds }) => openingIds.includes(openingId));
	const row = opening ? (markRows(buying.takeoff).get(opening.mark) ?? opening.row.id) : null;
	const history = await chainHistory(actor, services, jobId, { openingId, row, orders, lines });
	if (!history.ok) return history;
	const start = now.has(partId)
		? clearToStart(inputs).openings.find((one) => one.openingId === openingId)
		: undefined;
	const ofParts = (start?.tasks ?? []).flatMap(({ holds }) => holds);
	return done({
		part: view(part),
		before: before.map(view),
		after: after.map(view),
		row,
		phase: buying.phases.get(openingId) ?? '',
		holds: [...(start?.holds ?? []), ...ofParts.filter(({ partIds }) => partIds.includes(partId))],
		orders,
		lines,
		measures: measuresOf(read.value, openingId),
		history: history.value,
		buys
	});
}
