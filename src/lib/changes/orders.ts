/** What the pages about the orders of a job are answered. Only those who buy are. */
import type { AcknowledgedDifference, DifferenceDecision } from '../delivery/ordering/acknowledgement.ts';
import type { OrderChange } from '../delivery/ordering/order-changes.ts';
import type {
	Day,
	LineScope,
	OpeningPlan,
	PurchaseLine,
	Released
} from '../delivery/ordering/purchase-order.ts';
import type { ReleaseHold } from '../delivery/ordering/release.ts';

/** An opening, and when and how it is wanted. */
export interface PlanRow extends OpeningPlan {
	readonly phase: string;
	readonly location: string;
}

/** A line of an order as the pages show it: without the ids of its parts. */
export interface OrderLineView extends Omit<PurchaseLine, 'partIds' | 'openingIds'> {
	/** How many parts of the material list it covers; 0 for what only fills up a box. */
	readonly parts: number;
	/** Quantity at its price, two decimals; null where it has no price. */
	readonly amount: string | null;
	/** Taken out of the order; it stays with its number. */
	readonly cancelled: boolean;
}

/** The sum of all amounts; null as long as a line has no price. */
export type Total = string | null;

/** An order that could be written now. */
export interface ProposalView {
	readonly supplierId: string;
	readonly supplierName: string;
	readonly phase: string;
	readonly release: number;
	readonly currency: string;
	readonly lines: readonly OrderLineView[];
	readonly total: Total;
	/** The earliest of its lines; null as long as no start is known. */
	readonly orderBy: Day | null;
	readonly needBy: Day | null;
	/** What would hold it from going out. It can be written all the same. */
	readonly holds: readonly ReleaseHold[];
	/** Of what it says now: sent along when it is written, so that nobody writes what they have not seen. */
	readonly digest: string;
}

/** `written` and `revised`: a revision is not released, of `revised` an earlier one is. `answered`: since the last release. */
export type OrderState = 'withdrawn' | 'written' | 'revised' | 'released' | 'answered';

export interface OrderSummary {
	readonly orderId: string;
	readonly number: string;
	readonly supplierName: string;
	readonly phase: string;
	readonly release: number;
	readonly revision: number;
	readonly state: OrderState;
	readonly lines: number;
	readonly needBy: Day | null;
	readonly orderBy: Day | null;
	/** When it first went out; null while it has not. */
	readonly releasedAt: string | null;
	/** Differences that nobody signed off. */
	readonly open: number;
	/** Things in which it no longer agrees with the takeoff. */
	readonly outOfStep: number;
}

/** `toWrite`: nothing is written yet. `toRelease`: written. `answer`: no answer yet. `outOfStep`: the takeoff went on. */
export type OpenKind = 'toWrite' | 'toRelease' | 'answer' | 'difference' | 'sentBack' | 'outOfStep';

/** Something that somebody still has to do about what is bought. */
export interface OpenItem {
	readonly kind: OpenKind;
	/** Null of what is not written yet. */
	readonly order: { readonly orderId: string; readonly number: string } | null;
	readonly supplierName: string;
	/** Until when; null where nobody has said when the work starts. */
	readonly day: Day | null;
	readonly overdue: boolean;
	readonly text: string;
}

/** Page `/jobs/:job/orders` */
export interface OrdersAnswer {
	readonly today: Day;
	readonly suppliers: readonly { readonly id: string; readonly name: string }[];
	readonly plans: readonly PlanRow[];
	readonly proposals: readonly ProposalView[];
	readonly notPlaced: readonly { readonly scope: LineScope; readonly text: string }[];
	/** What two suppliers are both named for. */
	readonly notes: readonly string[];
	readonly orders: readonly OrderSummary[];
	/** The soonest first; what has no day last. */
	readonly open: readonly OpenItem[];
}

/** What was answered to one line. */
export interface LineAnswer {
	/** Line of the file. */
	readonly line: number;
	readonly description: string;
	readonly quantity: string | null;
	readonly unit: string | null;
	readonly unitPrice: string | null;
	readonly promised: Day | null;
	readonly answer: 'accepted' | 'changed' | 'refused' | null;
}

export interface DifferenceView extends AcknowledgedDifference {
	readonly decision: Omit<DifferenceDecision, 'key'> | null;
	/** By when it has to be decided; null where nobody has said when the work starts. */
	readonly due: Day | null;
	readonly overdue: boolean;
}

export interface AnswerSummary {
	readonly acknowledgementId: string;
	/** Of the file, or how it came in. */
	readonly name: string;
	/** The supplier's own number. */
	readonly number: string | null;
	readonly by: string;
	readonly receivedAt: string;
	readonly withdrawn: boolean;
}

export interface RevisionView {
	readonly revision: number;
	readonly madeAt: string;
	readonly madeBy: string;
	readonly released: Released | null;
	readonly lines: number;
	/** Against the revision before; empty for the first. */
	readonly changes: readonly OrderChange[];
}

/** Page `/jobs/:job/orders/:order` */
export interface OrderAnswer {
	readonly today: Day;
	readonly orderId: string;
	readonly number: string;
	readonly supplierName: string;
	/** The supplier is still there, so that it can be revised and compared. */
	readonly supplierThere: boolean;
	readonly phase: string;
	readonly release: number;
	readonly currency: string;
	readonly state: OrderState;
	/** The latest; its lines are shown. */
	readonly revision: number;
	/** It was not released yet, so that prices and days can be changed. */
	readonly editable: boolean;
	/** Of everything a change relies on; sent along with it. */
	readonly version: string;
	readonly lines: readonly OrderLineView[];
	readonly total: Total;
	/** What holds the latest revision from going out; empty once it is released. */
	readonly holds: readonly ReleaseHold[];
	readonly outOfStep: readonly string[];
	/** What the next revision would change, which may be nothing; null where it is withdrawn. */
	readonly next: {
		readonly revision: number;
		readonly changes: readonly OrderChange[];
		readonly digest: string;
	} | null;
	/** The latest first. */
	readonly revisions: readonly RevisionView[];
	/** The latest first. */
	readonly answers: readonly AnswerSummary[];
	/** The one that counts: the latest that is not withdrawn, of those since the last release. */
	readonly answer: {
		readonly acknowledgementId: string;
		readonly whole: 'accepted' | 'refused' | null;
		readonly promised: Day | null;
		/** By number of our line. */
		readonly byLine: Readonly<Record<number, readonly LineAnswer[]>>;
		/** All, decided or not, in the order of the lines. */
		readonly differences: readonly DifferenceView[];
	} | null;
}

/** `POST /api/jobs/:job/orders` */
export interface OrderWritten {
	readonly orderId: string;
	readonly number: string;
}

/** Each change of an order is answered with what it is called now. */
export interface OrderChanged {
	readonly number: string;
	readonly revision: number;
}

/**
 * `POST /api/jobs/:job/orders/:order/answers`: what is not certain is asked first, and nothing is kept until somebody
 * says how it is meant, or that it is not to be compared.
 */
export type AnswerTaken =
	| {
			readonly taken: false;
			readonly questions: readonly {
				readonly place: string;
				readonly text: string;
				readonly reason: string;
			}[];
			readonly skipped: readonly { readonly line: number; readonly why: string }[];
	  }
	| {
			readonly taken: true;
			readonly differences: number;
			readonly skipped: readonly { readonly line: number; readonly why: string }[];
	  };
