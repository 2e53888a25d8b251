/** What may be said about a view of the sheet. */
import { z } from 'zod';
import type { SheetView } from '../../changes/sheet-view.ts';
import type { ViewName } from '../storage/view.repository.ts';
import { refuse, type Refused } from './outcome.ts';

/** The largest view kept, in kB as it is sent. */
const largestView = 200;
const kilobyte = 1000;

/**
 * Control characters have no place in a name; white space counts once. A name is also the last part of an address, where
 * dots alone mean something else.
 */
export const viewName = z
	.string()
	.transform((text) =>
		text
			.toWellFormed()
			.normalize('NFC')
			.replace(/[\p{Cc}\s]+/gu, ' ')
			.trim()
	)
	.pipe(
		z
			.string()
			.max(80, 'The name of a view has at most 80 characters.')
			.regex(/[\p{L}\p{N}]/u, 'The name of a view needs a letter or a digit.')
	)
	.transform((name): ViewName => ({ key: nameKey(name), name }));

/** The same for names that differ only in case, or in how their letters are put together. */
export const nameKey = (name: string): string => name.normalize('NFKC').toLowerCase();

export const noSuchView = refuse(404, {
	message: 'There is no such view. It may have been renamed or deleted; the list of views shows it.'
});

export const nameTaken = (name: string): Refused =>
	refuse(409, {
		message: `${name} is there already. Replace it, or choose another name. Nothing was stored.`,
		field: 'name'
	});

/** A view that is too large to keep; null where it is not. */
export function sizeProblem(view: SheetView): Refused | null {
	const size = Buffer.byteLength(JSON.stringify(view)) / kilobyte;
	if (size <= largestView) return null;
	return refuse(413, {
		message: `This view is ${Math.ceil(size)} kB large; at most ${largestView} kB are kept. Filter by fewer values. Nothing was stored.`
	});
}
