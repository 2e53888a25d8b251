/** A schedule as it would come into one job: the reading of the file, as files of its kind were read before. */
import { z } from 'zod';
import type { RememberedReading } from '../../changes/schedule-answer.ts';
import { kindMapping, recall, type KindMapping } from '../../exchange/schedule-memory.ts';
import {
	readSchedule,
	scheduleMappingSchema,
	unansweredQuestions,
	type ScheduleMapping,
	type SchedulePreview
} from '../../exchange/schedule.ts';
import type { Sheet } from '../../exchange/sheet.ts';
import { readTableFile } from '../../exchange/table-file.ts';
import type { Engine } from '../../takeoff/engine.ts';
import type { Measures, OpeningRow } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobRecord } from '../storage/job.repository.ts';
import { kindOf } from '../storage/mapping.repository.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** A form with a file, as the browser sends it. */
export interface ScheduleForm {
	readonly name: string;
	readonly bytes: Uint8Array;
	/** `mapping`: what the person chose, as JSON; `viewpoint`: from which side left and right are seen. */
	field(name: string): string | null;
}

export interface ScheduleReading {
	readonly job: JobRecord;
	readonly engine: Engine;
	/** The job's rows, in order. */
	readonly rows: readonly OpeningRow[];
	readonly preview: SchedulePreview;
	/** What was chosen now, and before for files of this kind. */
	readonly mapping: ScheduleMapping;
	readonly remembered: RememberedReading | null;
	/** What to keep once it is brought in; null where the file has no kind or nothing was decided. */
	readonly toKeep: { readonly kind: string; readonly mapping: KindMapping } | null;
}

/** A field of the form as JSON of this shape; `usual` where the form has none. */
export function jsonField<T>(
	form: ScheduleForm,
	name: string,
	schema: z.ZodType<T>,
	usual: T,
	what: string
): Outcome<T> {
	const text = form.field(name);
	if (text === null || text === '') return done(usual);
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		return refuse(422, { message: `${what} is not readable.`, field: name });
	}
	const parsed = schema.safeParse(value);
	return parsed.success
		? done(parsed.data)
		: refuse(422, { message: `${what} is not as expected.`, field: name });
}

function mappingOf(form: ScheduleForm): Outcome<ScheduleMapping> {
	const mapping = jsonField(form, 'mapping', scheduleMappingSchema, {}, 'The choice of columns');
	const viewpoint = form.field('viewpoint');
	if (!mapping.ok || viewpoint === null || viewpoint === '') return mapping;
	return done({ ...mapping.value, answers: { ...mapping.value.answers, viewpoint } });
}

/** Reads a file in one way or another; in each way once. */
function readingOf(
	sheets: readonly Sheet[],
	{ book }: Engine,
	measures: Measures
): (mapping: ScheduleMapping) => SchedulePreview {
	const read = new Map<string, SchedulePreview>();
	return (mapping) => {
		const way = JSON.stringify(mapping);
		const preview =
			read.get(way) ?? readSchedule(sheets, { measures, keysFor: (input) => keysFor(book, input), mapping });
		read.set(way, preview);
		return preview;
	};
}

/** Reads a file of bytes by the words of a shop book. */
export async function readScheduleFile(
	name: string,
	bytes: Uint8Array,
	engine: Engine,
	measures: Measures,
	mapping: ScheduleMapping
): Promise<Outcome<SchedulePreview>> {
	const file = await readTableFile(name, bytes);
	if (!file.ok) return refuse(422, { message: file.message });
	return done(readingOf(file.sheets, engine, measures)(mapping));
}

/** Reads a file for a job. Nothing is stored. */
export async function readJobSchedule(
	actor: Actor,
	services: Services,
	jobId: string,
	form: ScheduleForm
): Promise<Outcome<ScheduleReading>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const job = found.value;
	const given = mappingOf(form);
	if (!given.ok) return given;
	const engine = await services.engines.engine(actor.companyId, job.technicalDigest);
	const file = await readTableFile(form.name, form.bytes);
	if (!file.ok) return refuse(422, { message: file.message });
	const read = readingOf(file.sheets, engine, job.measures);

	const { signature } = read({});
	const kind = signature === '' ? null : kindOf(signature);
	const { mappings, openings } = services.storage;
	const kept = kind === null ? null : await mappings.find(actor.companyId, kind);
	const mapping = kept ? recall(kept.mapping, given.value, read) : given.value;
	const keep = kind === null ? null : kindMapping(mapping, read);
	return done({
		job,
		engine,
		rows: await openings.live(keyOf(actor, jobId)),
		preview: read(mapping),
		mapping,
		remembered:
			kept && kind !== null
				? {
						key: kind,
						confirmedAt: kept.confirmedAt,
						answers: Object.keys(kept.mapping.answers).filter(
							(question) => given.value.answers?.[question] === undefined
						)
					}
				: null,
		toKeep: kind !== null && keep ? { kind, mapping: keep } : null
	});
}

/** Nothing is wrong with the file as a whole, and no question about it is open. */
export function settled(preview: SchedulePreview): Outcome<SchedulePreview> {
	const [problem] = preview.problems;
	if (problem) return refuse(422, { message: `${problem.reason}.`, place: problem.place });
	const [question] = unansweredQuestions(preview);
	if (question) return refuse(422, { message: `A question is open: ${question.text}`, field: question.id });
	return done(preview);
}
