/** A cut list as a person reads it. */
import type { CutList, CutPattern } from '../../takeoff/cutting/cut-lists.ts';
import { lengthText } from '../../takeoff/cutting/length-text.ts';
import type { Measures } from '../../takeoff/inputs.ts';

/** Equal pieces side by side on a bar. */
export interface PieceRun {
	readonly length: number;
	/** On one bar. */
	readonly count: number;
	/** Marks they are for, on any of the bars cut like this. */
	readonly marks: readonly string[];
}

/** The mark of every opening on the list. */
export const marksOf = ({ pieces }: CutList): ReadonlyMap<string, string> =>
	new Map(pieces.flatMap(({ mark, openingIds }) => openingIds.map((id) => [id, mark] as const)));

export function runsOf({ lengths, bars }: CutPattern, marks: ReadonlyMap<string, string>): PieceRun[] {
	const runs: { length: number; count: number; marks: string[] }[] = [];
	lengths.forEach((length, place) => {
		let run = runs.at(-1);
		if (run?.length !== length) runs.push((run = { length, count: 0, marks: [] }));
		run.count += 1;
		for (const bar of bars) {
			const mark = marks.get(bar[place] ?? '');
			if (mark !== undefined && !run.marks.includes(mark)) run.marks.push(mark);
		}
	});
	return runs;
}

/** `5 × 4'-2" C-101, C-102; 2'-0" C-103; offcut 1'-3"; saw 3/4"`. */
export function patternWords(
	pattern: CutPattern,
	marks: ReadonlyMap<string, string>,
	measures: Measures
): string {
	const pieces = runsOf(pattern, marks).map(
		({ length, count, marks: of }) =>
			`${count > 1 ? `${String(count)} × ` : ''}${lengthText(length, measures)} ${of.join(', ')}`
	);
	const rest = [
		...(pattern.offcut > 0 ? [`offcut ${lengthText(pattern.offcut, measures)}`] : ['no offcut']),
		...(pattern.kerf > 0 ? [`saw ${lengthText(pattern.kerf, measures)}`] : [])
	];
	return [...pieces, ...rest].join('; ');
}

export const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;

export const barCount = (count: number): string => `${String(count)} ${count === 1 ? 'bar' : 'bars'}`;
