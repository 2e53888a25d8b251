/** What a measure changes: the takeoff run again, compared part by part with what was drawn. */
import type { Engine } from '../takeoff/engine.ts';
import type { Cells, Measures } from '../takeoff/inputs.ts';
import { partsOf } from '../takeoff/parts.ts';
import type { Check, OpeningTakeoff, Part } from '../takeoff/result.ts';
import { sentenceOf } from './change-words.ts';
import { partChanges, partsAgain, type OrderLineOfPart, type PartChange } from './part-changes.ts';
import { sayLength } from './sentence.ts';
import type { TakeoffAgain } from './takeoff-again.ts';

export interface Effects {
	/** Cells the measure changes, to put into a row of the opening’s own; sizes only where beyond tolerance. A null cell is to be blank. */
	readonly changes: Cells;
	/** Every part before and after. Empty where nothing of the shop book passes with the measured sizes. */
	readonly parts: readonly PartChange[];
	/** Stops and cautions of the takeoff that were not there with the drawn sizes. */
	readonly appeared: readonly Check[];
	/** Stops and cautions that are no longer there. */
	readonly cleared: readonly Check[];
	readonly text: string;
}

/** Checks of one takeoff whose code another has not. */
const without = (checks: readonly Check[], others: readonly Check[]): Check[] => {
	const codes = new Set(others.map(({ code }) => code));
	return checks.filter(({ severity, code }) => severity !== 'note' && !codes.has(code));
};

/**
 * @param openingId which of the openings of the row
 * @param parts its parts as they are stored, with ids; null takes those of the takeoff
 */
export function effectsOf(
	engine: Engine,
	opening: OpeningTakeoff,
	openingId: string,
	again: TakeoffAgain,
	changes: Cells,
	measures: Measures,
	known: {
		readonly parts: readonly Part[] | null;
		readonly orderLines: ReadonlyMap<string, readonly OrderLineOfPart[]>;
	}
): Effects {
	const { whole, guide } = again;
	const say = sayLength(measures);
	const checks = [...whole.checks];
	for (const own of [guide.left, guide.right]) checks.push(...without(own.checks, checks));
	const appeared = without(checks, opening.checks);
	const cleared = without(opening.checks, checks);
	if (!whole.computed) {
		const stop = whole.checks.find(({ severity }) => severity === 'stop');
		const text = `With the measured sizes the takeoff has no result. ${stop?.text ?? ''}`.trim();
		return { changes, parts: [], appeared, cleared, text };
	}
	const before = (known.parts ?? partsOf(engine, opening)).filter((part) => part.openingId === openingId);
	const parts = partChanges(
		before,
		partsAgain(engine, again),
		{ before: opening, after: whole },
		known.orderLines,
		say
	);
	return { changes, parts, appeared, cleared, text: sentenceOf(parts, say) };
}
