/** Jobs with everything their orders are made from, for tests: the demo book, and the demo jobs of the fixtures. */
import { readFileSync } from 'node:fs';
import type { Buying } from '../src/lib/delivery/ordering/line-parts.ts';
import { stockBoxes } from '../src/lib/delivery/ordering/full-boxes.ts';
import { partPrices } from '../src/lib/delivery/ordering/part-prices.ts';
import { demoPriceBook, demoTechnicalBook } from '../src/lib/shopbook/demo/demo-book.ts';
import type { JobTakeoff } from '../src/lib/takeoff/engine.ts';
import type { Measures } from '../src/lib/takeoff/inputs.ts';
import { materialList } from '../src/lib/takeoff/parts.ts';
import type { Part } from '../src/lib/takeoff/result.ts';
import { engineOf, typedRow, type Typed } from './opening-rows.ts';

const engine = engineOf();

export interface OrderedJob {
	readonly takeoff: JobTakeoff;
	readonly parts: readonly Part[];
	readonly phases: ReadonlyMap<string, string>;
	readonly buying: Buying;
}

export function orderedJob(rows: readonly Typed[], measures: Measures = 'imperial'): OrderedJob {
	const takeoff = engine.takeoff(
		rows.map((row) => typedRow(row, measures)),
		measures
	);
	const parts = materialList(engine, takeoff);
	const size = (value: number | string | null): number => (typeof value === 'number' ? value : 0);
	const byOpening = takeoff.openings.flatMap((opening) =>
		opening.openingIds.map((id) => [id, opening] as const)
	);
	return {
		takeoff,
		parts,
		phases: new Map(byOpening.map(([id, { phase }]) => [id, phase])),
		buying: {
			plans: new Map(),
			prices: partPrices(demoTechnicalBook, demoPriceBook, takeoff, parts),
			boxes: stockBoxes(demoTechnicalBook),
			openingSizes: new Map(
				byOpening.map(([id, opening]) => [
					id,
					{ width: size(opening.get('openingWidth')), height: size(opening.get('openingHeight')) }
				])
			),
			style: measures === 'metric' ? 'mm' : 'feetInches'
		}
	};
}

/** A demo job by the name of its schedule in `fixtures/schedules`. */
export function demoJob(schedule: string): OrderedJob {
	const path = new URL(`../fixtures/schedules/${schedule}.expected.json`, import.meta.url);
	const { measures, rows } = JSON.parse(readFileSync(path, 'utf8')) as {
		readonly measures: Measures;
		readonly rows: readonly { readonly cells: Typed }[];
	};
	return orderedJob(
		rows.map(({ cells }) => cells),
		measures
	);
}
