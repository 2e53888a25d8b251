/** A bid as it was frozen: what stood in the job, what was worked out of it, and the price. Nothing of it is reckoned again. */
import type { JobPrice } from '../price/price.ts';
import type { Measures, OpeningRow } from '../takeoff/inputs.ts';

/** What a list of bids shows. */
export interface BidSummary {
	/** 1, 2, 3 … within the job. */
	readonly number: number;
	readonly title: string;
	/** Revision of the job that the freezing made; what stood in the job is the same as before it. */
	readonly revision: number;
	readonly actorId: string;
	/** As the person was called then. */
	readonly actorName: string;
	/** ISO 8601, UTC. */
	readonly frozenAt: string;
	/** ISO 4217. */
	readonly currency: string;
	/** Of the job, decimal text with two decimals. */
	readonly price: string;
	readonly marks: number;
	readonly openings: number;
	/** Checks that stood. */
	readonly stops: number;
	readonly cautions: number;
	/** Marks without a price. */
	readonly notPriced: number;
	/** Of the books by which it was worked out. */
	readonly technicalDigest: string;
	readonly priceDigest: string;
}

/** A quantity as it was called and measured then. */
export interface BidQuantity {
	readonly id: string;
	readonly title: string;
	readonly unit: string;
	readonly metricUnit?: string;
	/** Typed, not worked out. */
	readonly input: boolean;
}

/** A row of the takeoff: a mark, or one opening of it that differs. */
export interface BidOpening {
	readonly rowId: string;
	/** `C-104`, `C-104.2`; blank where there is no mark. */
	readonly name: string;
	/** Openings it stands for. */
	readonly openings: number;
	readonly computed: boolean;
	readonly stops: number;
	readonly cautions: number;
}

/** Base units (`quantity/units`), a key as its word, or null where it was not computed. */
export type BidValue = number | string | null;

export interface BidContent {
	readonly format: 1;
	readonly job: { readonly name: string; readonly measures: Measures };
	/** As typed, in order. */
	readonly rows: readonly OpeningRow[];
	readonly openings: readonly BidOpening[];
	readonly quantities: readonly BidQuantity[];
	/** For ONE opening each: by quantity, one value for each of `openings`, in their order. Those that nothing has are left out. */
	readonly values: Readonly<Record<string, readonly BidValue[]>>;
	readonly price: JobPrice;
}

/** A bid, or the job as it is now, for comparing. */
export interface BidSide {
	/** Null for the job as it is now. */
	readonly number: number | null;
	readonly technicalDigest: string;
	readonly priceDigest: string;
	readonly content: BidContent;
}

/** One that was changed outside the program since it was frozen; nothing it says can be relied on. */
export interface DamagedBid {
	readonly number: number;
	readonly damaged: true;
}

/** `GET /api/jobs/:job/bids` */
export interface BidsAnswer {
	/** The latest first. */
	readonly bids: readonly (BidSummary | DamagedBid)[];
}

/** `GET /api/jobs/:job/bids/:number` */
export interface BidAnswer {
	readonly bid: BidSummary;
	/** The values of its quantities come by opening. */
	readonly content: Omit<BidContent, 'quantities' | 'values'>;
}

/** `GET /api/jobs/:job/bids/:number/openings/:row` */
export interface BidOpeningAnswer {
	readonly opening: BidOpening;
	readonly measures: Measures;
	readonly quantities: readonly (BidQuantity & { readonly value: number | string })[];
}

export const isDamaged = (bid: BidSummary | DamagedBid): bid is DamagedBid => 'damaged' in bid;
