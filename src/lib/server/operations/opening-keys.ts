/**
 * How openings are called in the tables: by the row of their mark and their number, so that a mark can be renamed and
 * what was planned and measured stays with the opening.
 */
import type { JobTakeoff } from '../../takeoff/engine.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';

export interface OpeningKeys {
	/** By opening id (`C-101.3`), in the stored order of the rows. */
	readonly keys: ReadonlyMap<string, string>;
	/** By key. */
	readonly openings: ReadonlyMap<string, string>;
}

/** Rows of the marks by mark: an opening belongs to its mark's row also where it has a row of its own. */
export function markRows(job: JobTakeoff): ReadonlyMap<string, string> {
	const rows = new Map<string, string>();
	for (const { openingId, mark, row } of job.openings)
		if (openingId === null && mark !== '' && !rows.has(mark)) rows.set(mark, row.id);
	return rows;
}

/** @param openingId of the opening itself: a row stands for several */
export function openingKeyOf(
	openingId: string,
	opening: OpeningTakeoff,
	marks: ReadonlyMap<string, string>
): string {
	const own = opening.openingId === null ? null : marks.get(opening.mark);
	const number = openingId.slice(openingId.lastIndexOf('.') + 1);
	return `${own ?? opening.row.id}.${number}`;
}

export function openingKeysOf(job: JobTakeoff): OpeningKeys {
	const marks = markRows(job);
	const keys = new Map<string, string>();
	for (const opening of job.openings)
		for (const openingId of opening.openingIds) keys.set(openingId, openingKeyOf(openingId, opening, marks));
	return { keys, openings: new Map([...keys].map(([openingId, key]) => [key, openingId])) };
}
