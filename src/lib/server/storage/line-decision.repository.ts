/** What people decided about lines of packing lists: what stands now. */
import type { Kysely } from 'kysely';
import type { DecidedLine, LineDecision } from '../../delivery/line-decision.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type Author, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export class LineDecisionRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async list(key: JobKey): Promise<DecidedLine[]> {
		const rows = await this.#db
			.selectFrom('line_decision')
			.selectAll()
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('delivery_id')
			.orderBy('line')
			.execute();
		return rows.map((row) => ({
			deliveryId: row.delivery_id,
			line: row.line,
			decision: codec.lineDecision.read(row.decision),
			by: row.actor_name,
			at: row.decided_at
		}));
	}

	/** Writes a decision over the one that stood. */
	async put(
		key: JobKey,
		{ deliveryId, line }: { readonly deliveryId: string; readonly line: number },
		decision: LineDecision,
		author: Author,
		at: Date
	): Promise<void> {
		const written = {
			decision: codec.lineDecision.write(decision),
			actor_id: author.id,
			actor_name: author.name,
			decided_at: instant.write(at)
		};
		await this.#db
			.insertInto('line_decision')
			.values({ ...columnsOf(key), delivery_id: deliveryId, line, ...written })
			.onConflict((conflict) =>
				conflict.columns(['company_id', 'job_id', 'delivery_id', 'line']).doUpdateSet(written)
			)
			.execute();
	}

	/** Takes a decision back. @returns false when there was none. */
	async remove(key: JobKey, deliveryId: string, line: number): Promise<boolean> {
		const row = await this.#db
			.deleteFrom('line_decision')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('delivery_id', '=', deliveryId)
			.where('line', '=', line)
			.executeTakeFirst();
		return row.numDeletedRows > 0n;
	}
}
