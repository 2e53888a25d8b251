/** How values that a column can't hold as they are get written and read. Nothing else turns a row into a value. */
import type { BidContent, BidSummary } from '../../changes/bid.ts';
import type { RecordChange } from '../../changes/history.ts';
import type { Change } from '../../changes/message.ts';
import type { Role } from '../../changes/roles.ts';
import type { SheetView } from '../../changes/sheet-view.ts';
import type { FinishedCount, SentCount } from '../../delivery/count.ts';
import type { DeliveryAnswers } from '../../delivery/delivery-answers.ts';
import type { Alias, LineDecision } from '../../delivery/line-decision.ts';
import type { PackingFacts, PackingLine } from '../../delivery/line.ts';
import type { Acknowledgement } from '../../delivery/ordering/acknowledgement.ts';
import type { PurchaseOrder, Released, Supplier } from '../../delivery/ordering/purchase-order.ts';
import type { FieldReadings } from '../../fieldwork/field-measure.ts';
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
	acknowledgement: json<Acknowledgement>(),
	alias: json<Alias>(),
	answers: json<DeliveryAnswers>(),
	count: json<SentCount>(),
	counted: json<FinishedCount>(),
	facts: json<PackingFacts>(),
	lineDecision: json<LineDecision>(),
	mapping: json<KindMapping>(),
	order: json<PurchaseOrder>(),
	readings: json<FieldReadings>(),
	released: json<Released>(),
	supplier: json<Supplier>(),
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
