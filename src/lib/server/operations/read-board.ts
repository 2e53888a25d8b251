import { z } from 'zod';
import {
	deals,
	type BoardAnswer,
	type BoardCellView,
	type BoardRowView,
	type Deal
} from '../../changes/readiness.ts';
import { partWords } from '../../delivery/part-words.ts';
import { boardOf } from '../../delivery/readiness/board.ts';
import { clearToStart, taskOrder, type OpeningStart } from '../../delivery/readiness/clear-to-start.ts';
import {
	dealForMost,
	dealInOrder,
	type Dealing,
	type DealingForMost
} from '../../delivery/readiness/dealing.ts';
import { toDeal } from '../../delivery/readiness/to-deal.ts';
import type { TaskGroup } from '../../takeoff/result.ts';
import type { Actor } from '../identity/actor.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import { readReadiness, type ReadinessFacts } from './readiness-facts.ts';
import type { Services } from './services.ts';

const task = z.enum(taskOrder, 'A task is guides, brackets, coil, hood or power.');
export const dealQuery = z.enum(deals, 'Parts are dealt out by order or for most.').default('order');

const query = z.strictObject({ deal: dealQuery, task: task.optional() });

/** Holds of a cell that are sent; the others are counted. */
const mostHolds = 12;

/** Both ways of dealing what is here. The wanted order is the same for every task. */
export function dealBoth(
	{ inputs }: ReadinessFacts,
	forTask: TaskGroup | null
): { readonly inOrder: Dealing; readonly most: DealingForMost } {
	const input = toDeal(inputs, forTask);
	return { inOrder: dealInOrder(input), most: dealForMost(input) };
}

const clearIn = ({ openings }: Dealing): string[] =>
	openings.filter(({ clear }) => clear).map(({ openingId }) => openingId);

/** What is missing where an opening can start in one way only. */
function lacksOf(
	{ buying: { parts }, style }: ReadinessFacts,
	{ inOrder, most }: { readonly inOrder: Dealing; readonly most: Dealing }
): BoardAnswer['lacks'] {
	const words = new Map(parts.map((part) => [part.partId, partWords(part, style)]));
	const clear = { order: new Set(clearIn(inOrder)), most: new Set(clearIn(most)) };
	const lacking = (way: Deal, other: Deal, { openings }: Dealing): BoardAnswer['lacks'] =>
		openings
			.filter(({ openingId }) => !clear[way].has(openingId) && clear[other].has(openingId))
			.map(({ openingId, lacks }) => ({
				openingId,
				in: way,
				parts: lacks.map(({ partId }) => words.get(partId) ?? partId)
			}));
	return [...lacking('order', 'most', inOrder), ...lacking('most', 'order', most)];
}

function cellView(opening: OpeningStart, state: BoardCellView['state'], at: TaskGroup): BoardCellView {
	const holds = opening.tasks.find((one) => one.task === at)?.holds ?? [];
	return {
		task: at,
		state,
		holds: holds.slice(0, mostHolds),
		more: Math.max(0, holds.length - mostHolds)
	};
}

/** The board of a job: what of every opening can start, what holds the rest, and two ways of dealing short parts out. */
export async function readBoard(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<BoardAnswer>> {
	const parsed = query.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const read = await readReadiness(actor, services, jobId);
	if (!read.ok) return read;
	const { inputs, buying, today } = read.value;
	const { deal, task: forTask = null } = parsed.data;
	const both = dealBoth(read.value, forTask);
	const start = clearToStart({ ...inputs, dealing: deal === 'most' ? both.most : both.inOrder });
	const board = boardOf(start);
	const plans = new Map(buying.plans.map((plan) => [plan.openingId, plan]));
	const rows = start.openings.map((opening, at): BoardRowView => {
		const { openingId, mark, clear, holds } = opening;
		return {
			openingId,
			mark,
			phase: buying.phases.get(openingId) ?? '',
			location: buying.locations.get(openingId) ?? '',
			startsOn: plans.get(openingId)?.startsOn ?? null,
			clear,
			holds,
			cells: (board.rows[at]?.cells ?? []).map((cell) => cellView(opening, cell.state, cell.task))
		};
	});
	const { bound, proved, earliest } = both.most;
	return done({
		today,
		deal,
		task: forTask,
		rows,
		tasks: board.tasks,
		notChecked: start.notChecked,
		byList: start.byList,
		inOrder: { clear: clearIn(both.inOrder) },
		most: { clear: clearIn(both.most), bound, proved, earliest },
		lacks: lacksOf(read.value, both)
	});
}
