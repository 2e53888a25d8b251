import { z } from 'zod';
import type { DeliveryAnswers } from '../../delivery/delivery-answers.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredDelivery } from '../storage/delivery.repository.ts';
import { noSuchDelivery } from './change-deliveries.ts';
import { changeRecords } from './change-records.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const yesOrNo = z.boolean().nullable();
const handsFrom = z.enum(['coilSide', 'farSide']).nullable();
const sizes = z.enum(['part', 'opening', 'overall']).nullable();
const supplier = z.string().max(100).nullable();

/** `before`: what the person saw; null for nothing said. */
const body = z.discriminatedUnion('about', [
	z.strictObject({ about: z.literal('isOurs'), before: yesOrNo, after: yesOrNo }),
	z.strictObject({ about: z.literal('isAnotherTruck'), before: yesOrNo, after: yesOrNo }),
	z.strictObject({ about: z.literal('handsFrom'), before: handsFrom, after: handsFrom }),
	z.strictObject({ about: z.literal('sizes'), before: sizes, after: sizes }),
	z.strictObject({ about: z.literal('supplier'), before: supplier, after: supplier })
]);
type Said = z.infer<typeof body>;

const fieldTitles: Readonly<Record<Said['about'], string>> = {
	isOurs: 'For this job',
	isAnotherTruck: 'Another truck',
	handsFrom: 'Left and right seen from',
	sizes: 'Sizes measure',
	supplier: 'Supplier'
};
const valueWords: Readonly<Record<string, string>> = {
	true: 'yes',
	false: 'no',
	coilSide: 'the coil side',
	farSide: 'the far side',
	part: 'the parts',
	opening: 'the openings',
	overall: 'the openings with their guides'
};

const storedValue = ({ answers, supplierId }: StoredDelivery, about: Said['about']): Said['before'] =>
	about === 'supplier' ? supplierId : (answers[about] ?? null);

/** The answers with one of them said, or no longer said. */
function withAnswer(answers: DeliveryAnswers, about: keyof DeliveryAnswers, after: unknown): DeliveryAnswers {
	const others = Object.entries(answers).filter(([name]) => name !== about);
	return Object.fromEntries(after === null ? others : [...others, [about, after]]);
}

/** Says something about a whole packing list, or takes it back: from then on all its lines are read by it. */
export async function answerDelivery(
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string,
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { about, before, after } = parsed.data;
	return changeRecords(actor, services, jobId, async (inside, key) => {
		const delivery = (await inside.deliveries.all(key)).find((one) => one.deliveryId === deliveryId);
		if (!delivery) return noSuchDelivery;
		const wordOf = async (said: Said['before']): Promise<string | null> => {
			if (said === null) return null;
			if (about !== 'supplier') return valueWords[String(said)] ?? String(said);
			return (await inside.suppliers.find(key.companyId, String(said)))?.name ?? null;
		};
		const stored = storedValue(delivery, about);
		const [now, next] = [await wordOf(stored), await wordOf(after)];
		if (stored !== before)
			return refuse(409, {
				message: `Somebody said meanwhile of ${delivery.name}: ${fieldTitles[about].toLowerCase()}: ${now ?? 'not said'}. You meant: ${next ?? 'not said'}. Nothing was changed.`
			});
		if (about === 'supplier' && after !== null && next === null)
			return refuse(422, { message: 'There is no such supplier. Somebody may have taken it out.' });
		await inside.deliveries.change(
			key,
			deliveryId,
			about === 'supplier' ? { supplierId: after } : { answers: withAnswer(delivery.answers, about, after) }
		);
		const record = { record: 'Packing list', id: deliveryId, name: delivery.name };
		return done({
			kind: 'delivery' as const,
			title: `Say how ${delivery.name} is to be read`,
			records: stored === after ? [] : [{ ...record, field: fieldTitles[about], before: now, after: next }],
			value: { id: deliveryId }
		});
	});
}
