/** What the pages about what can start are answered. No price is in any of it. */
import type { ClearToStart } from '../delivery/readiness/clear-to-start.ts';
import type { ListForTheDay } from '../delivery/readiness/board.ts';
import type { Hold } from '../delivery/readiness/holds.ts';
import type { Day } from '../delivery/ordering/purchase-order.ts';
import type { TaskGroup } from '../takeoff/result.ts';

/** How short parts that may stand in for one another are dealt out: the first wanted has them, or the most can start. */
export const deals = ['order', 'most'] as const;
export type Deal = (typeof deals)[number];

export interface BoardCellView {
	readonly task: TaskGroup;
	readonly state: 'clear' | 'held' | 'nothing';
	/** The first of what holds its parts; what holds the whole opening stands there. */
	readonly holds: readonly Hold[];
	/** How many more there are. */
	readonly more: number;
}

export interface BoardRowView {
	readonly openingId: string;
	readonly mark: string;
	readonly phase: string;
	readonly location: string;
	readonly startsOn: Day | null;
	/** Every task may start. */
	readonly clear: boolean;
	/** Of the whole opening: stops, field measure. */
	readonly holds: readonly Hold[];
	/** One a task, in the order of hanging. */
	readonly cells: readonly BoardCellView[];
}

/** One way of dealing. Openings in the wanted order. */
interface DealView {
	/** Openings that can start with everything, or with the task that was asked for. */
	readonly clear: readonly string[];
}

/** `GET /jobs/:job/site/board` */
export interface BoardAnswer {
	readonly today: Day;
	readonly deal: Deal;
	/** What the dealing for the most is about; null for all tasks. */
	readonly task: TaskGroup | null;
	/** In the wanted order, as the chosen dealing has it. */
	readonly rows: readonly BoardRowView[];
	/** How many openings may start with each task, of those that need parts for it. */
	readonly tasks: readonly { readonly task: TaskGroup; readonly clear: number; readonly of: number }[];
	readonly notChecked: ClearToStart['notChecked'];
	readonly byList: ClearToStart['byList'];
	readonly inOrder: DealView;
	readonly most: DealView & {
		/** No way of dealing lets more openings start. */
		readonly bound: number;
		readonly proved: boolean;
		/** Of all ways that let as many start it is shown to be the one the wanted order prefers. */
		readonly earliest: boolean;
	};
	/** What each opening lacks in the way in which it cannot start, of those that can start in one way only. */
	readonly lacks: readonly {
		readonly openingId: string;
		readonly in: Deal;
		readonly parts: readonly string[];
	}[];
}

interface GainView {
	/** How many openings more can start. */
	readonly more: number;
	readonly frees: readonly string[];
	/** Openings that could start and then give way to others; mostly none. */
	readonly instead: readonly string[];
	readonly proved: boolean;
}

interface FreedByPartView extends GainView {
	readonly what: string;
	/** The fewest that free so many; decimal text with the unit. */
	readonly quantity: string;
	readonly missing: string;
	/** Who has to do something about those that are missing. */
	readonly who: readonly string[];
}

interface FreedByDeliveryView extends GainView {
	readonly label: string;
	readonly day: Day | null;
}

/** `GET /api/jobs/:job/readiness/freed` */
export interface FreedAnswer {
	/** How many can start now, dealt out for the most. */
	readonly now: number;
	readonly parts: readonly FreedByPartView[];
	/** Kinds of parts that free nothing alone. */
	readonly others: number;
	readonly deliveries: readonly FreedByDeliveryView[];
}

/** Page `/jobs/:job/site/board/day` */
export interface DayAnswer {
	readonly jobName: string;
	readonly today: Day;
	readonly deal: Deal;
	readonly list: ListForTheDay;
	/** Size and finish by part id, of all that is to be brought; and by opening where it is. */
	readonly sizes: Readonly<Record<string, string>>;
	readonly places: Readonly<Record<string, string>>;
	readonly notChecked: ClearToStart['notChecked'];
	readonly byList: ClearToStart['byList'];
}
