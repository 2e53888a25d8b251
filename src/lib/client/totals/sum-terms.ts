/** What a sum of the takeoff adds up, so that its working can be laid out. Plain data: no engine here. */

/** One quantity of every opening, or only of those whose `where` quantity holds the key `is`. */
interface SumTerm {
	readonly quantity: string;
	readonly where?: string;
	readonly is?: string;
}

export interface SumQuestion {
	readonly title: string;
	/** As shown on the page. */
	readonly text: string;
	readonly terms: readonly SumTerm[];
	/** Only openings of this phase; all when left out. */
	readonly phase?: string;
	/** What happens to the sum afterwards, in words. */
	readonly then?: readonly string[];
}
