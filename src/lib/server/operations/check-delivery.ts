import type { DeliveryTaken } from '../../changes/deliveries.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredDelivery } from '../storage/delivery.repository.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import { changeRecords } from './change-records.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { readDeliveryForm, type DeliveryForm } from './read-delivery-form.ts';
import type { Services } from './services.ts';

/** Refuses a list that is there already; null where it is not. */
async function sameList(
	inside: Repositories,
	key: JobKey,
	{ name, digest, answers }: StoredDelivery
): Promise<Outcome<never> | null> {
	if (answers.isAnotherTruck === true) return null;
	const same = (await inside.deliveries.all(key)).find((one) => one.digest !== null && one.digest === digest);
	if (!same) return null;
	const day = same.receivedAt.slice(0, 10);
	return refuse(409, {
		message: same.removed
			? `${name} is the same list as ${same.name}, which was taken in on ${day} and taken out since. Put that one back, or say that this is another truck. Nothing was taken in.`
			: `${name} is the same list as ${same.name}, taken in on ${day}. Nothing was doubled. Say so if it is another truck with the same goods.`,
		field: 'anotherTruck'
	});
}

/** Takes in a packing list and keeps it with the job, where it is compared with the material list from now on. */
export async function checkDelivery(
	actor: Actor,
	services: Services,
	jobId: string,
	form: DeliveryForm
): Promise<Outcome<DeliveryTaken>> {
	const read = await readDeliveryForm(actor, services, jobId, form);
	if (!read.ok) return read;
	const { file, delivery, list } = read.value;
	if (list.question?.kind === 'isOurs')
		return refuse(409, {
			message: `${delivery.name} seems to be of another job: ${list.question.reason}. Nothing was taken in. Say so if it is for this job all the same.`,
			field: 'ours'
		});
	const { deliveryId: id, name, lines, supplierId } = delivery;
	return changeRecords(actor, services, jobId, async (inside, key, at) => {
		const same = await sameList(inside, key, delivery);
		if (same) return same;
		await inside.deliveries.add(key, delivery, at);
		const supplier = supplierId === null ? null : await inside.suppliers.find(key.companyId, supplierId);
		const record = { record: 'Packing list', id, name };
		const records = [
			{ ...record, field: 'State', before: null, after: `${lines.length} lines` },
			...(supplier ? [{ ...record, field: 'Supplier', before: null, after: supplier.name }] : [])
		];
		return done({
			kind: 'delivery' as const,
			title: `Bring in ${name}`,
			records,
			value: { id, lines: lines.length, questions: file.questions, skipped: file.skipped }
		});
	});
}
