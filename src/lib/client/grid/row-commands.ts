/** Commands on the rows selected: adding, inserting, moving, copying and deleting openings; each is one edit. */
import { typedText } from '../../takeoff/cell.ts';
import type { Cells } from '../../takeoff/inputs.ts';
import type { GridHooks } from './grid-hooks.ts';
import { nextMark } from './next-mark.ts';
import type { Spot } from './range.ts';
import { ownersIn } from './row-reader.ts';
import { blockAround, rowMove, withOwnRows, type StoredRows } from './row-moves.ts';
import type { Selection } from './selection.ts';

export interface RowCommandsHost {
	readonly hooks: GridHooks;
	readonly selection: Selection;
	/** Why the rows shown are not all rows as they are stored: `sorted by Opening width`; null when they are. */
	arranged(): string | null;
	/** Puts the focus on a cell, also of a row that was added just now. */
	focus(spot: Spot): void;
}

const rowsWord = (count: number): string => `${count} ${count === 1 ? 'row' : 'rows'}`;

export class RowCommands {
	readonly #host: RowCommandsHost;

	constructor(host: RowCommandsHost) {
		this.#host = host;
	}

	get #sheet(): GridHooks['sheet'] {
		return this.#host.hooks.sheet;
	}

	get #rows(): readonly string[] {
		const { rows } = this.#host.selection.ids;
		const { selected } = this.#sheet;
		return rows.length > 0 || selected === null ? rows : [selected];
	}

	get #stored(): StoredRows {
		return { order: this.#sheet.order, ownerOf: ownersIn(this.#sheet) };
	}

	addOpening(): void {
		const { order, selected } = this.#sheet;
		const [row] = this.#sheet.addRows('Add an opening', selected ?? order.at(-1) ?? null, [{ quantity: 1 }]);
		if (row !== undefined) this.#host.focus({ row, column: 'mark' });
	}

	/** As many rows as are selected, before or after them; a mark stays together with the rows of its openings. */
	insert(where: 'above' | 'below'): void {
		const rows = this.#rows;
		const beside = where === 'above' ? rows[0] : rows.at(-1);
		if (beside === undefined) {
			this.addOpening();
			return;
		}
		const stored = this.#stored;
		const { first, last } = blockAround(stored, beside);
		const after = where === 'below' ? last : (stored.order[stored.order.indexOf(first) - 1] ?? null);
		const added = this.#sheet.addRows(
			`Insert ${rowsWord(rows.length)}`,
			after,
			rows.map(() => ({ quantity: 1 }))
		);
		const [row] = added;
		if (row !== undefined) this.#host.focus({ row, column: 'mark' });
		const arranged = this.#host.arranged();
		if (arranged !== null)
			this.#host.hooks.say(
				`Rows are ${arranged}. As stored, the new ${rows.length === 1 ? 'row stands' : 'rows stand'} ${where} ${this.#sheet.nameOf(beside)}.`
			);
	}

	move(direction: 'up' | 'down'): void {
		const rows = this.#rows;
		const arranged = this.#host.arranged();
		if (arranged !== null) {
			this.#host.hooks.refuse(
				`Not moved: rows are ${arranged}, and moving changes the order they are stored in. Show all rows as stored first.`
			);
			return;
		}
		const move = rowMove(this.#stored, new Set(rows), direction);
		if (move) this.#sheet.moveRows(move.ids, move.after);
	}

	deleteRows(): void {
		const rows = this.#rows;
		const [first] = rows;
		if (first === undefined) return;
		const sheet = this.#sheet;
		const { area, active } = this.#host.selection;
		const going = new Set(withOwnRows(this.#stored, new Set(rows)));
		const at = area.rows.at(first);
		const next =
			area.rows.ids.slice(at).find((row) => !going.has(row)) ??
			area.rows.ids.slice(0, at).findLast((row) => !going.has(row));
		const name = rows.length === 1 ? sheet.nameOf(first) : rowsWord(going.size);
		sheet.removeRows(rows);
		this.#host.hooks.say(`${name} deleted. Undo brings ${rows.length === 1 ? 'it' : 'them'} back.`);
		if (next !== undefined) this.#host.focus({ row: next, column: active?.column ?? 'mark' });
	}

	/** Marks with all their cells and the rows of their openings again, each under the next free mark. */
	duplicate(): void {
		const sheet = this.#sheet;
		const stored = this.#stored;
		const rows = this.#rows;
		const [only] = rows;
		if (rows.length === 1 && only !== undefined && stored.ownerOf(only) !== null) {
			this.#duplicateOwn(only);
			return;
		}
		const taken = new Set(
			sheet.order.flatMap((id) => {
				const mark = sheet.cell(id, 'mark');
				return typeof mark === 'string' ? [mark.toLowerCase()] : [];
			})
		);
		const heads = rows.filter((row) => stored.ownerOf(row) === null);
		const last = heads.at(-1);
		if (last === undefined) {
			this.#host.hooks.refuse('Only rows of single openings are selected; select their mark to copy it.');
			return;
		}
		const copies = heads.flatMap((head) => {
			const mark = sheet.cell(head, 'mark');
			const next = typeof mark === 'string' ? nextMark(mark, taken) : null;
			if (next !== null) taken.add(next.toLowerCase());
			return withOwnRows(stored, new Set([head])).map((row): Cells => ({
				...sheet.row(row)?.cells,
				mark: next
			}));
		});
		const title = heads.length === 1 ? `Duplicate ${sheet.nameOf(last)}` : `Duplicate ${heads.length} marks`;
		const [row] = sheet.addRows(title, blockAround(stored, last).last, copies);
		if (row !== undefined) this.#host.focus({ row, column: 'mark' });
	}

	/** A row of one opening again, for the next opening of the mark that has none. */
	#duplicateOwn(id: string): void {
		const sheet = this.#sheet;
		const owner = this.#stored.ownerOf(id);
		const [openingNumber] = owner === null ? [] : sheet.freeNumbers(owner);
		if (openingNumber === undefined || owner === null) {
			this.#host.hooks.refuse(
				`Every opening of ${typedText(sheet.cell(id, 'mark'))} has a row of its own already; raise the quantity of the mark first.`
			);
			return;
		}
		const [row] = sheet.addRows(`Duplicate ${sheet.nameOf(id)}`, sheet.endOf(owner), [
			{ ...sheet.row(id)?.cells, openingNumber }
		]);
		if (row !== undefined) this.#host.focus({ row, column: 'mark' });
	}

	giveOwnRow(): void {
		const sheet = this.#sheet;
		const id = this.#host.selection.active?.row ?? sheet.selected;
		const mark = id === null ? null : sheet.cell(id, 'mark');
		const [openingNumber, another] = id === null ? [] : sheet.freeNumbers(id);
		if (id === null || typeof mark !== 'string' || openingNumber === undefined || another === undefined) {
			this.#host.hooks.refuse('A row of its own is for one opening of a mark that has more than one left.');
			return;
		}
		const [row] = sheet.addRows(`Own row for ${mark}.${openingNumber}`, sheet.endOf(id), [
			{ mark, openingNumber }
		]);
		if (row !== undefined) this.#host.focus({ row, column: 'mark' });
	}
}
