import { formatQuantity } from '../../quantity/format.ts';
import { formatLength } from '../../quantity/length.ts';
import type { Measures } from '../inputs.ts';

const sixteenth = 25_400_000 / 16;
const yard = 36 * 25_400_000;

/** A length to be cut: as on the tape where it is a whole sixteenth of an inch, else with its decimals. */
export function lengthText(nm: number, measures: Measures): string {
	if (measures === 'metric') return formatLength(nm, 'mm');
	if (!Number.isInteger(nm / sixteenth)) return formatQuantity(nm, 'in');
	return formatLength(nm, nm < yard ? 'inches' : 'feetInches');
}
