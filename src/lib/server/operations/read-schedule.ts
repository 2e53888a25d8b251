/** A schedule as it would come into one job: the reading of the file, and the marks that the job has already. */
import { scheduleMappingSchema, readSchedule, type SchedulePreview } from '../../exchange/schedule.ts';
import { readTableFile } from '../../exchange/table-file.ts';
import type { Cells, Measures, OpeningRow } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import type { Engine } from '../../takeoff/engine.ts';
import type { Actor } from '../identity/actor.ts';
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

/** What happens to rows of the file whose mark (or opening) stands in the job: see {@link existingQuestion}. */
type ExistingAnswer = 'leave' | 'update' | 'all';

const existingId = 'existing';
const existingChoices: readonly { readonly value: ExistingAnswer; readonly title: string }[] = [
	{ value: 'leave', title: 'leave them out: the job’s rows stay as they are' },
	{ value: 'update', title: 'take their cells from the file; cells the file leaves blank stay' },
	{ value: 'all', title: 'bring them in as rows of their own, to be given other marks' }
];

/** Two rows are for the same openings when mark and number agree. */
export const openingKey = ({ mark, openingNumber }: Cells): string | null =>
	typeof mark === 'string' ? JSON.stringify([mark, openingNumber ?? null]) : null;

export interface ScheduleReading {
	readonly preview: SchedulePreview;
	/** The job's rows, in order. */
	readonly rows: readonly OpeningRow[];
	readonly existing: ExistingAnswer | null;
}

function existingQuestion(
	preview: SchedulePreview,
	rows: readonly OpeningRow[],
	answer: ExistingAnswer | null
): SchedulePreview {
	const there = new Set(rows.map((row) => openingKey(row.cells)));
	const same = preview.rows.filter((row) => {
		const opening = row.status === 'opening' ? openingKey(row.cells) : null;
		return opening !== null && there.has(opening);
	});
	if (same.length === 0) return preview;
	const named = same.slice(0, 8).flatMap(({ cells: { mark } }) => (typeof mark === 'string' ? [mark] : []));
	const more = same.length > named.length ? ` and ${same.length - named.length} more` : '';
	const question = {
		id: existingId,
		text: `The job has rows for ${named.join(', ')}${more} already. What happens to those of the file?`,
		lines: same.map((row) => row.line),
		choices: existingChoices,
		answer
	};
	return { ...preview, questions: [...preview.questions, question] };
}

function mappingOf(form: ScheduleForm): Outcome<Parameters<typeof readSchedule>[1]['mapping']> {
	const text = form.field('mapping');
	let mapping: unknown = {};
	try {
		if (text !== null && text !== '') mapping = JSON.parse(text);
	} catch {
		return refuse(422, { message: 'The choice of columns is not readable.', field: 'mapping' });
	}
	const parsed = scheduleMappingSchema.safeParse(mapping);
	if (!parsed.success)
		return refuse(422, { message: 'The choice of columns is not as expected.', field: 'mapping' });
	const viewpoint = form.field('viewpoint');
	if (viewpoint === null || viewpoint === '') return done(parsed.data);
	return done({ ...parsed.data, answers: { ...parsed.data.answers, viewpoint } });
}

/** Reads a file of bytes by the words of a shop book. */
export async function readScheduleFile(
	name: string,
	bytes: Uint8Array,
	engine: Engine,
	measures: Measures,
	mapping: Parameters<typeof readSchedule>[1]['mapping']
): Promise<Outcome<SchedulePreview>> {
	const file = await readTableFile(name, bytes);
	if (!file.ok) return refuse(422, { message: file.message });
	const { book } = engine;
	return done(readSchedule(file.sheets, { measures, keysFor: (input) => keysFor(book, input), mapping }));
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
	const mapping = mappingOf(form);
	if (!mapping.ok) return mapping;
	const { measures, technicalDigest } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const read = await readScheduleFile(form.name, form.bytes, engine, measures, mapping.value);
	if (!read.ok) return read;
	const rows = await services.storage.openings.live(keyOf(actor, jobId));
	const answer = mapping.value?.answers?.[existingId];
	const existing = existingChoices.find(({ value }) => value === answer)?.value ?? null;
	return done({ preview: existingQuestion(read.value, rows, existing), rows, existing });
}
