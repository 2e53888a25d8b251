/** What the board says in words. */
import type { BoardAnswer, BoardRowView } from '../../changes/readiness.ts';
import type { Hold } from '../../delivery/readiness/holds.ts';
import { holderText } from '../../delivery/readiness/words.ts';

type HolderKind = 'estimator' | 'purchasing' | 'installer' | 'supplier';

/** Which openings are shown: all, those of which something can start, or those that somebody can clear something of. */
export type Shown = 'all' | 'start' | HolderKind;

export const shownWords: readonly (readonly [shown: Shown, words: string])[] = [
	['all', 'All openings'],
	['start', 'Something can start'],
	['estimator', 'Held by the estimator'],
	['purchasing', 'Held by purchasing'],
	['installer', 'Held by the installer'],
	['supplier', 'Held by a supplier']
];

const kindOf = ({ who }: Hold): HolderKind => (typeof who === 'string' ? who : 'supplier');

const allHolds = ({ holds, cells }: BoardRowView): readonly Hold[] => [
	...holds,
	...cells.flatMap((cell) => cell.holds)
];

export function isShown(row: BoardRowView, shown: Shown): boolean {
	if (shown === 'all') return true;
	if (shown === 'start') return row.cells.some(({ state }) => state === 'clear');
	return allHolds(row).some((hold) => kindOf(hold) === shown);
}

/** `purchasing`, `installer and Northreach Shutter Works` */
export function holdersOf(holds: readonly Hold[]): string {
	const names = [...new Set(holds.map(({ who }) => holderText(who)))];
	return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
}

export const openingsText = (count: number): string => `${count} ${count === 1 ? 'opening' : 'openings'}`;

/** What is known of the dealing for the most. */
export function proofText({ most, task }: Pick<BoardAnswer, 'most' | 'task'>): string {
	const count = most.clear.length;
	const what = task === null ? 'start with everything' : `start with ${task}`;
	const best = most.proved
		? `No way of dealing lets more than ${openingsText(count)} ${what}: proved.`
		: `The best found lets ${openingsText(count)} ${what}; no way of dealing lets more than ${most.bound}. Not proved further.`;
	const first =
		most.proved && most.earliest
			? 'Of all ways that let as many start, this one prefers the wanted order: proved too.'
			: 'Another way may let as many start and keep closer to the wanted order.';
	return count === 0 ? best : `${best} ${first}`;
}
