import type { LineDecided } from '../../changes/deliveries.ts';
import { decisionWords, type DecisionNames } from '../../delivery/decision-words.ts';
import type { PackingLine } from '../../delivery/line.ts';
import type { LineDecision } from '../../delivery/line-decision.ts';
import type { Part } from '../../takeoff/result.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredDelivery } from '../storage/delivery.repository.ts';
import { noSuchDelivery } from './change-deliveries.ts';
import { changeRecords } from './change-records.ts';
import { bodyProblem } from './job-bodies.ts';
import { readBuying, type JobBuying } from './job-buying.ts';
import { lineDecisionBody, readCorrection, typedLine, type SentDecision } from './line-decision-body.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { rememberWord } from './remember-word.ts';
import type { Services } from './services.ts';

/** Parts by id as they are told; also those that are needed no more. */
function namesOf({
	parts,
	issued,
	deliveries
}: Pick<JobBuying, 'parts' | 'issued' | 'deliveries'>): DecisionNames {
	const byId = new Map<string, Part>(
		[...issued.map(({ part }) => part), ...parts].map((part) => [part.partId, part])
	);
	const lists = new Map(deliveries.map(({ deliveryId, name }) => [deliveryId, name]));
	return {
		part: (partId) => byId.get(partId),
		list: (deliveryId) => lists.get(deliveryId) ?? 'a list that is taken out'
	};
}

const partIdsIn = (decision: SentDecision): readonly string[] => {
	if (decision.kind === 'means' || decision.kind === 'substitutes') return decision.partIds;
	return decision.kind === 'opens' ? decision.contents.flatMap(({ partIds }) => partIds) : [];
};

interface DecidedAbout {
	readonly buying: JobBuying;
	readonly delivery: StoredDelivery;
	readonly written: PackingLine;
}

/** The decision to be stored, checked against the job as it is. */
function readDecision(
	sent: SentDecision,
	{ buying, delivery, written }: DecidedAbout
): Outcome<LineDecision> {
	if (sent.kind === 'reads')
		return readCorrection(written, typedLine(sent.typed), {
			measures: buying.job.measures,
			facts: delivery.facts
		});
	const known = new Set(buying.parts.map(({ partId }) => partId));
	if (partIdsIn(sent).some((id) => !known.has(id)))
		return refuse(409, {
			message:
				'The material list was changed meanwhile, and a part of this decision is gone. Nothing was changed; look at the line again.'
		});
	if (sent.kind === 'opens') {
		const ids = partIdsIn(sent);
		if (new Set(ids).size !== ids.length)
			return refuse(422, { message: 'A part is in the kit twice. Put its pieces together in one line.' });
	}
	if (sent.kind === 'repeats') {
		const other = buying.deliveries.find(({ deliveryId }) => deliveryId === sent.deliveryId);
		const itself = sent.deliveryId === delivery.deliveryId && sent.line === written.line;
		if (itself || !other?.lines.some(({ line }) => line === sent.line))
			return refuse(422, { message: 'There is no such earlier line. Nothing was changed.' });
	}
	return done(sent);
}

/**
 * Says what a line of a packing list means, or takes that back. What somebody else decided meanwhile is not written over:
 * both are told.
 */
export async function decideLine(
	actor: Actor,
	services: Services,
	jobId: string,
	{ deliveryId, line }: { readonly deliveryId: string; readonly line: string },
	request: unknown
): Promise<Outcome<LineDecided>> {
	const parsed = lineDecisionBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { decision: sent, seen, remember } = parsed.data;
	const read = await readBuying(actor, services, jobId);
	if (!read.ok) return read;
	const buying = read.value;
	const delivery = buying.deliveries.find((one) => one.deliveryId === deliveryId);
	if (!delivery) return noSuchDelivery;
	const written = delivery.lines.find((one) => String(one.line) === line);
	if (!written) return refuse(404, { message: `${delivery.name} has no line ${line.slice(0, 20)}.` });
	const checked = sent === null ? done(null) : readDecision(sent, { buying, delivery, written });
	if (!checked.ok) return checked;
	const decision = checked.value;
	const names = namesOf(buying);

	return changeRecords(actor, services, jobId, async (inside, key, at) => {
		const place = { deliveryId, line: written.line };
		const before = (await inside.lineDecisions.list(key)).find(
			(one) => one.deliveryId === deliveryId && one.line === written.line
		);
		const words = before ? decisionWords(before.decision, names) : null;
		const mine = decision ? decisionWords(decision, names) : 'to take the decision back';
		if ((before?.at ?? null) !== seen)
			return refuse(409, {
				message: before
					? `${before.by} decided about line ${written.line} meanwhile: ${words ?? ''}. You meant: ${mine}. Nothing was changed.`
					: `The decision about line ${written.line} was taken back meanwhile. You meant: ${mine}. Nothing was changed.`
			});
		if (decision) await inside.lineDecisions.put(key, place, decision, actor, at);
		else await inside.lineDecisions.remove(key, deliveryId, written.line);
		const remembered =
			remember && decision?.kind === 'means' && delivery.supplierId !== null
				? await rememberWord(
						inside,
						actor,
						services,
						{
							supplierId: delivery.supplierId,
							description: written.description,
							parts: buying.parts.filter(({ partId }) => decision.partIds.includes(partId))
						},
						at
					)
				: null;
		const after = decision ? mine : null;
		const what = `line ${written.line} of ${delivery.name}`;
		return done({
			kind: 'delivery' as const,
			title: decision ? `Decide about ${what}` : `Take back what was decided about ${what}`,
			records:
				words === null && after === null
					? []
					: [
							{
								record: 'Packing list',
								id: deliveryId,
								name: delivery.name,
								field: `Line ${written.line}, ${written.description}`.slice(0, 200),
								before: words,
								after
							}
						],
			value: { at: decision ? at.toISOString() : null, remembered }
		});
	});
}
