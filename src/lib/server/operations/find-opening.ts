/** Finds one opening by the key that tables and addresses call it by, with what its mark was taken off to. */
import type { Engine } from '../../takeoff/engine.ts';
import type { Measures, OpeningRow } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import { openingKeysOf } from './opening-keys.ts';
import { refuse } from './outcome.ts';

interface FoundOpening {
	readonly openingId: string;
	readonly opening: OpeningTakeoff;
	/** Of the mark and of its openings. */
	readonly rows: readonly OpeningRow[];
}

export const noSuchOpening = refuse(404, {
	message: 'The sheet has no such opening now: its row was taken out, or its mark has fewer openings.'
});

/** Takes off the rows of one mark only. @returns null where the sheet has no such opening now */
export async function findOpening(
	{ openings }: Pick<Repositories, 'openings'>,
	engine: Engine,
	key: JobKey,
	measures: Measures,
	openingKey: string
): Promise<FoundOpening | null> {
	const rowId = openingKey.slice(0, Math.max(0, openingKey.lastIndexOf('.')));
	const [row] = await openings.some(key, [rowId]);
	if (!row || row.removed) return null;
	const { mark } = row.cells;
	const rows = typeof mark === 'string' && mark !== '' ? await openings.ofMarks(key, [mark]) : [row];
	const takeoff = engine.takeoff(rows, measures);
	const openingId = openingKeysOf(takeoff).openings.get(openingKey);
	const opening = takeoff.openings.find(({ openingIds }) => openingIds.some((id) => id === openingId));
	return openingId === undefined || !opening ? null : { openingId, opening, rows };
}
