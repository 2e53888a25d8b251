/** What somebody has typed about an opening and not yet saved: kept in this browser by person, job and opening. */
import { sides } from '../../fieldwork/governing.ts';
import { readingList } from '../../fieldwork/reading-list.ts';
import type { MeasureEntries } from './measure-entries.ts';

const keyOf = (place: readonly string[]): string => `coilwright-measure ${JSON.stringify(place)}`;

const isText = (value: unknown): value is string => typeof value === 'string';
const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
	typeof value === 'object' && value !== null;

/** Another version of the program may have kept it, or somebody else may have written there. */
function isEntries(value: unknown): value is MeasureEntries {
	if (!isObject(value)) return false;
	const { lengths, plumb, walls, note } = value;
	if (!isObject(lengths) || !isObject(plumb) || !isObject(walls) || !isText(note)) return false;
	return (
		readingList.every(({ id }) => isText(lengths[id])) &&
		sides.every((side) => {
			const rows = plumb[side];
			return (
				isText(walls[side]) &&
				Array.isArray(rows) &&
				rows.every(
					(row: unknown) =>
						isObject(row) && isText(row.height) && isText(row.inPlane) && isText(row.outOfPlane)
				)
			);
		})
	);
}

/** @param place person, job, opening */
export function readDraft(place: readonly string[]): MeasureEntries | null {
	try {
		const kept: unknown = JSON.parse(localStorage.getItem(keyOf(place)) ?? 'null');
		return isEntries(kept) ? kept : null;
	} catch {
		return null;
	}
}

/** @returns false where this browser keeps nothing, or has no room. */
export function keepDraft(place: readonly string[], entries: MeasureEntries | null): boolean {
	try {
		if (entries) localStorage.setItem(keyOf(place), JSON.stringify(entries));
		else localStorage.removeItem(keyOf(place));
		return true;
	} catch {
		return false;
	}
}
