/** A series by its first value and a step that a person types. */
import { readCell } from '../../takeoff/cell.ts';
import type { Cell, InputDefinition, Measured, Measures } from '../../takeoff/inputs.ts';
import { exactLength, parseLength } from '../../quantity/length.ts';
import { countedText, withCount } from './counted-text.ts';
import { seriesOf, type Series } from './fill.ts';

const no = (reason: string): Series => ({ ok: false, reason });

/**
 * `count` cells from `first` on, each a step further. Lengths step by a length (`6"`, `-150 mm`), other measures by a
 * figure in the unit they are typed in, counts and the number or letter at the end of a text by a whole number.
 */
export function steppedSeries(
	input: InputDefinition,
	first: Cell,
	step: string,
	count: number,
	measures: Measures
): Series {
	if (first === null) return no('there is nothing to begin with; write the first value');
	if (input.kind === 'key') return no('words of a list make no series; fill down instead');
	if (typeof first === 'string') return textSeries(input, first, step, count, measures);
	const by = stepOf(input, step, measures);
	if (!by.ok) return by;
	// One step before the first, so that the first is spelt as the others are.
	const before = back(first, by.amount);
	const rest = seriesOf(input, [before, first], count - 1, measures);
	return rest.ok ? { ok: true, cells: [first, ...rest.cells].slice(0, count) } : rest;
}

const back = (cell: number | Measured, amount: number): number | Measured =>
	typeof cell === 'number' ? cell - amount : { ...cell, amount: cell.amount - amount };

function stepOf(
	input: InputDefinition,
	step: string,
	measures: Measures
): { ok: true; amount: number } | { ok: false; reason: string } {
	const text = step.trim();
	if (input.kind === 'count') return wholeStep(text);
	if (input.kind === 'length') {
		const read = parseLength(text, measures === 'imperial' ? 'in' : 'mm');
		return read.ok ? { ok: true, amount: read.nm } : read;
	}
	const down = /^[-−]/u.test(text);
	const read = readCell(input, down ? text.slice(1) : text, { measures, keys: [] });
	if (!read.ok) return read;
	if (read.cell === null || typeof read.cell !== 'object')
		return { ok: false, reason: 'there is no step; write one' };
	return { ok: true, amount: down ? -read.cell.amount : read.cell.amount };
}

function wholeStep(text: string): { ok: true; amount: number } | { ok: false; reason: string } {
	const amount = Number(text.replace('−', '-'));
	return text !== '' && Number.isInteger(amount) && Math.abs(amount) <= 10_000
		? { ok: true, amount }
		: { ok: false, reason: `"${text}" is no step; write a whole number, 1 or -1 for instance` };
}

function textSeries(
	input: InputDefinition,
	first: string,
	step: string,
	count: number,
	measures: Measures
): Series {
	const counted = countedText(first);
	if (!counted)
		return no(`${first} ends in no number or letter that could be counted on; write one that does`);
	const by = wholeStep(step.trim());
	if (!by.ok) return by;
	const cells: Cell[] = [];
	for (let at = 0; at < count; at++) {
		const text = withCount(counted, counted.count + BigInt(by.amount) * BigInt(at));
		const read = text === null ? null : readCell(input, text, { measures, keys: [] });
		if (!read?.ok)
			return no(
				`the series ends after ${at} of ${count} cells: ${read?.reason ?? 'nothing comes before it'}`
			);
		cells.push(read.cell);
	}
	return { ok: true, cells };
}

/** The step between two cells as a person would type it; the usual one where there is none. */
export function stepBetween(first: Cell, second: Cell, measures: Measures): string {
	if (typeof first === 'number') return String(typeof second === 'number' ? second - first : 1);
	if (typeof first === 'string') {
		const [a, b] = [countedText(first), typeof second === 'string' ? countedText(second) : null];
		return a && b?.stem === a.stem && b.by === a.by ? String(b.count - a.count) : '1';
	}
	if (first === null || second === null || typeof second !== 'object' || first.unit !== second.unit)
		return '0';
	const amount = second.amount - first.amount;
	if (first.unit === 'nm') return exactLength(amount, measures === 'imperial' ? 'in' : 'mm');
	return first.unit === 'V' || amount === 0 ? String(amount) : `${amount} ${first.unit}`;
}
