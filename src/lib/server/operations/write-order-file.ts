import { z } from 'zod';
import { orderChanges } from '../../delivery/ordering/order-changes.ts';
import type { OrderRevision, Supplier } from '../../delivery/ordering/purchase-order.ts';
import type { OrderPaper } from '../../exchange/order-paper.ts';
import { paperIds } from '../../exchange/paper-sizes.ts';
import { printJob } from '../../exchange/print/print-job.ts';
import { writeOrderDocument } from '../../exchange/purchase-documents/write-order.ts';
import { writeOrderWorkbook } from '../../exchange/workbook/order-workbook.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobRecord } from '../storage/job.repository.ts';
import type { StoredOrder } from '../storage/order.repository.ts';
import { lengthStyleOf } from '../../takeoff/inputs.ts';
import { noSuchOrder } from './change-order.ts';
import { findJob, keyOf } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { dayOf } from './order-making.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const request = z.strictObject({
	as: z.enum(['xlsx', 'pdf', 'ubl'], 'An order is written as xlsx, pdf or ubl.'),
	prices: z.enum(['yes', 'no'], 'Prices are yes or no.'),
	/** The latest where none is named. */
	revision: z
		.string()
		.regex(/^[1-9]\d{0,5}$/u, 'A revision is a number from 1.')
		.optional(),
	paper: z.enum(paperIds, `The paper is one of ${paperIds.join(', ')}.`).default('letter')
});
type OrderFileRequest = z.infer<typeof request>;

export interface OrderFile {
	readonly content: Uint8Array | string;
	readonly type: string;
	readonly jobName: string;
	/** `order 7K2QD-01 revision 2.pdf` */
	readonly fileName: string;
}

const typesOf = {
	xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
	pdf: 'application/pdf',
	ubl: 'application/xml'
} as const;

async function contentOf(
	{ as, paper }: OrderFileRequest,
	{ order, released }: OrderRevision,
	written: OrderPaper,
	supplier: Supplier,
	services: Services
): Promise<Outcome<Uint8Array | string>> {
	const printedAt = services.now();
	if (as === 'xlsx') return done(await writeOrderWorkbook(written, printedAt));
	if (as === 'pdf') {
		const print = await printJob({ what: 'order', order: written, paper, printedAt });
		if (!print.ok) return refuse(print.problem === 'tooLarge' ? 413 : 422, { message: print.message });
		return done(print.content);
	}
	// A document that another program takes in has no way to say that it is a draft.
	if (!released)
		return refuse(409, {
			message: `Revision ${order.revision} of order ${order.number} has not gone out. Release it first: what another program reads is taken for an order.`
		});
	if (order.lines.length === 0)
		return refuse(422, { message: `Order ${order.number} has no lines, so there is no document to write.` });
	return done(
		writeOrderDocument(written.withPrices ? order : withoutPrices(order), {
			supplier: { ...supplier, name: order.supplierName },
			buyer: { name: written.buyerName },
			job: { name: written.jobName },
			issuedOn: dayOf(new Date(released.at)),
			style: written.style === 'mm' ? 'metric' : 'imperial'
		})
	);
}

const withoutPrices = (order: OrderRevision['order']): OrderRevision['order'] => ({
	...order,
	lines: order.lines.map((line) => ({ ...line, unitPrice: null }))
});

/** What is put on paper of a revision, with what changed since the one before. */
function paperOf(
	stored: StoredOrder,
	revision: OrderRevision,
	job: JobRecord,
	frame: { readonly buyerName: string; readonly withPrices: boolean }
): OrderPaper {
	const style = lengthStyleOf(job.measures);
	const before = stored.revisions[stored.revisions.indexOf(revision) - 1];
	return {
		...frame,
		order: revision.order,
		changes: before ? orderChanges(before.order, revision.order, style) : [],
		jobName: job.name,
		released: revision.released,
		style
	};
}

/** A revision of an order as a workbook, pages to print or an Order of UBL, with prices or without. */
export async function writeOrderFile(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	query: unknown
): Promise<Outcome<OrderFile>> {
	const parsed = request.safeParse(query);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { as, prices, revision: wanted } = parsed.data;
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { storage } = services;
	const stored = (await storage.orders.all(keyOf(actor, jobId))).find((one) => one.orderId === orderId);
	if (!stored) return noSuchOrder;
	const number = wanted === undefined ? null : Number(wanted);
	const revision =
		number === null
			? stored.revisions.at(-1)
			: stored.revisions.find(({ order }) => order.revision === number);
	if (!revision) return refuse(404, { message: `Order ${stored.number} has no revision ${wanted ?? ''}.` });
	if (stored.withdrawn)
		return refuse(409, {
			message: `Order ${stored.number} is withdrawn. Put it up again before it is sent to anybody.`
		});
	const company = await storage.companies.find(actor.companyId);
	const paper = paperOf(stored, revision, found.value, {
		buyerName: company?.name ?? 'Buyer, not named',
		withPrices: prices === 'yes'
	});
	const supplier = await storage.suppliers.find(actor.companyId, stored.supplierId);
	if (!supplier) throw new Error(`the supplier of order ${stored.number} is not stored`);
	const content = await contentOf(parsed.data, revision, paper, supplier, services);
	if (!content.ok) return content;
	return done({
		content: content.value,
		type: typesOf[as],
		jobName: found.value.name,
		fileName: `order ${stored.number} revision ${revision.order.revision}.${as === 'ubl' ? 'xml' : as}`
	});
}
