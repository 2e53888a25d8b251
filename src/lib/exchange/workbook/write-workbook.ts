/**
 * The workbook that goes out. Whoever receives it can check and change it: every rule that is arithmetic is a live
 * formula, written from the same text that the program computes by; what only the app can choose is a marked value with
 * a live test beside it. Beside every formula stands the app's own result, for programs that do not recalculate.
 */
import type { Pricing } from '../../price/price.ts';
import type { Engine, JobTakeoff } from '../../takeoff/engine.ts';
import type { Part } from '../../takeoff/result.ts';
import { flagColumns } from './check-flags.ts';
import { placeColumns } from './planned-column.ts';
import { Places } from './places.ts';
import { writeAnchors } from './sheet-anchors.ts';
import { flagsFrom, writeChecks } from './sheet-checks.ts';
import { planLabour, writeLabour } from './sheet-labour.ts';
import { writeMaterials } from './sheet-materials.ts';
import { writeOpenings } from './sheet-openings.ts';
import { planPrice } from './sheet-price.ts';
import { planShopBook, writeShopBook } from './sheet-shop-book.ts';
import { planTakeoff, writeTakeoff } from './sheet-takeoff.ts';
import { streamedWorkbook } from './streamed-workbook.ts';
import type { WorkbookJob } from './workbook-job.ts';

export interface WorkbookInput {
	/** Name of the job; stands over every sheet and page. */
	readonly name: string;
	readonly engine: Engine;
	readonly job: JobTakeoff;
	/** Null for someone who may not see prices: no price, rate or cost is in the file then. */
	readonly pricing: Pricing | null;
	/** Parts as issued; with them the material list is a sheet of its own, the last one. */
	readonly parts?: readonly Part[];
	readonly madeAt: Date;
}

/** @returns the bytes of an .xlsx without macros and without links to anything outside it. */
export async function writeWorkbook(input: WorkbookInput): Promise<Uint8Array> {
	const { name, engine, pricing, parts, madeAt } = input;
	const { openings, measures } = input.job;
	const prices = pricing?.prices ?? null;
	const job: WorkbookJob = {
		name,
		engine,
		measures,
		openings,
		takeoff: input.job,
		pricing,
		places: new Places(engine, measures, openings.length),
		book: planShopBook(engine.book, prices)
	};
	const takeoff = planTakeoff(job);
	const labour = planLabour(job);
	const flags = flagColumns(job);
	const price = pricing ? planPrice(job, pricing) : null;
	placeColumns(job.places, 'Takeoff', takeoff);
	placeColumns(job.places, 'Labour', labour);
	placeColumns(job.places, 'Checks', flags, flagsFrom);
	if (price) placeColumns(job.places, 'Price', price.planned);

	return streamedWorkbook(madeAt, async (workbook) => {
		for (const [constant, cell] of job.book.constants) workbook.definedNames.add(cell, constant);

		const printing = { job: name, madeAt, metric: measures === 'metric' };
		await writeOpenings(workbook, job, printing);
		await writeTakeoff(workbook, job, takeoff, printing);
		writeAnchors(workbook, job, printing);
		await writeLabour(workbook, job, labour, printing);
		await price?.write(workbook, printing);
		await writeChecks(workbook, job, flags, printing);
		writeShopBook(workbook, job.book, engine.book, prices, printing);
		if (parts) await writeMaterials(workbook, job, parts, printing);
	});
}
