/** What is on the phone and what is in the office, in words. */
import type { MarkName } from '../parts/marks.ts';
import type { Kept } from './kept-on-phone.ts';
import type { SendingState } from './site-outbox.svelte.ts';

const some = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** `3 counts`, `2 counts and 1 photo`. */
function keptWords(waiting: readonly Pick<Kept, 'kind'>[]): string {
	const of = (kind: Kept['kind']): number => waiting.filter((one) => one.kind === kind).length;
	const [counts, photos, finishes, measures] = [of('count'), of('photo'), of('finish'), of('measure')];
	const said = [
		...(measures > 0 ? [some(measures, 'measure', 'measures')] : []),
		...(counts > 0 ? [some(counts, 'count', 'counts')] : []),
		...(photos > 0 ? [some(photos, 'photo', 'photos')] : []),
		...(finishes > 0 ? [some(finishes, '“truck counted”', '“truck counted”')] : [])
	];
	return [said.slice(0, -1).join(', '), ...said.slice(-1)].filter((part) => part !== '').join(' and ');
}

/** One sentence or two that always stand on the page. */
export function officeWords(waiting: readonly Pick<Kept, 'kind'>[], state: SendingState): string {
	if (waiting.length === 0) return 'Everything is in the office.';
	const isOne = waiting.length === 1;
	const here = `${keptWords(waiting)} ${isOne ? 'is' : 'are'} on this phone only`;
	const they = isOne ? 'it goes' : 'they go';
	switch (state) {
		case 'saved':
		case 'sending':
			return `${here}; sending.`;
		case 'noConnection':
			return `${here}; ${they} to the office when there is signal.`;
		case 'notStored':
			return `${here}; the office does not take ${isOne ? 'it' : 'them'} just now, and is asked again.`;
		case 'signedOut':
			return `${here}; sign in again, then ${they} to the office.`;
	}
}

export const officeMark = (waiting: readonly unknown[], state: SendingState): MarkName =>
	waiting.length === 0 ? 'right' : state === 'saved' || state === 'sending' ? 'busy' : 'later';

/** Of a kept thing that was refused, as a person calls it. */
export function keptName(kept: Kept): string {
	switch (kept.kind) {
		case 'count':
			return kept.count.line === null
				? `The count of ${kept.count.description}`
				: `The count of line ${kept.count.line}`;
		case 'measure':
			return `The measure of ${kept.openingId}`;
		case 'photo':
			return 'A photo';
		case 'finish':
			return kept.finished ? '“This truck is counted”' : '“Count this truck again”';
	}
}
