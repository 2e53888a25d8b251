/** Marks for rows that are copied: no two rows of a job may have the same. */
import { countedText, withCount, type CountedText } from './counted-text.ts';

const longestMark = 40;
const joint = '-';

/**
 * The next free mark after `mark`: `C-101` → `C-102`, `C-101A` → `C-101B`, `W` → `W-2`. One that would be longer than
 * 40 characters loses some before its number. A blank mark stays blank.
 * @param taken marks of the job in lower case
 */
export function nextMark(mark: string, taken: ReadonlySet<string>): string {
	if (mark.trim() === '') return '';
	const counted = countedText(mark);
	const start: CountedText =
		counted && goesOn(counted) ? counted : { stem: `${mark}${joint}`, count: 1n, by: 'number', width: 0 };
	for (let count = start.count + 1n; ; count++) {
		const next = short(start, count);
		const lower = next.toLowerCase();
		if (!taken.has(lower) && lower !== mark.toLowerCase()) return next;
	}
}

/** A single letter is a name, not a count; so are more digits than a mark has room for. */
const goesOn = ({ stem, count, by }: CountedText): boolean =>
	by === 'number' ? String(count).length < longestMark - 1 : stem !== '';

/** What joins a name and its number stays when the name is cut. */
function short(counted: CountedText, count: bigint): string {
	const text = withCount(counted, count) ?? '';
	const over = text.length - longestMark;
	if (over <= 0) return text;
	const { stem } = counted;
	const tail = stem.endsWith(joint) ? joint : '';
	const kept = stem.slice(0, Math.max(0, stem.length - tail.length - over)).replace(/[\uD800-\uDBFF]$/u, '');
	return withCount({ ...counted, stem: kept + tail }, count) ?? '';
}
