/** The history of a job in words. */
import type { HistoryKind, HistoryLine, HistoryListing } from '../../changes/history.ts';
import { inputIds, inputOf, type Cells, type InputId, type Measures } from '../../takeoff/inputs.ts';
import { cellWords } from '../schedule/schedule-words.ts';

export const kindWords: Readonly<Record<HistoryKind, string>> = {
	edit: 'Edits',
	undo: 'Undone',
	redo: 'Done again',
	job: 'The job itself',
	delivery: 'Packing lists',
	bid: 'Bids frozen',
	plan: 'Plan',
	order: 'Orders',
	count: 'Counts on site',
	measure: 'Field measures'
};

/** Somebody as they were called then; `you` is the id of who looks. */
export function whoWords({ id, name }: { readonly id: string; readonly name: string }, you: string): string {
	if (name === '') return 'Before names were kept';
	// The person at the machine, seen by somebody with an account.
	if (id === 'local' && you !== 'local') return 'The person at the machine';
	return name;
}

/** Title of an entry as something that was done. */
export function titleWords({ kind, title }: Pick<HistoryListing, 'kind' | 'title'>): string {
	if (kind === 'undo') return `Undone: ${title}`;
	return kind === 'redo' ? `Done again: ${title}` : title;
}

export const fieldTitle = (field: InputId): string => inputOf(field).title;

/** The filled cells of a row in the order of the sheet. */
export const filledWords = (cells: Cells, measures: Measures): { title: string; text: string }[] =>
	inputIds.flatMap((field) => {
		const text = cellWords(field, cells[field], measures);
		return text === '' ? [] : [{ title: fieldTitle(field), text }];
	});

export const rowWords = ({ name }: Pick<HistoryLine, 'name'>): string =>
	name ?? 'A row that was removed since';

/** Where a moved row was put. */
export const placeWords = (below: { readonly name: string | null } | null): string =>
	below === null ? 'to the top' : `below ${below.name ?? 'a row that was removed since'}`;

export const countWords = (count: number, one: string, many: string): string =>
	count === 1 ? `1 ${one}` : `${count.toLocaleString('en-US')} ${many}`;
