/** What the field measures of a job come to, against the takeoff as it is now. */
import { readMeasure, type MeasureQuestion, type MeasureVerdict } from '../../fieldwork/read-measure.ts';
import { cellsOf } from '../../fieldwork/taken-sizes.ts';
import type { Engine } from '../../takeoff/engine.ts';
import { measuresThatCount, type JobBuying } from './job-buying.ts';

export interface MeasuredVerdict {
	readonly verdict: 'agrees' | 'stop' | 'incomplete';
	/** One sentence, without the opening before it. */
	readonly text: string;
	/** ISO 8601, UTC. */
	readonly at: string;
	readonly by: string;
}

type Came = Pick<MeasureVerdict, 'outcome' | 'text'>;

/** Verdicts that are kept for each engine; the oldest go first. */
const mostKept = 20_000;
const kept = new WeakMap<Engine, Map<string, Came>>();

/** A verdict takes some 10 ms, and nothing but these decides it: what came of them is kept. */
function verdictOn(question: MeasureQuestion): Came {
	const { engine, opening, openingId, readings, measures } = question;
	const ofEngine = kept.get(engine) ?? new Map<string, Came>();
	kept.set(engine, ofEngine);
	const key = JSON.stringify([openingId, measures, opening.computed, readings, cellsOf(opening, {})]);
	const before = ofEngine.get(key);
	if (before) return before;
	const { outcome, text } = readMeasure(question);
	const [oldest] = ofEngine.keys();
	if (ofEngine.size >= mostKept && oldest !== undefined) ofEngine.delete(oldest);
	ofEngine.set(key, { outcome, text });
	return { outcome, text };
}

/** By opening. One that is not in it was not measured, or its measure was withdrawn. */
export function verdictsOf(
	buying: Pick<JobBuying, 'engine' | 'takeoff' | 'job' | 'measures'>
): ReadonlyMap<string, MeasuredVerdict> {
	const { engine, takeoff, job } = buying;
	const measured = measuresThatCount(buying.measures);
	const verdicts = new Map<string, MeasuredVerdict>();
	for (const opening of takeoff.openings)
		for (const openingId of opening.openingIds) {
			const measure = measured.get(openingId);
			if (!measure) continue;
			const { readings, measuredAt: at, by } = measure;
			const { outcome, text } = verdictOn({
				engine,
				opening,
				openingId,
				readings,
				measures: job.measures
			});
			const before = `${openingId}: `;
			const said = text.startsWith(before) ? text.slice(before.length) : text;
			verdicts.set(openingId, { verdict: outcome, text: said, at, by });
		}
	return verdicts;
}
