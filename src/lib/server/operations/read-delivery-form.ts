/** A packing list that is sent as a file: read, and held against what the job knows, before anything is stored. */
import type { ComparedList, ComparedLine } from '../../delivery/comparison.ts';
import { orderKey } from '../../delivery/spelling.ts';
import { packingMappingSchema } from '../../exchange/packing-list.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredDelivery } from '../storage/delivery.repository.ts';
import { digestOf } from '../storage/digest.ts';
import { comparisonOf } from './compare-job.ts';
import { readBuying, type JobBuying } from './job-buying.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { readPackingFile, type PackingFile } from './read-packing-file.ts';
import { jsonField } from './read-schedule.ts';
import type { Services } from './services.ts';

/**
 * A form with a file. `mapping`: how its columns are meant, as JSON; `supplierId`: of whom, `none` for nobody on the list;
 * `ours` and `anotherTruck`: `yes` where a person said so.
 */
export interface DeliveryForm {
	readonly name: string;
	readonly bytes: Uint8Array;
	field(name: string): string | null;
}

export interface DeliveryFormRead {
	readonly file: PackingFile;
	/** As it would be stored. */
	readonly delivery: StoredDelivery;
	readonly list: ComparedList;
	/** Its lines held against the material list. */
	readonly lines: readonly ComparedLine[];
}

/** The supplier of the order that a list names. */
const supplierOfOrder = (
	{ orders }: Pick<JobBuying, 'orders'>,
	orderNumber: string | null
): string | null => {
	if (orderNumber === null) return null;
	const order = orders.find(({ number }) => orderKey(number) === orderKey(orderNumber));
	return order?.supplierId ?? null;
};

/** What the job would say of a list if it came now, after all that are in. */
function comparedWith(
	buying: JobBuying,
	delivery: StoredDelivery,
	at: Date
): Pick<DeliveryFormRead, 'list' | 'lines'> {
	const candidate = { ...delivery, receivedAt: at.toISOString() };
	const { lists, lines } = comparisonOf({ ...buying, deliveries: [...buying.deliveries, candidate] });
	const list = lists.find(({ deliveryId }) => deliveryId === delivery.deliveryId);
	if (!list) throw new Error(`packing list ${delivery.name} was not compared`);
	return { list, lines: lines.filter(({ deliveryId }) => deliveryId === delivery.deliveryId) };
}

/** Reads a file for a job. Nothing is stored. */
export async function readDeliveryForm(
	actor: Actor,
	services: Services,
	jobId: string,
	form: DeliveryForm
): Promise<Outcome<DeliveryFormRead>> {
	const buying = await readBuying(actor, services, jobId);
	if (!buying.ok) return buying;
	const mapping = jsonField(form, 'mapping', packingMappingSchema, {}, 'The choice of columns');
	if (!mapping.ok) return mapping;
	const { measures } = buying.value.job;
	const file = await readPackingFile(form, { measures, mapping: mapping.value });
	if (!file.ok) return file;
	const { lines, facts } = file.value;
	const said = form.field('supplierId') ?? '';
	const known = buying.value.suppliers.some(({ id }) => id === said);
	if (said !== '' && said !== 'none' && !known)
		return refuse(422, {
			message: 'There is no such supplier. Somebody may have taken it out; choose again.',
			field: 'supplierId'
		});
	const supplierId = said === 'none' ? null : known ? said : supplierOfOrder(buying.value, facts.orderNumber);
	const delivery: StoredDelivery = {
		deliveryId: services.newId(),
		name: form.name.slice(0, 200),
		lines,
		supplierId,
		facts,
		digest: digestOf({ lines, facts }),
		answers: {
			...(form.field('ours') === 'yes' ? { isOurs: true } : {}),
			...(form.field('anotherTruck') === 'yes' ? { isAnotherTruck: true } : {})
		},
		counted: null
	};
	return done({
		file: file.value,
		delivery,
		...comparedWith(buying.value, delivery, services.now())
	});
}
