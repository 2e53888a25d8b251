import { readPackingList } from '../../exchange/packing-list.ts';
import { readTableFile } from '../../exchange/table-file.ts';
import type { Actor } from '../identity/actor.ts';
import type { DeliveryTaken } from '../../changes/answer.ts';
import { changeDeliveries } from './change-deliveries.ts';
import { findJob } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Takes in a packing list and keeps it with the job, where it is compared with the material list from now on. */
export async function checkDelivery(
	actor: Actor,
	services: Services,
	jobId: string,
	form: { readonly name: string; readonly bytes: Uint8Array }
): Promise<Outcome<DeliveryTaken>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const file = await readTableFile(form.name, form.bytes);
	if (!file.ok) return refuse(422, { message: file.message });
	const list = readPackingList(file.sheets, { measures: found.value.measures });
	if (!list.ok) return refuse(422, { message: list.message, place: list.place });
	const id = services.newId();
	const name = form.name.slice(0, 200);
	const { lines } = list;
	const stored = await changeDeliveries(actor, services, jobId, async ({ deliveries }, key, at) => {
		const list = { deliveryId: id, name, lines, supplierId: null, facts: null, digest: null };
		await deliveries.add(key, { ...list, answers: {}, counted: null }, at);
		return { title: `Bring in ${name}`, id, name, before: null, after: `${lines.length} lines` };
	});
	if (!stored.ok) return stored;
	return done({ id, lines: list.lines.length, questions: list.questions, skipped: list.skipped });
}
