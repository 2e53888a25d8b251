/** Lengths and lists as they stand in the sentences about a measure. */
import type { Measures } from '../takeoff/inputs.ts';
import { showQuantity } from '../takeoff/show.ts';

/** A length in nm as a person reads it: on a tape where it is a whole sixteenth, else with its decimals. */
export type SayLength = (nm: number) => string;

export const sayLength =
	(measures: Measures): SayLength =>
	(nm) =>
		showQuantity(nm, { unit: 'in', metricUnit: 'mm' }, measures);

/** `a, b and c` */
export const listed = (words: readonly string[]): string =>
	words.join(', ').replace(/, ([^,]*)$/u, ' and $1');
