/** What orders are called. */
import { partIdFor } from '../../takeoff/parts.ts';
import type { StoredOrder } from '../storage/order.repository.ts';
import type { Repositories } from '../storage/storage.ts';

/**
 * Five signs that stand for a job, in the alphabet of part ids, which has no sign that is easily misread.
 * @param attempt from 1; another one gives other signs
 */
const jobSigns = (jobId: string, attempt: number): string =>
	partIdFor(`orders of ${jobId}`, attempt).slice('P-'.length, 'P-'.length + 5);

/**
 * `7K2QD-03`: signs of the job, so that an order, and a packing list that names it, is told apart from those of all other
 * jobs of the company, and the count of the job's orders. Orders are never deleted, so a count is never given twice.
 */
export async function nextOrderNumber(
	{ orders }: Pick<Repositories, 'orders'>,
	{ companyId, jobId }: { readonly companyId: string; readonly jobId: string },
	existing: readonly StoredOrder[]
): Promise<string> {
	const count = String(existing.length + 1).padStart(2, '0');
	const signs = existing[0]?.number.split('-')[0];
	if (signs !== undefined) return `${signs}-${count}`;
	for (let attempt = 1; ; attempt++) {
		const number = `${jobSigns(jobId, attempt)}-${count}`;
		if (!(await orders.numberTaken(companyId, number))) return number;
	}
}
