/** The material list as delimited text: one line a physical part, as a person orders, packs and counts it. */
import { formatLength } from '../quantity/length.ts';
import { lengthStyleOf, type Measures } from '../takeoff/inputs.ts';
import type { Part } from '../takeoff/result.ts';
import { writeDelimited } from './delimited-text.ts';

export const materialHeadings = [
	'Part id',
	'Opening',
	'Mark',
	'Kind',
	'What it is',
	'Item',
	'Size',
	'Width',
	'Length',
	'Hand',
	'Finish',
	'Quantity',
	'Unit',
	'Supply',
	'Needed for',
	'Takes the place of'
] as const;

/** A part as texts under {@link materialHeadings}; lengths as `12'-6 1/2"` or `3810 mm`, blank where there is none. */
export function materialRow(part: Part, measures: Measures): string[] {
	const length = (nm: number | null): string =>
		nm === null ? '' : formatLength(nm, lengthStyleOf(measures));
	return [
		part.partId,
		part.openingId,
		part.mark,
		part.kind,
		part.title,
		part.item,
		part.size,
		length(part.width),
		length(part.length),
		part.hand ?? '',
		part.finish,
		part.quantity,
		part.unit,
		part.supply,
		part.task,
		part.supersedes ?? ''
	];
}

/**
 * The list as comma-separated text (RFC 4180 with a byte order mark, CRLF). A text that a spreadsheet would run as a
 * formula (it begins with `=`, `+`, `-`, `@`, a tab or a carriage return) gets an apostrophe in front; `readDelimited`
 * takes it off again.
 */
export const materialListText = (parts: readonly Part[], measures: Measures): string =>
	writeDelimited([materialHeadings, ...parts.map((part) => materialRow(part, measures))]);
