import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { scheduleRows } from '../../exchange/schedule.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import { keyOf } from './find-job.ts';
import { writeExampleSuppliers } from './make-example.ts';
import { done } from './outcome.ts';
import { readScheduleFile } from './read-schedule.ts';
import type { Services } from './services.ts';
import { pinShopBooks } from './shop-books.ts';
import { writeHistory } from './write-history.ts';

/** The invented jobs to play with. The key of one is never changed: it tells that the job was loaded. */
const demoJobs: readonly {
	readonly key: string;
	readonly name: string;
	readonly measures: Measures;
	readonly file: string;
}[] = [
	{ key: 'demo-kelpgate', name: 'Kelpgate Ferry Terminal', measures: 'metric', file: 'kelpgate-ferry.csv' },
	{
		key: 'demo-saltmarsh',
		name: 'Saltmarsh Pier Market Hall',
		measures: 'imperial',
		file: 'saltmarsh-pier.xlsx'
	}
];

/**
 * Loads each demo job once in the life of a database: one that was changed or deleted since stays as it is.
 * @param folder where the schedules lie
 * @throws Error when a schedule can't be read: it comes with the program.
 */
export async function loadDemo(actor: Actor, services: Services, folder: string): Promise<void> {
	const { technicalDigest, priceDigest } = await pinShopBooks(actor, services);
	await writeExampleSuppliers(actor, services);
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	for (const { key, name, measures, file } of demoJobs) {
		if (await services.storage.milestones.reached(actor.companyId, key)) continue;
		const bytes = new Uint8Array(await readFile(join(folder, file)));
		const read = await readScheduleFile(file, bytes, engine, measures, {});
		if (!read.ok) throw new Error(read.refusal.message);
		const rows = scheduleRows(read.value).map(({ cells }) => ({
			id: services.newId(),
			cells,
			removed: false
		}));
		if (rows.length === 0) throw new Error(`${file} has no row that can be loaded`);
		const job = keyOf(actor, services.newId());
		await services.storage.transaction(async (inside) => {
			const { jobs, openings, milestones } = inside;
			// Another process may have been quicker.
			if (!(await milestones.reach(actor.companyId, key, services.now()))) return { ok: false };
			await jobs.insert(job, { name, measures, technicalDigest, priceDigest, demo: true }, services.now());
			await openings.arrange(job, rows, new Set(rows.map((row) => row.id)));
			const records = [{ record: 'Job', name, field: 'Name', before: null, after: name }];
			const entry = { revision: 0, kind: 'job' as const, title: 'Load the invented example', records };
			await writeHistory(inside, job, actor, entry, services.now());
			return done(null);
		});
	}
}
