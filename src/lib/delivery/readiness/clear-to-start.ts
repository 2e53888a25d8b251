/** Which openings can start, task by task, and what holds the others. It says what was looked at, and approves nothing. */
import type { TaskGroup } from '../../takeoff/result.ts';
import { openingHolds, partHolds, type Hold } from './holds.ts';
import type { PartStanding, ReadinessInputs } from './inputs.ts';
import { holdsUp } from './standing.ts';

/** In the order of hanging. */
export const taskOrder: readonly TaskGroup[] = ['guides', 'brackets', 'coil', 'hood', 'power'];

interface TaskStart {
	readonly task: TaskGroup;
	/** All its parts are here, whole and right. */
	readonly partsHere: boolean;
	/** It may start: its parts are here, and nothing holds the whole opening. Other tasks may still wait. */
	readonly clear: boolean;
	/** Of its parts. What holds the whole opening stands there. */
	readonly holds: readonly Hold[];
}

export interface OpeningStart {
	readonly openingId: string;
	readonly mark: string;
	/** Every task may start. An opening without any parts has nothing to start with. */
	readonly clear: boolean;
	/** Of the whole opening: stops, field measure. */
	readonly holds: readonly Hold[];
	/** Tasks that need parts, in the order of hanging. */
	readonly tasks: readonly TaskStart[];
}

/**
 * What `clear` says nothing about. `stock`: parts of the shop's own stock that no list names; `counts`: some delivery went
 * by its list.
 */
export type NotChecked = 'stops' | 'fieldMeasure' | 'orders' | 'counts' | 'decisions' | 'stock';

export interface ClearToStart {
	/** In the wanted order. */
	readonly openings: readonly OpeningStart[];
	readonly notChecked: readonly NotChecked[];
	/** Deliveries that went by their list, since nobody counted them to the end. */
	readonly byList: readonly { readonly deliveryId: string; readonly name: string }[];
}

function byListOf({ parts, counted }: ReadinessInputs): ClearToStart['byList'] {
	if (counted === 'required') return [];
	const names = new Map<string, string>();
	for (const { arrivals } of parts)
		for (const arrival of arrivals) if (!arrival.counted) names.set(arrival.deliveryId, arrival.name);
	return [...names].map(([deliveryId, name]) => ({ deliveryId, name }));
}

function notCheckedOf(inputs: ReadinessInputs, goneByList: boolean): NotChecked[] {
	const { stops, measures, decisions, parts } = inputs;
	const found: [NotChecked, boolean][] = [
		['stops', !stops],
		['fieldMeasure', !measures],
		['orders', parts.some((standing) => holdsUp(standing) && standing.order === null)],
		['counts', goneByList],
		['decisions', !decisions],
		['stock', parts.some((standing) => !holdsUp(standing))]
	];
	return found.flatMap(([what, open]) => (open ? [what] : []));
}

/**
 * @throws Error for a part or opening that stands twice, a part of an opening that is not asked about, or a dealing that
 * gave out other pieces than are here, or a quantity that is no plain decimal number
 */
export function clearToStart(inputs: ReadinessInputs): ClearToStart {
	const partsOf = new Map<string, PartStanding[]>();
	for (const { openingId } of inputs.openings) {
		if (partsOf.has(openingId)) throw new Error(`opening ${openingId} stands in the wanted order twice`);
		partsOf.set(openingId, []);
	}
	const partIds = new Set<string>();
	for (const standing of inputs.parts) {
		const { partId, openingId, title } = standing.part;
		if (partIds.has(partId)) throw new Error(`part ${partId} (${title}) is given twice`);
		partIds.add(partId);
		const list = partsOf.get(openingId);
		if (!list) throw new Error(`${title} is for ${openingId}, which is not in the wanted order`);
		list.push(standing);
	}
	const ofParts = partHolds(inputs, inputs.counted ?? 'whereCounted');
	const ofOpenings = openingHolds(inputs);
	const decisions = inputs.decisions ?? [];

	const openings = inputs.openings.map(({ openingId, mark }): OpeningStart => {
		const parts = partsOf.get(openingId) ?? [];
		const holds = ofOpenings.get(openingId) ?? [];
		const tasks = taskOrder.flatMap((task): TaskStart[] => {
			const needed = parts.filter(({ part }) => part.task === task);
			if (needed.length === 0) return [];
			const held = needed.flatMap(({ part }) => ofParts.get(part.partId) ?? []);
			const short = new Set(held.flatMap((hold) => hold.partIds));
			// An open question about a part that is here anyway holds nothing.
			const asked = decisions.flatMap((decision): Hold[] => {
				const about = decision.partIds.filter((id) => short.has(id));
				const { text, who, since } = decision;
				return about.length === 0
					? []
					: [{ task, kind: 'decision', reason: null, text, who, since, partIds: about }];
			});
			const partsHere = held.length === 0;
			return [{ task, partsHere, clear: partsHere && holds.length === 0, holds: [...held, ...asked] }];
		});
		return {
			openingId,
			mark,
			clear: tasks.length > 0 && tasks.every(({ clear }) => clear),
			holds,
			tasks
		};
	});
	const byList = byListOf(inputs);
	return { openings, notChecked: notCheckedOf(inputs, byList.length > 0), byList };
}
