/** What *clear to start* is judged by. What is left out was not asked for, and the answer says so. */
import type { Part } from '../../takeoff/result.ts';
import type { PartArrival } from '../comparison.ts';
import type { Day } from '../ordering/purchase-order.ts';
import type { Dealing, KeyQuantity } from './dealing.ts';

/** Who can do something about it: somebody of the company, or a supplier by name. */
export type Holder = 'estimator' | 'purchasing' | 'installer' | { readonly supplier: string };

/** What one delivery brought for one part, or was to bring. */
export interface Arrival extends PartArrival {
	/** These lines, or the whole delivery to its end, were counted on site; otherwise the amounts are as listed. */
	readonly counted: boolean;
	/** ISO 8601, UTC; null where nobody wrote it down. */
	readonly receivedAt: string | null;
}

/** How far the order of a part has come. `sentAt` and `answeredAt` are ISO 8601, UTC. */
export type OrderStanding =
	| { readonly state: 'notOrdered' }
	| {
			readonly state: 'ordered';
			readonly orderNumber: string;
			readonly supplier: string;
			readonly sentAt: string;
	  }
	| {
			readonly state: 'acknowledged' | 'refused';
			readonly orderNumber: string;
			readonly supplier: string;
			readonly answeredAt: string;
			readonly promised: Day | null;
	  };

export interface PartStanding {
	readonly part: Pick<
		Part,
		'partId' | 'openingId' | 'title' | 'quantity' | 'unit' | 'supply' | 'interchangeKey' | 'task'
	>;
	/** A packing list speaks of it. */
	readonly listed: boolean;
	readonly arrivals: readonly Arrival[];
	/** Null where its order was not looked at. */
	readonly order: OrderStanding | null;
}

/** Stops of the takeoff for one opening: it does not start before they are cleared, whatever has come. */
interface StopStanding {
	readonly openingId: string;
	/** ISO 8601, UTC; null where it is not known. */
	readonly since: string | null;
	readonly texts: readonly string[];
}

/** What the field measure of one opening says. An opening that is left out was not measured. */
export interface MeasureStanding {
	readonly openingId: string;
	readonly verdict: 'agrees' | 'stop' | 'incomplete' | 'none';
	/** ISO 8601, UTC. */
	readonly at: string | null;
	readonly by: string | null;
	/** Sentences: what does not agree, or what is still to be measured. */
	readonly texts: readonly string[];
}

/** A question that somebody has to answer before the parts it may be about count. */
export interface OpenDecision {
	readonly partIds: readonly string[];
	readonly text: string;
	readonly who: Holder;
	readonly since: string | null;
}

export interface ReadinessInputs {
	/** All openings that are asked about, in the wanted order. */
	readonly openings: readonly { readonly openingId: string; readonly mark: string }[];
	readonly parts: readonly PartStanding[];
	/** Whole and right, here, beyond what is ordered of any part: `over` of the comparison, by interchange key. */
	readonly spare?: readonly KeyQuantity[];
	/**
	 * `required`: a packing list is a promise, and only what was counted is here. `whereCounted`: a delivery that was
	 * counted goes by its count, one that was not by its list, and the answer names those. The second unless given.
	 */
	readonly counted?: 'required' | 'whereCounted';
	/** What came dealt out (`to-deal.ts`, `dealing.ts`); unless given every part keeps what came for it. */
	readonly dealing?: Dealing;
	readonly stops?: readonly StopStanding[];
	readonly measures?: readonly MeasureStanding[];
	readonly decisions?: readonly OpenDecision[];
}
