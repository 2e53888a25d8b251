/** What there is to deal out, and among whom. */
import type { TaskGroup } from '../../takeoff/result.ts';
import type { DealingInput, Need } from './dealing.ts';
import { openingHolds } from './holds.ts';
import type { ReadinessInputs } from './inputs.ts';
import { hereOf, holdsUp } from './standing.ts';

/**
 * Everything that is whole and right here, whatever opening it came for, and what every opening needs of what holds it
 * up. Openings with a stop, or that are not measured or do not agree with their measure, are held; so are those without
 * any parts.
 *
 * @param task the task that should start; null for all
 */
export function toDeal(inputs: ReadinessInputs, task: TaskGroup | null): DealingInput {
	const by = inputs.counted ?? 'whereCounted';
	const holds = openingHolds(inputs);
	const holding = inputs.parts.filter(holdsUp);
	const withParts = new Set(inputs.parts.map(({ part }) => part.openingId));
	const needs = new Map<string, Need[]>();
	for (const { part } of holding) {
		const list = needs.get(part.openingId) ?? [];
		needs.set(part.openingId, list);
		const { partId, interchangeKey, quantity } = part;
		list.push({ partId, interchangeKey, task: part.task, quantity });
	}
	return {
		task,
		openings: inputs.openings.map(({ openingId }) => ({
			openingId,
			needs: needs.get(openingId) ?? [],
			held: (holds.get(openingId) ?? []).length > 0 || !withParts.has(openingId)
		})),
		supplies: [
			...holding.map((standing) => ({
				interchangeKey: standing.part.interchangeKey,
				quantity: hereOf(standing, by).toFixed()
			})),
			...(inputs.spare ?? [])
		]
	};
}
