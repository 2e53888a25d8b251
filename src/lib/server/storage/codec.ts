/** How values that a column can't hold as they are get written and read. Nothing else turns a row into a value. */
import type { BidContent, BidSummary } from '../../changes/bid.ts';
import type { RecordChange } from '../../changes/history.ts';
import type { Change } from '../../changes/message.ts';
import type { Role } from '../../changes/roles.ts';
import type { SheetView } from '../../changes/sheet-view.ts';
import type { PackingLine } from '../../delivery/line.ts';
import type { KindMapping } from '../../exchange/schedule-memory.ts';
import type { PriceBook, TechnicalBook } from '../../shopbook/schema.ts';
import type { Cells } from '../../takeoff/inputs.ts';
import type { Part } from '../../takeoff/result.ts';

interface Codec<T> {
	write(value: T): string;
	read(stored: string): T;
}

/** Written by this program only, and checked before it was written: reading trusts the shape. */
function json<T>(): Codec<T> {
	return { write: (value) => JSON.stringify(value), read: (stored) => JSON.parse(stored) as T };
}

export const codec = {
	bidSummary: json<BidSummary>(),
	bidContent: json<BidContent>(),
	cells: json<Cells>(),
	changes: json<readonly Change[]>(),
	records: json<readonly RecordChange[]>(),
	roles: json<readonly Role[]>(),
	rowIds: json<readonly string[]>(),
	lines: json<readonly PackingLine[]>(),
	mapping: json<KindMapping>(),
	part: json<Part>(),
	view: json<SheetView>(),
	technicalBook: json<TechnicalBook>(),
	priceBook: json<PriceBook>()
};

/** A moment, UTC, as ISO 8601 text: sorts as time does, in every database. */
export const instant = { write: (moment: Date): string => moment.toISOString() };

/** Yes or no as 1 or 0. */
export const flag = {
	write: (value: boolean): number => (value ? 1 : 0),
	read: (stored: number): boolean => stored === 1
};
