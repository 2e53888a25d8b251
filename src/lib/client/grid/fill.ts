/** Filling cells from others: the same again, or a series. */
import { exactLength, formatLength } from '../../quantity/length.ts';
import { convert } from '../../quantity/units.ts';
import { readCell, unitOfFigure } from '../../takeoff/cell.ts';
import type { Cell, InputDefinition, Measured, Measures } from '../../takeoff/inputs.ts';
import { countedText, withCount } from './counted-text.ts';

export type Series =
	{ readonly ok: true; readonly cells: Cell[] } | { readonly ok: false; readonly reason: string };

/** `count` cells that repeat `source` from its first on. */
export const fillCells = (source: readonly Cell[], count: number): Cell[] =>
	Array.from({ length: source.length === 0 ? 0 : count }, (_, at) => source[at % source.length] ?? null);

/**
 * The `count` cells that follow `source` in a series, each read as if it were typed, so that nothing comes in that
 * could not be typed.
 *
 * - Figures and lengths go on by the step between the cells selected, which must be the same all along. One count goes
 *   up by 1; one measure stays as it is. Lengths step by whole nanometres and are spelt as the job spells them.
 * - Text goes on by the number, or the one letter, that it ends in. Text without one repeats; a mark can’t.
 * - Keys and blank cells repeat.
 */
export function seriesOf(
	input: InputDefinition,
	source: readonly Cell[],
	count: number,
	measures: Measures
): Series {
	const filled = source.filter((cell) => cell !== null);
	if (filled.length === 0 || input.kind === 'key') return { ok: true, cells: fillCells(source, count) };
	if (filled.length < source.length)
		return {
			ok: false,
			reason: 'a blank cell is among those the series starts from; select only filled ones'
		};
	return input.kind === 'text'
		? textSeries(input, filled.map(String), count, measures)
		: figureSeries(input, filled, count, measures);
}

function textSeries(
	input: InputDefinition,
	source: readonly string[],
	count: number,
	measures: Measures
): Series {
	const counted = source.map(countedText);
	const last = counted.at(-1);
	const stepping = counted.flatMap((each) =>
		each?.stem === last?.stem && each?.by === last?.by ? (each ?? []) : []
	);
	const step =
		last && stepping.length === source.length
			? stepOf(
					stepping.map((each) => each.count),
					1n
				)
			: null;
	if (!last || step === null || step === 0n) {
		if (input.id !== 'mark') return { ok: true, cells: fillCells(source, count) };
		return {
			ok: false,
			reason: `no step leads on from ${source.slice(-3).join(', ')}, and no two marks may be the same; select one mark that ends in a number or a letter, or two that are a step apart`
		};
	}
	return spelled(input, count, measures, (at) => withCount(last, last.count + step * BigInt(at)));
}

function figureSeries(
	input: InputDefinition,
	source: readonly (string | number | Measured)[],
	count: number,
	measures: Measures
): Series {
	const { amountOf, spell } = figuresOf(input, measures);
	const amounts = source.map(amountOf);
	const step = stepOf(amounts.map(BigInt), input.kind === 'count' ? 1n : 0n);
	const last = amounts.at(-1) ?? 0;
	if (step === null)
		return {
			ok: false,
			reason: `${amounts.slice(0, 4).map(spell).join(', ')}${amounts.length > 4 ? ' …' : ''} do not go on by one step; select two cells to take the step from`
		};
	if (step === 0n) return { ok: true, cells: fillCells(source.slice(-1), count) };
	return spelled(input, count, measures, (at) => spell(last + Number(step) * at));
}

/** The one step between all neighbours; `single` where there is but one; null where they differ. */
function stepOf(counts: readonly bigint[], single: bigint): bigint | null {
	const steps = counts.slice(1).map((count, at) => count - (counts[at] ?? 0n));
	const [first = single] = steps;
	return steps.every((step) => step === first) ? first : null;
}

/** Decimals of a measure that a series keeps, in the unit it is shown in. */
const decimals = 9;

/** Figures of an input as whole numbers that can be stepped exactly, and how one of them is typed. */
function figuresOf(
	input: InputDefinition,
	measures: Measures
): { amountOf: (cell: string | number | Measured) => number; spell: (amount: number) => string } {
	if (input.kind === 'length') {
		const step = measures === 'imperial' ? 1_587_500 : 100_000;
		const unit = measures === 'imperial' ? 'in' : 'mm';
		return {
			amountOf: amountIn,
			spell: (nm) =>
				nm % step === 0
					? formatLength(nm, measures === 'imperial' ? 'feetInches' : 'mm')
					: exactLength(nm, unit)
		};
	}
	if (input.kind === 'count') return { amountOf: amountIn, spell: String };
	const shownIn = unitOfFigure(input, measures) ?? 'V';
	const scale = 10 ** decimals;
	return {
		amountOf: (cell) =>
			Math.round(convert(amountIn(cell), typeof cell === 'object' ? cell.unit : shownIn, shownIn) * scale),
		spell: (amount) => `${Number((amount / scale).toFixed(decimals))} ${shownIn}`
	};
}

const amountIn = (cell: string | number | Measured): number =>
	typeof cell === 'object' ? cell.amount : Number(cell);

/** Reads what is spelled for each place, from 1 on; the first that can’t be is why there is no series. */
function spelled(
	input: InputDefinition,
	count: number,
	measures: Measures,
	spell: (at: number) => string | null
): Series {
	const cells: Cell[] = [];
	for (let at = 1; at <= count; at++) {
		const text = spell(at);
		if (text === null) return ends(cells.length, count, 'nothing comes before it');
		const read = readCell(input, text, { measures, keys: [] });
		if (!read.ok) return ends(cells.length, count, read.reason);
		cells.push(read.cell);
	}
	return { ok: true, cells };
}

const ends = (done: number, count: number, reason: string): Series => ({
	ok: false,
	reason: `the series ends after ${done} of ${count} cells: ${reason}`
});
