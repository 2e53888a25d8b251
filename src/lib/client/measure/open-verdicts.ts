/** Loaded after the first paint: the engine, and with it the verdict on what is typed, without asking the office. */
import type { MeasureSheet } from '../../changes/measures.ts';
import type { FieldReadings } from '../../fieldwork/field-measure.ts';
import type { Side } from '../../fieldwork/governing.ts';
import { readMeasure, type MeasureVerdict } from '../../fieldwork/read-measure.ts';
import { suggestedHeights } from '../../fieldwork/suggested-heights.ts';
import { lengthOf } from '../../fieldwork/taken-sizes.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { buildEngine, type Engine } from '../../takeoff/engine.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import type { DrawnSizes } from './measure-entries.ts';

export interface Verdicts {
	readonly opening: OpeningTakeoff;
	readonly drawn: DrawnSizes;
	readonly heights: Readonly<Record<Side, readonly number[]>>;
	verdict(readings: FieldReadings): MeasureVerdict;
}

const engines = new WeakMap<TechnicalBook, Engine>();

/** Rules are compiled once for all openings that are measured one after the other. */
function engineOf(book: TechnicalBook): Engine {
	const before = engines.get(book);
	if (before) return before;
	const built = buildEngine(book);
	if (!built.ok) throw new Error(built.problems.map(({ rule, problem }) => `${rule}: ${problem}.`).join(' '));
	engines.set(book, built.engine);
	return built.engine;
}

/** @throws Error naming what is wrong with the rules of the job’s shop book */
export function openVerdicts(book: TechnicalBook, measures: Measures, sheet: MeasureSheet): Verdicts {
	const { openingId, rows, parts, orderLines } = sheet;
	const engine = engineOf(book);
	const takeoff = engine.takeoff(rows, measures);
	const opening = takeoff.openings.find(({ openingIds }) => openingIds.includes(openingId));
	if (!opening) throw new Error(`${openingId} is not in the sheet any more.`);
	const lines = new Map(orderLines);
	return {
		opening,
		drawn: { width: lengthOf(opening, 'openingWidth'), height: lengthOf(opening, 'openingHeight') },
		heights: {
			left: suggestedHeights(opening, 'left', book, measures),
			right: suggestedHeights(opening, 'right', book, measures)
		},
		verdict: (readings) =>
			readMeasure({ engine, opening, openingId, readings, measures, parts, orderLines: lines })
	};
}
