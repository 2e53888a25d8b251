/** Operations on a database of their own, and one job to work on. */
import { onTestFinished } from 'vitest';
import type { EditResult, Refusal } from '../../src/lib/changes/answer.ts';
import type { Change, Edit } from '../../src/lib/changes/message.ts';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import type { Outcome } from '../../src/lib/server/operations/outcome.ts';
import { closeServicesOf, openServices, type Services } from '../../src/lib/server/operations/services.ts';
import { readCell } from '../../src/lib/takeoff/cell.ts';
import { inputOf, isInputId, type Cell, type Cells } from '../../src/lib/takeoff/inputs.ts';
import { openingA } from '../opening-rows.ts';
import { temporaryFolder } from './databases.ts';

export async function temporaryServices(folder = temporaryFolder()): Promise<Services> {
	const services = await openServices(folder);
	onTestFinished(() => closeServicesOf(services));
	return services;
}

export function value<T>(outcome: Outcome<T>): T {
	if (!outcome.ok) throw new Error(`refused with ${outcome.status}: ${outcome.refusal.message}`);
	return outcome.value;
}

export function refusal<T>(outcome: Outcome<T>): Refusal & { readonly status: number } {
	if (outcome.ok) throw new Error('it was not refused');
	return { status: outcome.status, ...outcome.refusal };
}

let made = 0;
export const edit = (changes: readonly Change[], title = 'Change'): Edit => ({
	id: `edit-${++made}`,
	title,
	changes: [...changes]
});

/** A cell as an imperial job understands what is typed. */
export function typed(field: string, text: string): Cell {
	if (!isInputId(field)) throw new Error(`${field} is not an input`);
	const input = inputOf(field);
	const read = readCell(input, text, { measures: 'imperial', keys: input.table ? [text] : [] });
	if (!read.ok) throw new Error(read.reason);
	return read.cell;
}

export const cells = (texts: Readonly<Record<string, string>>): Cells =>
	Object.fromEntries(Object.entries(texts).map(([field, text]) => [field, typed(field, text)]));

/** Opening A of the demo book under another mark, two of it. */
export const counter = (mark: string): Cells => cells({ ...openingA, mark, quantity: '2' });

export const addRow = (row: string, after: string | null, rowCells: Cells): Change => ({
	kind: 'addRow',
	row,
	after,
	cells: rowCells
});

export const setCell = (row: string, field: string, before: Cell, after: Cell): Change => {
	if (!isInputId(field)) throw new Error(`${field} is not an input`);
	return { kind: 'setCell', row, field, before, after };
};

export interface Workplace {
	readonly services: Services;
	readonly job: string;
	readonly send: (changes: readonly Change[], title?: string) => Promise<Outcome<EditResult>>;
}

/** A job with the counter C-1. */
export async function workplace(folder?: string): Promise<Workplace> {
	const services = await temporaryServices(folder);
	const { id: job } = value(
		await createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
	);
	const send = (changes: readonly Change[], title?: string) =>
		applyEdit(localActor, services, job, edit(changes, title));
	value(await send([addRow('c1', null, counter('C-1'))], 'Add C-1'));
	return { services, job, send };
}
