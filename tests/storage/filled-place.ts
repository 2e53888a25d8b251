/** A database with something in every table that a backup holds, and a way to look into all tables without the program's own. */
import { sql, type Kysely } from 'kysely';
import { roleIds } from '../../src/lib/changes/roles.ts';
import { usualView } from '../../src/lib/changes/sheet-view.ts';
import type { Actor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { applySchedule } from '../../src/lib/server/operations/apply-schedule.ts';
import { checkDelivery } from '../../src/lib/server/operations/check-delivery.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { freezeBid } from '../../src/lib/server/operations/freeze-bid.ts';
import { issueParts } from '../../src/lib/server/operations/issue-parts.ts';
import { keepLastView } from '../../src/lib/server/operations/keep-last-view.ts';
import { makeAccount } from '../../src/lib/server/operations/make-account.ts';
import { saveView } from '../../src/lib/server/operations/save-view.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { fillBuying } from './fill-buying.ts';
import { addRow, counter, edit, setCell, value } from './services.ts';

/** Signs that databases and files are apt to get wrong. */
const oddText = 'Größe ½" — “Pier”\u2028\t日本 🚪 \\u0000 \'; drop table job; --';

const schedule = [
	'Mark,Qty,Width,Height,Curtain,Hood,Mounting,Guide,Left wall,Right wall,Fixing,Operation,Hand,Seen from',
	`S-1,2,"10'-0""","4'-0""",counter-slat,steel-24ga,faceOfWall,counter-face,groutedBlock,groutedBlock,standard,tubeMotor,left,coilSide`
].join('\n');

const file = (name: string, content: string, fields: Readonly<Record<string, string>>) => ({
	name,
	bytes: new TextEncoder().encode(content),
	field: (field: string) => fields[field] ?? null
});

export interface Filled {
	readonly actor: Actor;
	readonly job: string;
}

/** A company with one person, and a job of it that went through everything. */
export async function fill(services: Services, company: string, email: string): Promise<Filled> {
	value(
		await makeAccount(
			services,
			{ company, name: 'Ada Ferro', email, password: 'a long way to the pier' },
			null
		)
	);
	const { storage } = services;
	const personId = (await services.accounts.find(email)) ?? '';
	const companyId = (await storage.members.ofPerson(personId))?.companyId ?? '';
	const actor: Actor = { id: personId, companyId, name: 'Ada Ferro', roles: roleIds };
	const { id: job } = value(await createJob(actor, services, { name: oddText, measures: 'imperial' }));
	const send = async (...changes: Parameters<typeof edit>[0]) =>
		value(await applyEdit(actor, services, job, edit(changes)));
	await send(addRow('c1', null, { ...counter('C-1'), note: 'Größe ½ “Pier” 日本 🚪' }));
	await send(addRow('c2', 'c1', counter('C-2')));
	await send(setCell('c2', 'phase', null, 'North'));
	value(await undoEdit(actor, services, job));
	value(await applySchedule(actor, services, job, file('pier.csv', schedule, { editId: 'import' })));
	value(await issueParts(actor, services, job));
	value(
		await checkDelivery(
			actor,
			services,
			job,
			file('truck 1.csv', 'Mark,Description,Qty shipped\nC-1,"Guide, left",1', {})
		)
	);
	value(await freezeBid(actor, services, job, { title: 'For the fish dock' }));
	value(await saveView(actor, services, { name: oddText.slice(0, 20), view: usualView }));
	value(await keepLastView(actor, services, job, usualView));
	const at = services.now();
	// Any mapping does: nothing here looks into it.
	await storage.mappings.put(companyId, 'a kind', {} as never, at);
	await storage.milestones.reach(companyId, 'opened', at);
	await fillBuying(storage, { companyId, jobId: job }, actor, oddText, at);
	await storage.invitations.add({
		companyId,
		id: services.newId(),
		tokenDigest: services.newId(),
		name: 'Finn',
		email: `invited.${email}`,
		roles: ['installer'],
		invitedBy: actor.name,
		madeAt: at,
		expiresAt: new Date(at.getTime() + 86_400_000)
	});
	return { actor, job };
}

/** Kept for the moment or for the server, so in no backup. */
const ofTheMoment = /^(session|verification|attempt|installation|kysely_migration_lock)$/u;
/** Says when a step was made, not only which. */
const steps = 'kysely_migration';

const plain = (stored: unknown): unknown => {
	if (stored instanceof Date) return stored.toISOString();
	return typeof stored === 'boolean' ? Number(stored) : stored;
};

/** Every row of every table as text, in an order of its own. */
export async function everyRow(services: Services): Promise<Readonly<Record<string, readonly string[]>>> {
	const db = services.storage.accountsDatabase.db as unknown as Kysely<never>;
	const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
	const all: Record<string, string[]> = {};
	for (const { name } of tables) {
		if (ofTheMoment.test(name)) continue;
		const { rows } = await sql<Record<string, unknown>>`select * from ${sql.table(name)}`.execute(db);
		all[name] = rows
			.map((row) =>
				name === steps
					? String(row.name)
					: JSON.stringify(
							Object.entries(row)
								.map(([column, stored]) => [column, plain(stored)])
								.sort(([a], [b]) => (String(a) < String(b) ? -1 : 1))
						)
			)
			.sort();
	}
	return all;
}
