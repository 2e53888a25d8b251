/** Which part an id on a line names. */
import { lookalike, plainMark } from './spelling.ts';
import type { OrderedPart, Wanted } from './wanted.ts';

export type FoundId =
	| { readonly found: 'current'; readonly one: OrderedPart; readonly written: string }
	/** An older id: the part that took its place. */
	| { readonly found: 'superseded'; readonly one: OrderedPart; readonly written: string }
	/** None is written so; these could be misread so. */
	| { readonly found: 'alike'; readonly all: readonly OrderedPart[]; readonly written: string };

/** Null when it is no id of this job. */
export function findPartId(wanted: Wanted, text: string | null): FoundId | null {
	const written = text?.trim() ?? '';
	if (written === '') return null;
	const plain = plainMark(written);
	const capitals = wanted.byCapitals.get(plain) ?? [];
	const one = wanted.byId.get(written) ?? (capitals.length === 1 ? capitals[0] : undefined);
	if (one) return { found: 'current', one, written };
	const newer = wanted.bySuperseded.get(plain);
	if (newer) return { found: 'superseded', one: newer, written };
	const all = wanted.byLookalike.get(lookalike(plain)) ?? [];
	return all.length === 0 ? null : { found: 'alike', all, written };
}
