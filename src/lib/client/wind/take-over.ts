/** What a confirmed wind pressure changes in a row: two cells, for one edit. */
import { readCell } from '../../takeoff/cell.ts';
import { inputOf, type Cell } from '../../takeoff/inputs.ts';
import { confirmedSentence, designPressureText, type WindCase } from '../../takeoff/wind.ts';

export type TakenOver =
	| { readonly ok: true; readonly designPressure: Cell; readonly note: Cell }
	| { readonly ok: false; readonly reason: string };

/**
 * The design pressure as if it were typed, rounded up, and the note with a sentence under what stands there.
 *
 * @param allowable larger pressure at allowable level, psf or Pa
 * @param confirmedBy the engineer's name or reference
 * @param note of the row, or of its mark where its own is blank
 * @returns the reason where the note has no room for the sentence
 */
export function takenOver(wind: WindCase, allowable: number, confirmedBy: string, note: Cell): TakenOver {
	const read = (input: 'designPressure' | 'note', text: string) =>
		readCell(inputOf(input), text, { measures: wind.measures, keys: [] });
	const figure = designPressureText(allowable, wind.measures);
	const sentence = confirmedSentence(wind, figure, confirmedBy.trim());
	const pressure = read('designPressure', figure);
	if (!pressure.ok) return { ok: false, reason: pressure.reason };
	const noted = read('note', typeof note === 'string' ? `${note}\n${sentence}` : sentence);
	if (!noted.ok) return { ok: false, reason: `the note of the row would be too long: ${noted.reason}` };
	return { ok: true, designPressure: pressure.cell, note: noted.cell };
}
