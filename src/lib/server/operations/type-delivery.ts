import { z } from 'zod';
import type { DeliveryTaken } from '../../changes/deliveries.ts';
import { typedPackingList } from '../../exchange/packing-list.ts';
import type { Actor } from '../identity/actor.ts';
import { changeRecords } from './change-records.ts';
import { bodyProblem } from './job-bodies.ts';
import { readBuying } from './job-buying.ts';
import { typedLine } from './line-decision-body.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const text = z.string().max(500);
const line = z.strictObject({
	orderLine: text.optional(),
	mark: text.optional(),
	description: text.optional(),
	quantity: text.optional(),
	unit: text.optional(),
	length: text.optional(),
	width: text.optional(),
	size: text.optional(),
	hand: text.optional(),
	finish: text.optional(),
	crate: text.optional(),
	remark: text.optional(),
	/** Parts that were ticked: the line means these. */
	partIds: z.array(z.string().min(1).max(100)).min(1).max(5000).optional()
});
const body = z.strictObject({
	name: z
		.string()
		.transform((name) => name.replace(/[\p{Cc}\s]+/gu, ' ').trim())
		.pipe(
			z
				.string()
				.min(1, 'The list needs a name, such as “Truck 2, typed”.')
				.max(200, 'The name of a list has at most 200 characters.')
		),
	supplierId: z.string().max(100).nullable(),
	lines: z.array(line).min(1, 'Tick or type at least one line.').max(2000)
});

/** Takes in a packing list that a person ticked and typed: there was none, or none that can be read. */
export async function typeDelivery(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<DeliveryTaken>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { name, supplierId, lines: rows } = parsed.data;
	const buying = await readBuying(actor, services, jobId);
	if (!buying.ok) return buying;
	const { job, suppliers, parts } = buying.value;
	const supplier = suppliers.find(({ id }) => id === supplierId) ?? null;
	if (supplierId !== null && !supplier)
		return refuse(422, {
			message: 'There is no such supplier. Somebody may have taken it out; choose again.',
			field: 'supplierId'
		});
	const list = typedPackingList(
		rows.map((row) => typedLine({ ...row, partIds: undefined })),
		{ measures: job.measures }
	);
	if (!list.ok) return refuse(422, { message: `${list.message}. Nothing was taken in.`, place: list.place });
	const [problem, ...more] = list.questions;
	if (problem)
		return refuse(422, {
			message: `${problem.reason}.${more.length === 0 ? '' : ` There ${more.length === 1 ? 'is 1 more' : `are ${more.length} more`} like it.`} Nothing was taken in.`,
			place: problem.place
		});
	const known = new Set(parts.map(({ partId }) => partId));
	const ticked = rows.flatMap(({ partIds }, at) => (partIds ? [{ line: at + 1, partIds }] : []));
	if (ticked.some(({ partIds }) => partIds.some((id) => !known.has(id))))
		return refuse(409, {
			message: 'The material list was changed meanwhile. Nothing was taken in; tick the lines again.'
		});
	const id = services.newId();
	const { lines, facts, questions, skipped } = list;
	return changeRecords(actor, services, jobId, async (inside, key, at) => {
		const delivery = { deliveryId: id, name, lines, supplierId, facts, digest: null };
		await inside.deliveries.add(key, { ...delivery, answers: {}, counted: null }, at);
		for (const { line: number, partIds } of ticked)
			await inside.lineDecisions.put(
				key,
				{ deliveryId: id, line: number },
				{ kind: 'means', partIds },
				actor,
				at
			);
		const record = { record: 'Packing list', id, name };
		const records = [
			{ ...record, field: 'State', before: null, after: `${lines.length} lines, typed by hand` },
			...(supplier ? [{ ...record, field: 'Supplier', before: null, after: supplier.name }] : [])
		];
		return done({
			kind: 'delivery' as const,
			title: `Type ${name}`,
			records,
			value: { id, lines: lines.length, questions, skipped }
		});
	});
}
