/** What the people of `npm run bench:load` are to do, and what they saw. */

/** All rows hold it at the start; then they are changed to the other one and back. */
export const firstWidth = { amount: 2_438_400_000, unit: 'nm', typed: "8'" } as const;
export const secondWidth = { amount: 2_489_200_000, unit: 'nm', typed: '98"' } as const;

export interface Plan {
	readonly address: string;
	/** One a person. */
	readonly people: readonly {
		readonly cookie: string;
		/** Rows that nobody else changes. */
		readonly rows: readonly { readonly job: string; readonly row: string }[];
	}[];
	readonly seconds: number;
	/** From one edit of a person to the next, milliseconds; 0: the next one as soon as one is answered. */
	readonly every: number;
}

export interface Seen {
	/** From sending to the end of the answer, milliseconds, in no order. */
	readonly latencies: readonly number[];
	readonly errors: number;
	readonly firstError: string | null;
	readonly seconds: number;
	/** Of this process, seconds. */
	readonly processor: number;
	/** Of all answers. */
	readonly bytes: number;
}
