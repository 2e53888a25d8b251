/** From a plot to paper: axes with round steps, lines as paths. Paper is in CSS pixels, y down. */
import { textWidth } from '../../drawing/layout.ts';
import type { Peak, Plot } from './travel.ts';

interface Tick {
	readonly value: number;
	readonly text: string;
	/** Along its axis. */
	readonly at: number;
}

export interface PlotLayout {
	readonly left: number;
	readonly right: number;
	readonly top: number;
	readonly bottom: number;
	readonly acrossTicks: readonly Tick[];
	readonly upTicks: readonly Tick[];
	/** One path a series, in their order. */
	readonly paths: readonly string[];
	/** One height a level, in their order. */
	readonly levels: readonly number[];
	readonly peaks: readonly {
		readonly peak: Peak;
		readonly x: number;
		readonly y: number;
		/** Where its text starts. */
		readonly text: { readonly x: number; readonly y: number };
	}[];
	readonly x: (value: number) => number;
	readonly y: (value: number) => number;
}

/** The smallest of 1, 2 and 5 times a power of ten that covers the range in no more than `most` steps. */
export function roundStep(range: number, most: number): number {
	const least = range / Math.max(1, most);
	const power = 10 ** Math.floor(Math.log10(least));
	const step = [1, 2, 5].find((factor) => factor * power >= least * (1 - 1e-9)) ?? 10;
	return step * power;
}

function ticksOf(from: number, to: number, step: number, place: (value: number) => number): Tick[] {
	const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
	const first = Math.ceil(from / step - 1e-9);
	const last = Math.floor(to / step + 1e-9);
	return Array.from({ length: last - first + 1 }, (_, i) => {
		const value = (first + i) * step;
		return { value, text: (value === 0 ? 0 : value).toFixed(decimals).replace('-', '−'), at: place(value) };
	});
}

/** Lays a plot out in a box. The lower end of the upright axis is 0, or a round figure below the least value. */
export function layOutPlot(
	plot: Plot,
	box: { readonly width: number; readonly height: number },
	fontSize: number
): PlotLayout {
	const all = [
		...plot.series.flatMap(({ values }) => values),
		...plot.levels.map(({ value }) => value),
		...plot.peaks.map(({ value }) => value)
	];
	const most = Math.max(0, ...all);
	const least = Math.min(0, ...all);
	const range = most - least > 0 ? most - least : 1;
	const upStep = roundStep(range, Math.max(2, Math.floor(box.height / 42)));
	const high = Math.ceil((least + range) / upStep - 1e-9) * upStep;
	const low = Math.floor(least / upStep + 1e-9) * upStep;
	const far = Math.max(...plot.across.values);

	const labels = ticksOf(low, high, upStep, (value) => value).map(({ text }) => text);
	const left = Math.max(...labels.map((text) => textWidth(text, fontSize))) + 10;
	const right = box.width - 8;
	// The title of the upright axis stands over it; a line's own text may stand over its highest point.
	const top = fontSize * 2.4;
	const bottom = box.height - fontSize * 2.9;
	const x = (value: number): number => left + ((right - left) * value) / far;
	const y = (value: number): number => bottom - ((bottom - top) * (value - low)) / (high - low);

	const acrossStep = roundStep(far, Math.max(2, Math.floor((right - left) / 46)));
	const path = (values: readonly number[]): string =>
		values
			.map(
				(value, i) =>
					`${i === 0 ? 'M' : 'L'}${x(plot.across.values[i] ?? 0).toFixed(2)} ${y(value).toFixed(2)}`
			)
			.join('');
	return {
		left,
		right,
		top,
		bottom,
		acrossTicks: ticksOf(0, far, acrossStep, x),
		upTicks: ticksOf(low, high, upStep, y),
		paths: plot.series.map(({ values }) => path(values)),
		levels: plot.levels.map(({ value }) => y(value)),
		peaks: plot.peaks.map((peak) => {
			const [px, py] = [x(peak.at), y(peak.value)];
			const width = textWidth(peak.text, fontSize);
			const start = Math.max(left + 6, Math.min(px - width / 2, right - width));
			return { peak, x: px, y: py, text: { x: start, y: textLevel(plot, y, py, fontSize) } };
		}),
		x,
		y
	};
}

/** Over the point, or under it where a level would run through the text. */
function textLevel(plot: Plot, y: (value: number) => number, point: number, fontSize: number): number {
	const over = point - fontSize * 0.9;
	const meets = plot.levels.some(({ value }) => Math.abs(y(value) - (over - fontSize * 0.3)) < fontSize);
	return meets ? point + fontSize * 1.6 : over;
}
