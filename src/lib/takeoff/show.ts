/** How a quantity of the takeoff is said to a person. */
import { formatQuantity } from '../quantity/format.ts';
import { formatLength } from '../quantity/length.ts';
import type { QuantityDefinition } from '../rulebook/definition.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import { failureModeWords } from '../shopbook/words.ts';
import type { Measures } from './inputs.ts';
import { unitFor } from './vocabulary.ts';

const sixteenth = 25_400_000 / 16;
const yard = 36 * 25_400_000;

/**
 * A value in base units with its unit. A length that is a whole sixteenth of an inch is said as on a tape; one that is
 * not keeps its decimals, so that nothing is rounded away where it matters.
 */
export function showQuantity(
	value: number,
	definition: Pick<QuantityDefinition, 'unit' | 'metricUnit'>,
	measures: Measures
): string {
	const unit = unitFor(definition, measures);
	if (unit === 'in' && Number.isInteger(value / sixteenth))
		return formatLength(value, Math.abs(value) < yard ? 'inches' : 'feetInches');
	return formatQuantity(value, unit);
}

/** A key as a person reads it: `faceOfWall` → `face of wall`. Keys of the shop book keep their spelling. */
export const spaced = (key: string): string =>
	modeWords.get(key) ?? key.replace(/(?<=[a-z])[A-Z]/gu, (letter) => ` ${letter.toLowerCase()}`);

const modeWords: ReadonlyMap<string, string> = new Map(Object.entries(failureModeWords));

/** A key as a result of the quantity `id`: a barrel that is called by its outside diameter gets its unit. */
export function showKey(book: TechnicalBook, id: string, key: string): string {
	if (id !== 'barrel') return spaced(key);
	const barrel = book.barrels.find((row) => row.key === key);
	return barrel && Number(barrel.outsideDiameter) === Number(key) ? `${key} in` : key;
}
