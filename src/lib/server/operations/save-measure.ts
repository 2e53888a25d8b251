import type { MeasureTaken } from '../../changes/measures.ts';
import type { RecordChange } from '../../changes/history.ts';
import { isMeasured, readingWords } from '../../fieldwork/reading-list.ts';
import { sayLength, type SayLength } from '../../fieldwork/sentence.ts';
import { soundReadings } from '../../fieldwork/sound-readings.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredMeasure } from '../storage/measure.repository.ts';
import { changeRecords } from './change-records.ts';
import { findJob } from './find-job.ts';
import { findOpening, noSuchOpening } from './find-opening.ts';
import { bodyProblem } from './job-bodies.ts';
import { measureBody } from './measure-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

type Told = Pick<StoredMeasure, 'readings' | 'note'>;

/** A measure in the words of the history. */
export const measureWords = ({ readings, note }: Told, say: SayLength): string =>
	`${readingWords(readings, say)}${note === '' ? '' : `; “${note}”`}`;

/** The measures of one opening, the first measured first. */
const ofOpening = <T extends { readonly openingKey: string }>(
	measures: readonly T[],
	openingKey: string
): T[] => measures.filter((measure) => measure.openingKey === openingKey);

/**
 * Keeps a measure beside the earlier ones; the latest by the time it was taken counts. What came before under its id is
 * not taken again; the same id with other content is refused, and what came first stays.
 */
export async function saveMeasure(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<MeasureTaken>> {
	const parsed = measureBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { measures, technicalDigest } = found.value;
	const sent = parsed.data;
	const { measureId, openingKey, readings } = sent;
	const [problem] = soundReadings(readings).problems;
	if (problem) return refuse(422, { message: `${problem.text} Nothing was stored.`, field: problem.reading });
	if (!isMeasured(readings))
		return refuse(422, { message: 'There is no reading in this measure. Enter what was measured.' });
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const say = sayLength(measures);
	return changeRecords<MeasureTaken>(actor, services, jobId, async (inside, key, at) => {
		const all = await inside.measures.list(key);
		const earlier = all.find((one) => one.measureId === measureId);
		if (earlier) {
			const same =
				earlier.openingKey === openingKey &&
				earlier.measuredAt === sent.measuredAt &&
				earlier.note === sent.note &&
				JSON.stringify(earlier.readings) === JSON.stringify(readings);
			return same
				? done({ kind: 'measure' as const, title: '', records: [], value: { measureId, known: true } })
				: refuse(409, {
						message:
							'A measure with this id came before and said something else. That stays; save this one anew.'
					});
		}
		const opening = await findOpening(inside, engine, key, measures, openingKey);
		if (!opening) return noSuchOpening;
		await inside.measures.add(key, sent, actor, at);
		const before = ofOpening(all, openingKey);
		const counted = before.filter(({ withdrawn }) => !withdrawn).at(-1) ?? null;
		const counts = counted === null || counted.measuredAt <= sent.measuredAt;
		const record: RecordChange = {
			record: 'Measure',
			name: opening.openingId,
			field: counts ? 'Readings' : 'Readings taken before those',
			before: counts && counted ? measureWords(counted, say) : null,
			after: measureWords(sent, say)
		};
		return done({
			kind: 'measure' as const,
			title: `Measure ${opening.openingId}`,
			records: [record],
			value: { measureId, known: false }
		});
	});
}
