/** Moving rows by one place, with the rows of their openings. */

/** Rows as they are stored. */
export interface StoredRows {
	readonly order: readonly string[];
	/** The row of the mark, for a row that is one opening of it; else null. */
	readonly ownerOf: (row: string) => string | null;
}

/** What `JobSheet.moveRows` takes. */
export interface RowMove {
	readonly ids: readonly string[];
	/** They go right after this row; at the top when null. */
	readonly after: string | null;
}

/**
 * The rows that belong together with these, in stored order: a mark brings the rows of its own openings. Rows of
 * openings alone stay what they are.
 */
export function withOwnRows({ order, ownerOf }: StoredRows, rows: ReadonlySet<string>): string[] {
	return order.filter((row) => rows.has(row) || rows.has(ownerOf(row) ?? ''));
}

/** Runs of rows that keep together, in stored order: a mark with the rows of its openings right under it, or one row. */
function blocksOf({ order, ownerOf }: StoredRows): string[][] {
	const blocks: string[][] = [];
	for (const row of order) {
		const block = blocks.at(-1);
		const owner = ownerOf(row);
		if (block && owner !== null && block[0] === owner) block.push(row);
		else blocks.push([row]);
	}
	return blocks;
}

/**
 * Where rows go when they are moved up or down by one: over the row beside them, and over all of a mark with its
 * openings. Rows that are all openings of one mark move among these only.
 * @returns null where there is nothing to move over.
 */
export function rowMove(
	stored: StoredRows,
	selected: ReadonlySet<string>,
	direction: 'up' | 'down'
): RowMove | null {
	const ids = withOwnRows(stored, selected);
	const moving = new Set(ids);
	const owners = new Set(ids.map((id) => stored.ownerOf(id)));
	const [owner = null] = owners;
	const together =
		owners.size === 1 && owner !== null
			? stored.order.filter((row) => stored.ownerOf(row) === owner).map((row) => [row])
			: blocksOf(stored);
	const still = together.filter((block) => block.some((row) => !moving.has(row)));
	const place = (block: readonly string[]): number => stored.order.indexOf(block[0] ?? '');
	const [first, last] = [stored.order.indexOf(ids[0] ?? ''), stored.order.indexOf(ids.at(-1) ?? '')];
	if (first < 0) return null;
	if (direction === 'down') {
		const over = still.find((block) => place(block) > last);
		return over ? { ids, after: over.at(-1) ?? null } : null;
	}
	const over = still.findLast((block) => place(block) < first);
	if (!over) return null;
	const above = stored.order.slice(0, place(over)).findLast((row) => !moving.has(row));
	return { ids, after: above ?? null };
}

/** The first and last row of the block that a row stands in: new rows go before or after all of it. */
export function blockAround(stored: StoredRows, row: string): { first: string; last: string } {
	const block = blocksOf(stored).find((rows) => rows.includes(row)) ?? [row];
	return { first: block[0] ?? row, last: block.at(-1) ?? row };
}
