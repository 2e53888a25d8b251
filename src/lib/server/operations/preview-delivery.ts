import type { DeliveryPreview } from '../../changes/deliveries.ts';
import type { Actor } from '../identity/actor.ts';
import { keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import { readDeliveryForm, type DeliveryForm } from './read-delivery-form.ts';
import type { Services } from './services.ts';

/** What a file would be taken for as a packing list of the job. Nothing is stored. */
export async function previewDelivery(
	actor: Actor,
	services: Services,
	jobId: string,
	form: DeliveryForm
): Promise<Outcome<DeliveryPreview>> {
	const read = await readDeliveryForm(actor, services, jobId, form);
	if (!read.ok) return read;
	const { file, delivery, list, lines } = read.value;
	const stored = await services.storage.deliveries.all(keyOf(actor, jobId));
	const same = stored.find(({ digest }) => digest === delivery.digest);
	const asked = lines.filter((line) => line.asked).length;
	return done({
		...file,
		supplierId: delivery.supplierId,
		same: same ? { name: same.name, receivedAt: same.receivedAt, removed: same.removed } : null,
		question: list.question,
		plain: lines.length - asked,
		asked
	});
}
