/** Parts that took the place of others, and what of it an order knows. */
import type { Part } from '../../takeoff/result.ts';

/** Id of a part, and of the part whose place it took. Of all parts ever issued, also those no longer needed. */
export type Predecessors = ReadonlyMap<string, string>;

/** The predecessors that parts name themselves: enough as long as no part changed twice since it was ordered. */
export const predecessorsOf = (parts: readonly Pick<Part, 'partId' | 'supersedes'>[]): Predecessors =>
	new Map(parts.flatMap(({ partId, supersedes }) => (supersedes === null ? [] : [[partId, supersedes]])));

/**
 * The id under which a part is among some ids: its own, else that of the latest it took the place of, through as many
 * changes as it takes. Null where none of them is.
 */
export function knownAs(
	part: Pick<Part, 'partId' | 'supersedes'>,
	ids: { has(partId: string): boolean },
	predecessors: Predecessors
): string | null {
	const seen = new Set<string>();
	let id: string | null = part.partId;
	let before = part.supersedes;
	while (id !== null && !seen.has(id)) {
		if (ids.has(id)) return id;
		seen.add(id);
		id = before;
		before = id === null ? null : (predecessors.get(id) ?? null);
	}
	return null;
}
