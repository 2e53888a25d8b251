import { Decimal } from 'decimal.js';
import { z } from 'zod';
import type { OrderChanged } from '../../changes/orders.ts';
import { isCancelled } from '../../delivery/ordering/attributes.ts';
import { isDay, orderBy } from '../../delivery/ordering/dates.ts';
import type { PurchaseLine } from '../../delivery/ordering/purchase-order.ts';
import type { Actor } from '../identity/actor.ts';
import { changeOrder, meanwhile, type ToldChange } from './change-order.ts';
import { bodyProblem } from './job-bodies.ts';
import { latestOf } from './order-standing.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const notPrice = 'A price is a number from 0, such as 26.48, with at most six decimals.';
const notDay = 'A day is written as 2026-12-01.';

const said = {
	unitPrice: z
		.string(notPrice)
		.regex(/^\d{1,9}(?:\.\d{1,6})?$/u, notPrice)
		.nullable(),
	needBy: z.string(notDay).refine(isDay, notDay).nullable(),
	note: z.string().max(1000, 'A note has at most 1,000 characters.')
};

const body = z.strictObject({
	revision: z.number().int().min(1),
	line: z.number().int().min(1),
	/** What the person saw, as it was sent to them. */
	was: z.strictObject({
		unitPrice: z.string().max(100).nullable(),
		needBy: z.string().max(10).nullable(),
		note: z.string().max(10_000)
	}),
	now: z.strictObject(said)
});

/** Two decimals or more, as prices of orders are written. */
function priceText(text: string | null): string | null {
	if (text === null) return null;
	const price = new Decimal(text);
	return price.toFixed(Math.max(2, price.decimalPlaces()));
}

const samePrice = (a: string | null, b: string | null): boolean =>
	a === null || b === null ? a === b : new Decimal(a).eq(b);

/** A note on one line of paper, without signs that nobody sees. */
const plainNote = (text: string): string => text.replace(/[\p{Cc}\s]+/gu, ' ').trim();

/**
 * Writes the price, the day or the note of a line of a revision that has not gone out. Each of them has to be what the
 * person saw; else nothing is stored, and what stands there now is told.
 */
export async function changeOrderLine(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { revision, line: number, was, now } = parsed.data;
	return changeOrder(actor, services, jobId, { orderId, version: null }, async (found) => {
		const { stored, inside, key, at } = found;
		const { order, released } = latestOf(stored);
		if (stored.withdrawn || order.revision !== revision) return meanwhile(stored);
		if (released)
			return refuse(409, {
				message: `Revision ${revision} of order ${stored.number} went out, released by ${released.by}: it stays as it was sent. Write the next revision to change it.`
			});
		const line = order.lines.find((one) => one.number === number);
		if (!line || isCancelled(line))
			return refuse(404, { message: `Order ${stored.number} has no line ${number} that stands.` });
		const stale = staleField(line, was);
		if (stale !== null)
			return refuse(409, {
				message: `${stale} of line ${number} was changed by somebody else meanwhile. Nothing was stored; look at it as it is now.`,
				field: String(number)
			});
		const supplier = await inside.suppliers.find(key.companyId, stored.supplierId);
		const changed: PurchaseLine = {
			...line,
			unitPrice: samePrice(line.unitPrice, now.unitPrice) ? line.unitPrice : priceText(now.unitPrice),
			note: plainNote(now.note),
			...(now.needBy === line.needBy
				? {}
				: { needBy: now.needBy, orderBy: supplier ? orderBy(now.needBy, supplier) : null })
		};
		const records = toldLine(line, changed);
		if (records.length > 0)
			await inside.orders.putRevision(
				key,
				{ ...order, lines: order.lines.map((one) => (one.number === number ? changed : one)) },
				actor,
				at
			);
		return done({
			title: `Change line ${number} of order ${stored.number}`,
			records,
			value: { number: stored.number, revision }
		});
	});
}

/** What of a line is not what the person saw; null where all of it is. */
function staleField(
	line: PurchaseLine,
	was: Pick<PurchaseLine, 'unitPrice' | 'needBy' | 'note'>
): string | null {
	if (line.unitPrice !== was.unitPrice) return 'The price';
	if (line.needBy !== was.needBy) return 'The day';
	return line.note === was.note ? null : 'The note';
}

/** Without amounts: everybody on the job reads the history. A note may hold one. */
function toldLine(before: PurchaseLine, after: PurchaseLine): ToldChange<null>['records'] {
	const records: ToldChange<null>['records'][number][] = [];
	const field = `Line ${before.number}`;
	if (before.unitPrice !== after.unitPrice)
		records.push({
			field: `${field}, price`,
			before: before.unitPrice === null ? 'none' : null,
			after: after.unitPrice === null ? 'none' : 'changed'
		});
	if (before.needBy !== after.needBy)
		records.push({ field: `${field}, wanted on site`, before: before.needBy, after: after.needBy });
	if (before.note !== after.note) records.push({ field: `${field}, note`, before: null, after: 'changed' });
	return records;
}
