/** What a person said about a whole packing list. */

export interface DeliveryAnswers {
	/** It is for this job, although it names another order or nothing of the job. */
	readonly isOurs?: boolean;
	/** It is another truck, although it looks like one that came before. */
	readonly isAnotherTruck?: boolean;
	/** The side its left and right are seen from. */
	readonly handsFrom?: 'coilSide' | 'farSide';
	/** What its sizes measure. */
	readonly sizes?: 'part' | 'opening' | 'overall';
}
