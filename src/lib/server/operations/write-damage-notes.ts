import { z } from 'zod';
import type { CountSheet, KnownCount } from '../../changes/site.ts';
import { damageNotes, tellBy, type DamageNote } from '../../delivery/counting/damage-notes.ts';
import { concealedWords, damageRemarks } from '../../delivery/counting/damage-words.ts';
import { lineWords } from '../../delivery/counting/line-words.ts';
import { isDay } from '../../delivery/ordering/dates.ts';
import type { PrintedDamage } from '../../exchange/print/damage-notes-pdf.ts';
import { printJob } from '../../exchange/print/print-job.ts';
import { lengthStyleOf, type Measures } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobKey } from '../storage/keys.ts';
import { findJob, keyOf } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { findTruck } from './read-count-sheet.ts';
import type { Services } from './services.ts';

const request = z.strictObject({
	paper: z.enum(['letter', 'a4'], 'The paper is letter or a4.').default('letter'),
	/** Day of delivery as the one who received says it; left to be written by hand where nobody does. */
	delivered: z.string().refine(isDay, 'The day of delivery is written as 2026-12-01.').optional()
});

/** On paper, so that a sheet stays a sheet: photos of one note, and of all of them. */
const most = { ofNote: 3, inAll: 40, bytes: 40 * 1024 * 1024 } as const;

/** The pictures of each note that go on paper, in the order of the notes. */
async function picturesOf(
	services: Services,
	key: JobKey,
	notes: readonly DamageNote<KnownCount>[]
): Promise<Uint8Array[][]> {
	const pictures: Uint8Array[][] = [];
	let [count, bytes] = [0, 0];
	for (const { count: counted } of notes) {
		const own: Uint8Array[] = [];
		for (const id of counted.photoIds.slice(0, most.ofNote)) {
			const photo = count < most.inAll ? await services.storage.photos.find(key, id) : null;
			if (!photo || bytes + photo.bytes.byteLength > most.bytes) continue;
			own.push(photo.bytes);
			count++;
			bytes += photo.bytes.byteLength;
		}
		pictures.push(own);
	}
	return pictures;
}

function printedNote(
	{ line, count, findings }: DamageNote<KnownCount>,
	photos: readonly Uint8Array[],
	measures: Measures
): PrintedDamage {
	const words = line && lineWords(line, lengthStyleOf(measures));
	const crate = line ? line.crate : count.crate;
	return {
		what: words ? [words.mark, words.what, ...words.tells].filter(Boolean).join(', ') : count.description,
		where: `${line ? `Line ${line.line}` : 'On no line'}${crate === null ? '' : `, crate ${crate}`}`,
		listed: words?.listed ?? '',
		findings: findings.join('\n'),
		note: count.note,
		who: `${count.by}\n${count.countedAt.slice(0, 16).replace('T', ' ')} UTC`,
		photos,
		morePhotos: count.photoIds.length - photos.length
	};
}

const truckWords = ({ name, listNumber, supplier }: CountSheet): string =>
	`Packing list ${listNumber === null ? name : `${listNumber} (${name})`}${supplier === null ? '' : ` of ${supplier}`}`;

/** The damage notes of a truck as pages to sign beside the carrier's paper. No price is on them. */
export async function writeDamageNotes(
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string,
	query: unknown
): Promise<Outcome<{ readonly content: Uint8Array; readonly jobName: string }>> {
	const parsed = request.safeParse(query);
	if (!parsed.success) return bodyProblem(parsed.error);
	const job = await findJob(actor, services, jobId);
	if (!job.ok) return job;
	const truck = await findTruck(actor, services, jobId, deliveryId);
	if (!truck.ok) return truck;
	const { sheet, supplier, jobName } = truck.value;
	const { paper, delivered } = parsed.data;
	const found = damageNotes(sheet.lines, sheet.counts);
	const pictures = await picturesOf(services, keyOf(actor, jobId), found.notes);
	const days = supplier?.concealedDamageDays ?? null;
	const print = await printJob({
		what: 'damageNotes',
		paper,
		jobName,
		printedAt: services.now(),
		truck: truckWords(sheet),
		deliveredOn: delivered ?? '',
		notes: found.notes.map((note, i) => printedNote(note, pictures[i] ?? [], job.value.measures)),
		remarks: damageRemarks(found, sheet.finished !== null),
		concealed: concealedWords(delivered === undefined ? null : tellBy(delivered, days))
	});
	if (!print.ok) return refuse(print.problem === 'tooLarge' ? 413 : 422, { message: print.message });
	return done({ content: print.content, jobName });
}
