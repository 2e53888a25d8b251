/** The scales that drawings of buildings are usual at: architects' (imperial) and ISO 5455 with 1:25 (metric). */
import type { Measures } from '../../takeoff/inputs.ts';

export interface Scale {
	/** As it stands on the sheet: `3/8" = 1'-0"`, `1:20`. */
	readonly text: string;
	/** Paper over life. */
	readonly ratio: number;
}

const inchesToTheFoot = (text: string, inches: number): Scale => ({
	text: `${text}" = 1'-0"`,
	ratio: inches / 12
});

const oneTo = (times: number): Scale => ({ text: `1:${String(times)}`, ratio: 1 / times });

/** The largest first. */
export const usualScales: Readonly<Record<Measures, readonly Scale[]>> = {
	imperial: [
		inchesToTheFoot('3', 3),
		inchesToTheFoot('1 1/2', 1.5),
		inchesToTheFoot('1', 1),
		inchesToTheFoot('3/4', 3 / 4),
		inchesToTheFoot('1/2', 1 / 2),
		inchesToTheFoot('3/8', 3 / 8),
		inchesToTheFoot('1/4', 1 / 4),
		inchesToTheFoot('3/16', 3 / 16),
		inchesToTheFoot('1/8', 1 / 8)
	],
	metric: [5, 10, 20, 25, 50, 100].map(oneTo)
};
