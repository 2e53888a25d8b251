/** An edit as a message: what a person did, cell by cell, so that it can be checked, stored, undone and shown to others. */
import { z } from 'zod';
import { inputIds } from '../takeoff/inputs.ts';

const text = z.string().max(2000);
const opaque = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/u);

const cellSchema = z.union([
	z.null(),
	text,
	z.number().int().min(0).max(1_000_000),
	z.strictObject({
		amount: z.number().min(-1e15).max(1e15),
		unit: z.enum(['nm', 'psf', 'psi', 'lb/ft', 'V']),
		typed: z.string().max(200)
	})
]);

/** Every id is an input's; a value is a cell. Empty cells are left out. */
export const cellsSchema = z.partialRecord(z.enum(inputIds), cellSchema);

const changeSchema = z.discriminatedUnion('kind', [
	/** `before` is the value it replaces: if another stands there now, the edit is a conflict. */
	z.strictObject({
		kind: z.literal('setCell'),
		row: opaque,
		field: z.enum(inputIds),
		before: cellSchema,
		after: cellSchema
	}),
	/** Inserts after the row `after`, or at the top when null. */
	z.strictObject({ kind: z.literal('addRow'), row: opaque, after: opaque.nullable(), cells: cellsSchema }),
	/** `cells` and `after` are what is removed and where it stood, for undo. */
	z.strictObject({ kind: z.literal('removeRow'), row: opaque, after: opaque.nullable(), cells: cellsSchema }),
	/** Puts a row right after the row `after`, or at the top when null. Its cells stay as they are. */
	z.strictObject({ kind: z.literal('moveRow'), row: opaque, after: opaque.nullable() })
]);

export const editSchema = z.strictObject({
	/** Made by the client; sent twice, it is applied once. */
	id: opaque,
	/** What the person did, for the undo button: `Paste 12 cells`. */
	title: z.string().min(1).max(200),
	changes: z.array(changeSchema).min(1).max(250_000)
});

export type Change = z.infer<typeof changeSchema>;
export type Edit = z.infer<typeof editSchema>;

/** A cell that was changed by someone else meanwhile. */
export interface Conflict {
	readonly row: string;
	readonly field: string;
	readonly yours: unknown;
	readonly theirs: unknown;
	/** The whole row was removed: nothing can be put there any more. */
	readonly gone?: true;
	/** Who put theirs there, and when (ISO 8601, UTC), where it is known. */
	readonly by?: { readonly name: string; readonly at: string };
}
