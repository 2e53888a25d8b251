/** Rows of the grid. Their order is a position with room between neighbours, so that a new row moves no other. */
import type { Kysely } from 'kysely';
import type { SheetRow } from '../../changes/apply.ts';
import type { Cells, OpeningRow } from '../../takeoff/inputs.ts';
import { codec, flag } from './codec.ts';
import { columnsOf, inBatches, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

/** Room between two rows when they are numbered afresh. */
const gap = 1024;

const markOf = (cells: Cells): string => (typeof cells.mark === 'string' ? cells.mark : '');
const numberOf = (cells: Cells): number | null =>
	typeof cells.openingNumber === 'number' ? cells.openingNumber : null;
const quantityOf = (cells: Cells): number => (typeof cells.quantity === 'number' ? cells.quantity : 1);

/**
 * Positions for rows that have none, spread between their neighbours.
 * @returns the new positions by id; of all rows where some neighbours stand too close.
 */
function placeRows(
	order: readonly string[],
	stored: ReadonlyMap<string, number>
): ReadonlyMap<string, number> {
	const placed = new Map<string, number>();
	for (let i = 0; i < order.length; i++) {
		if (stored.has(order[i] ?? '')) continue;
		let end = i;
		while (end < order.length && !stored.has(order[end] ?? '')) end++;
		const before = stored.get(order[i - 1] ?? '') ?? 0;
		const count = end - i;
		const after = stored.get(order[end] ?? '') ?? before + (count + 1) * gap;
		const step = Math.floor((after - before) / (count + 1));
		if (step < 1) return new Map(order.map((id, index) => [id, (index + 1) * gap]));
		for (let n = 0; n < count; n++) placed.set(order[i + n] ?? '', before + (n + 1) * step);
		i = end;
	}
	return placed;
}

export class OpeningRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** Rows that are there, in order. */
	async live(key: JobKey): Promise<OpeningRow[]> {
		const rows = await this.#of(key)
			.select(['row_id', 'cells'])
			.where('removed', '=', 0)
			.orderBy('position')
			.execute();
		return rows.map((row) => ({ id: row.row_id, cells: codec.cells.read(row.cells) }));
	}

	/** All rows in order, places of removed ones included. */
	async all(key: JobKey): Promise<SheetRow[]> {
		const rows = await this.#of(key).select(['row_id', 'cells', 'removed']).orderBy('position').execute();
		return rows.map((row) => ({
			id: row.row_id,
			cells: codec.cells.read(row.cells),
			removed: flag.read(row.removed)
		}));
	}

	/** The rows of these ids, as far as the job has them; places of removed ones included. */
	async some(key: JobKey, ids: readonly string[]): Promise<SheetRow[]> {
		const found: SheetRow[] = [];
		for (const batch of inBatches(ids)) {
			const rows = await this.#of(key)
				.select(['row_id', 'cells', 'removed'])
				.where('row_id', 'in', [...batch])
				.orderBy('position')
				.execute();
			for (const row of rows)
				found.push({ id: row.row_id, cells: codec.cells.read(row.cells), removed: flag.read(row.removed) });
		}
		return found;
	}

	/** Rows of these marks that are there, in order. */
	async ofMarks(key: JobKey, marks: readonly string[]): Promise<OpeningRow[]> {
		const found: { id: string; cells: Cells; position: number }[] = [];
		for (const batch of inBatches(marks)) {
			const rows = await this.#of(key)
				.select(['row_id', 'cells', 'position'])
				.where('mark', 'in', [...batch])
				.where('removed', '=', 0)
				.execute();
			for (const row of rows)
				found.push({ id: row.row_id, cells: codec.cells.read(row.cells), position: row.position });
		}
		return found.sort((a, b) => a.position - b.position).map(({ id, cells }) => ({ id, cells }));
	}

	/** Ids of the rows that are there, in order. */
	async order(key: JobKey): Promise<string[]> {
		const rows = await this.#of(key).select('row_id').where('removed', '=', 0).orderBy('position').execute();
		return rows.map((row) => row.row_id);
	}

	/** Openings of all marks together. */
	async countOpenings(key: JobKey): Promise<number> {
		const counted = await this.#of(key)
			.select(({ fn }) => fn.sum<number | string | null>('quantity').as('openings'))
			.where('removed', '=', 0)
			.where('opening_number', 'is', null)
			.executeTakeFirst();
		return Number(counted?.openings ?? 0);
	}

	/** Stores rows that the job already has, where they stand: their cells, and whether they are there. */
	async change(key: JobKey, rows: readonly SheetRow[]): Promise<void> {
		await this.#put(key, rows, null);
	}

	/**
	 * Stores changed and new rows.
	 * @param ordered all rows of the job in order, places of removed ones included.
	 * @param ids those of them that changed.
	 * @param moved those that stand in another place than before.
	 */
	async arrange(
		key: JobKey,
		ordered: readonly SheetRow[],
		ids: ReadonlySet<string>,
		moved: ReadonlySet<string> = new Set()
	): Promise<void> {
		const stored = await this.#positions(key);
		for (const id of moved) stored.delete(id);
		const placed = placeRows(
			ordered.map((row) => row.id),
			stored
		);
		const positions = new Map([...stored, ...placed]);
		await this.#put(
			key,
			ordered.filter((row) => ids.has(row.id) || placed.has(row.id)),
			positions
		);
	}

	async #positions(key: JobKey): Promise<Map<string, number>> {
		const rows = await this.#of(key).select(['row_id', 'position']).execute();
		return new Map(rows.map((row) => [row.row_id, row.position]));
	}

	/** @param positions null where all rows are there and keep their places */
	async #put(
		key: JobKey,
		rows: readonly SheetRow[],
		positions: ReadonlyMap<string, number> | null
	): Promise<void> {
		for (const batch of inBatches(rows)) {
			await this.#db
				.insertInto('opening')
				.values(
					batch.map((row) => ({
						...columnsOf(key),
						row_id: row.id,
						position: positions?.get(row.id) ?? 0,
						cells: codec.cells.write(row.cells),
						mark: markOf(row.cells),
						opening_number: numberOf(row.cells),
						quantity: quantityOf(row.cells),
						removed: flag.write(row.removed)
					}))
				)
				.onConflict((conflict) =>
					conflict.columns(['company_id', 'job_id', 'row_id']).doUpdateSet((values) => ({
						...(positions ? { position: values.ref('excluded.position') } : {}),
						cells: values.ref('excluded.cells'),
						mark: values.ref('excluded.mark'),
						opening_number: values.ref('excluded.opening_number'),
						quantity: values.ref('excluded.quantity'),
						removed: values.ref('excluded.removed')
					}))
				)
				.execute();
		}
	}

	#of(key: JobKey) {
		return this.#db
			.selectFrom('opening')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId);
	}
}
