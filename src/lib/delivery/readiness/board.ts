/** The board of openings and tasks, and the list for tomorrow: data for page and print. */
import type { TaskGroup } from '../../takeoff/result.ts';
import type { Day, OpeningPlan } from '../ordering/purchase-order.ts';
import { taskOrder, type ClearToStart, type OpeningStart } from './clear-to-start.ts';
import type { Hold } from './holds.ts';
import type { PartStanding } from './inputs.ts';

interface BoardCell {
	readonly task: TaskGroup;
	readonly state: 'clear' | 'held' | 'nothing';
	/** What holds it, the whole opening first; null where nothing does. */
	readonly firstHold: Hold | null;
	/** How many holds there are besides. */
	readonly more: number;
}

interface BoardRow {
	readonly openingId: string;
	readonly mark: string;
	/** Every task may start. */
	readonly clear: boolean;
	/** One a task, in the order of hanging. */
	readonly cells: readonly BoardCell[];
}

export interface Board {
	readonly rows: readonly BoardRow[];
	/** How many openings may start with each task, of those that need parts for it. */
	readonly tasks: readonly { readonly task: TaskGroup; readonly clear: number; readonly of: number }[];
	/** How many openings may start with everything. */
	readonly clear: number;
}

function cellOf(opening: OpeningStart, task: TaskGroup): BoardCell {
	const found = opening.tasks.find((one) => one.task === task);
	if (!found) return { task, state: 'nothing', firstHold: null, more: 0 };
	const [firstHold = null, ...others] = [...opening.holds, ...found.holds];
	return { task, state: found.clear ? 'clear' : 'held', firstHold, more: others.length };
}

export function boardOf({ openings }: ClearToStart): Board {
	const rows = openings.map((opening): BoardRow => ({
		openingId: opening.openingId,
		mark: opening.mark,
		clear: opening.clear,
		cells: taskOrder.map((task) => cellOf(opening, task))
	}));
	const tasks = taskOrder.map((task) => {
		const cells = rows.flatMap((row) =>
			row.cells.filter((cell) => cell.task === task && cell.state !== 'nothing')
		);
		return { task, clear: cells.filter(({ state }) => state === 'clear').length, of: cells.length };
	});
	return { rows, tasks, clear: rows.filter(({ clear }) => clear).length };
}

interface ToBring {
	readonly partId: string;
	readonly title: string;
	/** Decimal text, in `unit`. */
	readonly quantity: string;
	readonly unit: PartStanding['part']['unit'];
}

/** An opening that is planned, and of it what may start. */
interface StartingOpening {
	readonly openingId: string;
	readonly mark: string;
	readonly startsOn: Day;
	/** In the order of hanging. */
	readonly tasks: readonly { readonly task: TaskGroup; readonly bring: readonly ToBring[] }[];
}

/** An opening that is planned, and of it what is held. */
interface HeldOpening {
	readonly openingId: string;
	readonly mark: string;
	readonly startsOn: Day;
	/** Tasks that may not start. */
	readonly tasks: readonly TaskGroup[];
	/** Of the whole opening first, then by task. */
	readonly holds: readonly Hold[];
}

/** An opening of which some tasks may start and others are held stands in both. */
export interface ListForTheDay {
	readonly day: Day;
	readonly start: readonly StartingOpening[];
	readonly held: readonly HeldOpening[];
	/** Openings that may start but have no day. */
	readonly withoutDay: readonly string[];
}

/**
 * What is planned to start on a day or before it, in the wanted order: what may start with what to bring, and what is
 * held, by whom and since when. What was done already is not known here.
 *
 * @param parts what the readiness was judged by
 * @throws RangeError for a day that is not written as 2026-12-01
 */
export function listForTheDay(
	{ openings }: ClearToStart,
	parts: readonly PartStanding[],
	plans: readonly OpeningPlan[],
	day: Day
): ListForTheDay {
	for (const one of [day, ...plans.flatMap(({ startsOn }) => startsOn ?? [])])
		if (!/^\d{4}-\d{2}-\d{2}$/u.test(one))
			throw new RangeError(`"${one}" is not a day; write it as 2026-12-01`);
	const startOf = new Map(plans.map(({ openingId, startsOn }) => [openingId, startsOn]));
	const planned = openings.flatMap((opening) => {
		const startsOn = startOf.get(opening.openingId) ?? null;
		return startsOn !== null && startsOn <= day ? [{ ...opening, startsOn }] : [];
	});
	const partsOf = new Map<string, ToBring[]>();
	for (const { part } of parts) {
		const key = `${part.openingId}\n${part.task}`;
		const { partId, title, quantity, unit } = part;
		partsOf.set(key, [...(partsOf.get(key) ?? []), { partId, title, quantity, unit }]);
	}
	return {
		day,
		start: planned.flatMap(({ openingId, mark, startsOn, tasks }): StartingOpening[] => {
			const clear = tasks
				.filter((one) => one.clear)
				.map(({ task }) => ({ task, bring: partsOf.get(`${openingId}\n${task}`) ?? [] }));
			return clear.length === 0 ? [] : [{ openingId, mark, startsOn, tasks: clear }];
		}),
		held: planned.flatMap(({ openingId, mark, startsOn, tasks, holds }): HeldOpening[] => {
			const held = tasks.filter((one) => !one.clear);
			const all = [...holds, ...held.flatMap((one) => one.holds)];
			return all.length === 0
				? []
				: [{ openingId, mark, startsOn, tasks: held.map(({ task }) => task), holds: all }];
		}),
		withoutDay: openings
			.filter(
				({ openingId, tasks }) => (startOf.get(openingId) ?? null) === null && tasks.some((one) => one.clear)
			)
			.map(({ openingId }) => openingId)
	};
}
