/** Purchase orders of a job in all their revisions. What was released is never changed. */
import type { Kysely } from 'kysely';
import type { OrderRevision, PurchaseOrder, Released } from '../../delivery/ordering/purchase-order.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type Author, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface StoredOrder {
	readonly orderId: string;
	readonly number: string;
	readonly supplierId: string;
	readonly withdrawn: boolean;
	/** The first first; never empty. */
	readonly revisions: readonly OrderRevision[];
}

export class OrderRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All of them, those withdrawn too, in the order they were made. */
	async all(key: JobKey): Promise<StoredOrder[]> {
		const orders = await this.#db
			.selectFrom('purchase_order')
			.select(['order_id', 'number', 'supplier_id', 'withdrawn_at'])
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('made_at')
			.orderBy('number')
			.execute();
		const revisions = await this.#db
			.selectFrom('order_revision')
			.select(['order_id', 'content', 'actor_name', 'made_at', 'released'])
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('order_id')
			.orderBy('revision')
			.execute();
		const byOrder = Map.groupBy(revisions, ({ order_id }) => order_id);
		return orders.map((row) => ({
			orderId: row.order_id,
			number: row.number,
			supplierId: row.supplier_id,
			withdrawn: row.withdrawn_at !== null,
			revisions: (byOrder.get(row.order_id) ?? []).map((revision) => ({
				order: codec.order.read(revision.content),
				madeAt: revision.made_at,
				madeBy: revision.actor_name,
				released: revision.released === null ? null : codec.released.read(revision.released)
			}))
		}));
	}

	/** Whether some job of the company has an order of this number. */
	async numberTaken(companyId: string, number: string): Promise<boolean> {
		const row = await this.#db
			.selectFrom('purchase_order')
			.select('order_id')
			.where('company_id', '=', companyId)
			.where('number', '=', number)
			.executeTakeFirst();
		return row !== undefined;
	}

	/** A new order with its first revision. */
	async add(key: JobKey, order: PurchaseOrder, author: Author, at: Date): Promise<void> {
		await this.#db
			.insertInto('purchase_order')
			.values({
				...columnsOf(key),
				order_id: order.orderId,
				number: order.number,
				supplier_id: order.supplierId,
				made_at: instant.write(at),
				withdrawn_at: null
			})
			.execute();
		await this.putRevision(key, order, author, at);
	}

	/** The next revision, or the last one anew as long as it is not released. */
	async putRevision(key: JobKey, order: PurchaseOrder, author: Author, at: Date): Promise<void> {
		const written = {
			content: codec.order.write(order),
			actor_id: author.id,
			actor_name: author.name,
			made_at: instant.write(at)
		};
		await this.#db
			.insertInto('order_revision')
			.values({
				...columnsOf(key),
				order_id: order.orderId,
				revision: order.revision,
				...written,
				released: null
			})
			.onConflict((conflict) =>
				conflict
					.columns(['company_id', 'job_id', 'order_id', 'revision'])
					.doUpdateSet(written)
					.where('order_revision.released', 'is', null)
			)
			.execute();
	}

	/** Takes a revision out that was not released. False when there is no such revision, or it was. */
	async dropRevision(
		key: JobKey,
		{ orderId, revision }: { readonly orderId: string; readonly revision: number }
	): Promise<boolean> {
		const row = await this.#db
			.deleteFrom('order_revision')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('order_id', '=', orderId)
			.where('revision', '=', revision)
			.where('released', 'is', null)
			.executeTakeFirst();
		return row.numDeletedRows > 0n;
	}

	/** False when there is no such revision, or it was released before. */
	async release(
		key: JobKey,
		{ orderId, revision }: { readonly orderId: string; readonly revision: number },
		released: Released
	): Promise<boolean> {
		const row = await this.#db
			.updateTable('order_revision')
			.set({ released: codec.released.write(released) })
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('order_id', '=', orderId)
			.where('revision', '=', revision)
			.where('released', 'is', null)
			.executeTakeFirst();
		return row.numUpdatedRows > 0n;
	}

	/** Takes an order back or puts it up again. @returns false when there is no such order. */
	async setWithdrawn(key: JobKey, orderId: string, withdrawn: boolean, at: Date): Promise<boolean> {
		const row = await this.#db
			.updateTable('purchase_order')
			.set({ withdrawn_at: withdrawn ? instant.write(at) : null })
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('order_id', '=', orderId)
			.executeTakeFirst();
		return row.numUpdatedRows > 0n;
	}
}
