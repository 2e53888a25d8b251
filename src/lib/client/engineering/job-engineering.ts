/** The openings of a job worked through in the browser, for the tables of its engineering. Loaded when they are shown. */
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { buildEngine, type Engine } from '../../takeoff/engine.ts';
import type { Measures, OpeningRow } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { showQuantity } from '../../takeoff/show.ts';
import type { Explain } from '../why/working.svelte.ts';

export interface JobEngineering {
	readonly engine: Engine;
	readonly openings: readonly OpeningTakeoff[];
	/** The working of every figure of an opening. */
	readonly explain: (opening: OpeningTakeoff) => Explain;
}

/** Null when the job's book can't be read. */
export function engineeringOf(
	book: TechnicalBook,
	rows: readonly OpeningRow[],
	measures: Measures
): JobEngineering | null {
	const built = buildEngine(book);
	if (!built.ok) return null;
	const { engine } = built;
	return {
		engine,
		openings: engine.takeoff(rows, measures).openings,
		explain: (opening) => (id) => {
			const explanation = engine.explain(opening, id, measures);
			const definition = engine.rules.definition(id);
			const value = opening.get(id);
			return definition?.kind === 'number' && typeof value === 'number'
				? { ...explanation, text: showQuantity(value, definition, measures) }
				: explanation;
		}
	};
}
