import { z } from 'zod';
import type { AnswerTaken, OrderChanged } from '../../changes/orders.ts';
import type { Acknowledgement } from '../../delivery/ordering/acknowledgement.ts';
import { compareAcknowledgement } from '../../delivery/ordering/compare-acknowledgement.ts';
import { isDay } from '../../delivery/ordering/dates.ts';
import type { PurchaseOrder, Supplier } from '../../delivery/ordering/purchase-order.ts';
import { figureUnits } from '../../exchange/table-notes.ts';
import type { LengthStyle } from '../../quantity/length.ts';
import type { Actor } from '../identity/actor.ts';
import { digestOf } from '../storage/digest.ts';
import { lengthStyleOf } from '../../takeoff/inputs.ts';
import { changeOrder, type OrderInside, type ToldChange } from './change-order.ts';
import { findJob } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { differencesOf, sentOf } from './order-standing.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { readAnswerFile, type AnswerFile } from './read-answer-file.ts';
import type { Services } from './services.ts';

export interface AnswerForm extends AnswerFile {
	/** `dayOrder`, `decimalMark`, `unit`: how figures are meant; `sure`: what is still unread is left uncompared. */
	field(name: string): string | null;
}

const fields = z.strictObject({
	dayOrder: z.enum(['dayFirst', 'monthFirst']).nullable(),
	decimalMark: z.enum(['.', ',']).nullable(),
	unit: z.enum(figureUnits.map(({ value }) => value)).nullable(),
	sure: z.literal('yes').nullable()
});

const blankIsNull = (text: string | null): string | null => (text === '' ? null : text);

/** Whether an answer names another order than this one. */
const namesAnother = (
	order: PurchaseOrder,
	answer: Acknowledgement,
	supplier: Supplier,
	style: LengthStyle
): boolean =>
	answer.orderNumber !== null &&
	compareAcknowledgement(order, { ...answer, lines: [], orderRevision: null }, { supplier, style }).some(
		({ attribute }) => attribute === 'revision'
	);

/** Keeps an answer with its order, unless it is there already or is to another order. */
async function keepAnswer(
	actor: Actor,
	services: Services,
	{ stored, orders, inside, key, at }: OrderInside,
	{
		name,
		content,
		style
	}: { readonly name: string; readonly content: Acknowledgement; readonly style: LengthStyle }
): Promise<Outcome<ToldChange<number>>> {
	const { number, orderId, supplierId } = stored;
	const sent = sentOf(stored);
	if (stored.withdrawn)
		return refuse(409, {
			message: `Order ${number} is withdrawn. Put it up again before its answer is taken in.`
		});
	if (!sent)
		return refuse(409, {
			message: `Order ${number} has not gone out, so there is nothing to answer. Release it first; nothing was taken in.`
		});
	const supplier = await inside.suppliers.find(key.companyId, supplierId);
	if (!supplier) throw new Error(`the supplier of order ${number} is not stored`);
	if (namesAnother(sent.order, content, supplier, style)) {
		const other = orders.find(({ revisions }) => {
			const order = revisions.at(-1)?.order;
			return order !== undefined && !namesAnother(order, content, supplier, style);
		});
		return refuse(422, {
			message: other
				? `${name} answers order ${other.number}, not ${number}. Open that order and take it in there; nothing was taken in.`
				: `${name} answers order ${content.orderNumber ?? ''}, which is no order of this job; this is ${number}. Nothing was taken in.`
		});
	}
	const digest = digestOf(content);
	const same = (await inside.acknowledgements.all(key)).find(
		(one) =>
			one.orderId === orderId && !one.withdrawn && one.digest === digest && one.receivedAt >= sent.released.at
	);
	if (same)
		return refuse(409, {
			message: `This answer is in already: ${same.name}, taken in by ${same.by}. Nothing was doubled.`
		});
	const acknowledgementId = services.newId();
	await inside.acknowledgements.add(key, { acknowledgementId, orderId, name, content, digest }, actor, at);
	const kept = { acknowledgementId, orderId, name, content, digest };
	const differences = differencesOf(
		stored,
		{ ...kept, by: actor.name, receivedAt: at.toISOString(), withdrawn: false },
		supplier,
		style
	).length;
	const after = differences === 0 ? 'as ordered' : `${differences} differences`;
	return done({
		title: `Take in the answer to order ${number}`,
		records: [{ field: 'Answer', before: null, after: `${name}: ${after}` }],
		value: differences
	});
}

/**
 * Takes in what a supplier answers to an order, from a file. Where something can't be read, or can be read two ways, that
 * is asked first and nothing is kept: what is not read is not compared, and nobody should take that for agreed.
 */
export async function takeAnswer(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	form: AnswerForm
): Promise<Outcome<AnswerTaken>> {
	const parsed = fields.safeParse({
		dayOrder: blankIsNull(form.field('dayOrder')),
		decimalMark: blankIsNull(form.field('decimalMark')),
		unit: blankIsNull(form.field('unit')),
		sure: blankIsNull(form.field('sure'))
	});
	if (!parsed.success) return bodyProblem(parsed.error);
	const { dayOrder, decimalMark, unit, sure } = parsed.data;
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { measures } = found.value;
	const name = form.name.slice(0, 200);
	const read = await readAnswerFile(
		{ name, bytes: form.bytes },
		{
			measures,
			dayOrder: dayOrder ?? undefined,
			decimalMark: decimalMark ?? undefined,
			unit: unit ?? undefined
		}
	);
	if (!read.ok) return read;
	const { acknowledgement: content, questions, skipped } = read.value;
	if (questions.length > 0 && sure === null) return done({ taken: false, questions, skipped });
	const kept = await changeOrder(actor, services, jobId, { orderId, version: null }, (inside) =>
		keepAnswer(actor, services, inside, { name, content, style: lengthStyleOf(measures) })
	);
	return kept.ok ? done({ taken: true, differences: kept.value, skipped }) : kept;
}

const notDay = 'A day is written as 2026-12-01.';
const asOrderedBody = z.strictObject({
	/** The supplier’s own number. */
	number: z.string().max(100, 'The number has at most 100 characters.').nullable(),
	promised: z.string(notDay).refine(isDay, notDay).nullable()
});

/** Writes down that the supplier takes the order as it went out: by telephone, or on a paper that says no more. */
export async function takeAsOrdered(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<AnswerTaken>> {
	const parsed = asOrderedBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { promised } = parsed.data;
	const number = (parsed.data.number ?? '').replace(/[\p{Cc}\s]+/gu, ' ').trim();
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const kept = await changeOrder(actor, services, jobId, { orderId, version: null }, (inside) => {
		const sent = sentOf(inside.stored);
		const content: Acknowledgement = {
			number: number === '' ? null : number,
			orderNumber: inside.stored.number,
			orderRevision: sent?.order.revision ?? null,
			currency: null,
			promised,
			whole: 'accepted',
			lines: []
		};
		const name = 'As ordered, by hand';
		return keepAnswer(actor, services, inside, { name, content, style: lengthStyleOf(found.value.measures) });
	});
	return kept.ok ? done({ taken: true, differences: kept.value, skipped: [] }) : kept;
}

const withdrawBody = z.strictObject({ withdrawn: z.boolean() });

/** Takes an answer out, or puts it back: it may have been taken in with the wrong order, or read wrongly. */
export async function withdrawAnswer(
	actor: Actor,
	services: Services,
	jobId: string,
	{ orderId, answerId }: { readonly orderId: string; readonly answerId: string },
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = withdrawBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { withdrawn } = parsed.data;
	return changeOrder(
		actor,
		services,
		jobId,
		{ orderId, version: null },
		async ({ stored, inside, key, at }) => {
			const answer = (await inside.acknowledgements.all(key)).find(
				(one) => one.acknowledgementId === answerId && one.orderId === orderId
			);
			if (!answer) return refuse(404, { message: `Order ${stored.number} has no such answer.` });
			if (answer.withdrawn !== withdrawn)
				await inside.acknowledgements.setWithdrawn(key, answerId, withdrawn, at);
			const states = ['taken in', 'taken out'];
			return done({
				title: `${withdrawn ? 'Take out' : 'Put back'} an answer to order ${stored.number}`,
				records:
					answer.withdrawn === withdrawn
						? []
						: [
								{
									field: `Answer ${answer.name}`,
									before: states[withdrawn ? 0 : 1] ?? null,
									after: states[withdrawn ? 1 : 0] ?? null
								}
							],
				value: { number: stored.number, revision: sentOf(stored)?.order.revision ?? 1 }
			});
		}
	);
}
