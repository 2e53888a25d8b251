/** What a person does to the cells and rows selected: every command that changes the job, each as one edit. */
import { typedText } from '../../takeoff/cell.ts';
import { inputOf, isInputId, type Cell, type Cells, type InputId } from '../../takeoff/inputs.ts';
import type { CellChange } from '../job-sheet.svelte.ts';
import type { CellText } from './cell-text.ts';
import { readClipboard, writeClipboard } from './clipboard.ts';
import { checksId } from './column-layout.ts';
import { fillCells, seriesOf, type Series } from './fill.ts';
import { replaced } from './find.ts';
import type { GridHooks, RefusedCell, Search, SeriesOffer } from './grid-hooks.ts';
import type { Direction } from './keys.ts';
import { nextMark } from './next-mark.ts';
import { pasteTitle, readPaste } from './paste.ts';
import { oneCell, type Extent, type Spot } from './range.ts';
import { blockAround, rowMove, withOwnRows, type StoredRows } from './row-moves.ts';
import type { Selection } from './selection.ts';
import { stepBetween, steppedSeries } from './series-steps.ts';
import { leaveOutTaken } from './taken-marks.ts';

export interface HandsHost {
	readonly hooks: GridHooks;
	readonly text: CellText;
	readonly selection: Selection;
	/** Why the rows shown are not all rows as they are stored: `sorted by Opening width`; null when they are. */
	arranged(): string | null;
	/** Puts the focus on a cell, also of a row that was added just now. */
	focus(spot: Spot): void;
}

const cellsWord = (count: number): string => `${count} ${count === 1 ? 'cell' : 'cells'}`;
const rowsWord = (count: number): string => `${count} ${count === 1 ? 'row' : 'rows'}`;

type Filling = 'again' | 'series';

/**
 * Columns that cells are copied from and pasted on: the count of checks, which stands between the mark and what is typed,
 * is passed over, unless it is what one begins with.
 */
const exchanged = (columns: readonly string[]): string[] =>
	columns.filter((id, at) => at === 0 || id !== checksId);

export class Hands {
	readonly #host: HandsHost;

	constructor(host: HandsHost) {
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
		const owners = new Map<string, string>();
		const sheet = this.#sheet;
		for (const row of sheet.order) {
			const mark = sheet.cell(row, 'mark');
			if (typeof mark === 'string' && !sheet.isOwnRow(row) && !owners.has(mark)) owners.set(mark, row);
		}
		return {
			order: sheet.order,
			ownerOf: (row) => {
				const mark = sheet.cell(row, 'mark');
				return sheet.isOwnRow(row) && typeof mark === 'string' ? (owners.get(mark) ?? null) : null;
			}
		};
	}

	// Cells.

	/** Input cells of an extent, row by row. */
	#inputsIn(extent: Extent): { row: string; field: InputId }[] {
		const { rows, columns } = this.#host.selection.area;
		const fields = columns.ids.slice(extent.left, extent.right + 1).filter(isInputId);
		return rows.ids
			.slice(extent.top, extent.bottom + 1)
			.flatMap((row) => fields.map((field) => ({ row, field })));
	}

	#titleOf(what: string, cells: readonly { row: string; field: InputId }[]): string {
		const [only] = cells;
		return cells.length === 1 && only
			? `${what} ${inputOf(only.field).title} of ${this.#sheet.nameOf(only.row)}`
			: `${what} ${cellsWord(cells.length)}`;
	}

	/**
	 * Changes cells and adds rows at the end, as one edit, without what would give two rows one mark. What is refused
	 * stays in its cell until it is typed again.
	 * @returns how many cells did not go in; ids of the rows added.
	 */
	#put(
		title: string,
		changes: readonly CellChange[],
		added: readonly Cells[] = [],
		alreadyRefused: readonly (RefusedCell & { readonly added?: number | null })[] = []
	): { refused: RefusedCell[]; ids: readonly string[] } {
		const sheet = this.#sheet;
		const rows = sheet.order.flatMap((id) => sheet.row(id) ?? []);
		const fit = leaveOutTaken(rows, changes, added);
		const ids =
			fit.added.length > 0
				? sheet.addRows(title, sheet.order.at(-1) ?? null, fit.added, fit.changes)
				: (sheet.setCells(title, fit.changes), []);
		const refused = [
			...alreadyRefused.map(({ row, field, text, reason, added: at = null }) => ({
				row: row ?? (at === null ? null : (ids[at] ?? null)),
				field,
				text,
				reason
			})),
			...fit.refused.map(({ row, added: at, field, cell, reason }) => ({
				row: row ?? (at === null ? null : (ids[at] ?? null)),
				field,
				text: typedText(cell),
				reason
			}))
		];
		for (const { row, field, text, reason } of refused)
			if (row !== null) sheet.refuse(row, field, { text, reason });
		return { refused, ids };
	}

	/** The same where only what was refused is worth a word. */
	#fill(title: string, changes: readonly CellChange[], alreadyRefused: readonly RefusedCell[] = []): void {
		const { refused } = this.#put(title, changes, [], alreadyRefused);
		if (refused.length > 0)
			this.#host.hooks.tookCells(changes.length + alreadyRefused.length - refused.length, refused);
	}

	clear(what = 'Clear'): void {
		const { extent } = this.#host.selection;
		if (!extent) return;
		const cells = this.#inputsIn(extent);
		if (cells.length === 0) {
			this.#host.hooks.refuse('What is worked out can’t be cleared; it follows from what is typed.');
			return;
		}
		this.#fill(
			this.#titleOf(what, cells),
			cells.map((cell) => ({ ...cell, after: null }))
		);
	}

	/** The selection in both forms of the clipboard; null where nothing is selected. */
	copied(): { readonly text: string; readonly html: string } | null {
		const { selection, text } = this.#host;
		const { rows } = selection.ids;
		const columns = exchanged(selection.ids.columns);
		if (rows.length === 0) return null;
		return writeClipboard(rows.map((row) => columns.map((column) => text.copied(row, column))));
	}

	copyWords(what: 'Copied' | 'Cut'): string {
		const { selection, text } = this.#host;
		const { rows } = selection.ids;
		const columns = exchanged(selection.ids.columns);
		const [row, column] = [rows[0], columns[0]];
		if (rows.length * columns.length !== 1 || row === undefined || column === undefined)
			return `${what} ${cellsWord(rows.length * columns.length)}.`;
		const copied = text.copied(row, column).text;
		return `${what} ${copied === '' ? 'an empty cell' : copied}.`;
	}

	/** Lays a table over the selection, as one edit; rows that are not there are added. */
	paste(data: { readonly text: string; readonly html: string }): void {
		const { hooks, text, selection } = this.#host;
		const { extent, area } = selection;
		if (!extent) return;
		const read = readClipboard(data, (html) => new DOMParser().parseFromString(html, 'text/html'));
		if (!read.ok) {
			hooks.refuse(`Not pasted: ${read.reason}.`);
			return;
		}
		const arranged = this.#host.arranged();
		const height = extent.bottom - extent.top + 1;
		const width = exchanged(selection.ids.columns).length;
		const columns = exchanged(area.columns.ids.slice(extent.left));
		const paste = readPaste(
			read.cells,
			{
				rows: area.rows.ids.slice(extent.top),
				columns: columns.map((id) => (isInputId(id) ? { field: id } : { result: id })),
				selectedRows: height,
				selectedColumns: width,
				mayAddRows: arranged === null
			},
			(field, typed) => text.readField(field, typed)
		);
		const { refused } = this.#put(pasteTitle(paste.count), paste.changes, paste.added, paste.refused);
		if (paste.count + refused.length > 0)
			hooks.tookCells(paste.count + paste.refused.length - refused.length, refused);
		const leftOut = [
			paste.onResults > 0 ? `${cellsWord(paste.onResults)} fell on worked-out columns` : '',
			paste.beyond > 0 ? `${cellsWord(paste.beyond)} fell beyond the last column or row` : ''
		].filter((words) => words !== '');
		if (leftOut.length > 0) {
			const why =
				paste.beyond > 0 && arranged !== null ? ` Rows are only added while nothing is ${arranged}.` : '';
			hooks.refuse(`${leftOut.join(', ')}: left out.${why}`);
		}
		const [first] = area.rows.ids.slice(extent.top);
		const across = Math.max(width, ...read.cells.map((line) => line.length));
		const [left] = columns;
		const right = columns[Math.min(columns.length, across) - 1];
		if (first === undefined || left === undefined || right === undefined) return;
		const bottom = extent.top + Math.max(height, read.cells.length) - 1;
		// Rows added just now are there on the next turn.
		queueMicrotask(() => {
			const { row } = selection.spotAt({ row: bottom, column: 0 }) ?? { row: first };
			selection.set({ ...oneCell({ row: first, column: left }), head: { row, column: right } });
		});
	}

	// Filling.

	fillDown(): void {
		const { extent } = this.#host.selection;
		if (!extent) return;
		if (extent.top === extent.bottom && extent.top === 0)
			this.#host.hooks.refuse('There is no row above to fill from.');
		else if (extent.top === extent.bottom)
			this.#fillAlong({ ...extent, top: extent.top - 1, bottom: extent.top - 1 }, extent, 'down', 'again');
		else
			this.#fillAlong({ ...extent, bottom: extent.top }, { ...extent, top: extent.top + 1 }, 'down', 'again');
	}

	fillRight(): void {
		const { extent } = this.#host.selection;
		if (!extent) return;
		if (extent.left === extent.right && extent.left === 0)
			this.#host.hooks.refuse('There is no column before this one to fill from.');
		else if (extent.left === extent.right)
			this.#fillAlong({ ...extent, left: extent.left - 1, right: extent.left - 1 }, extent, 'right', 'again');
		else
			this.#fillAlong(
				{ ...extent, right: extent.left },
				{ ...extent, left: extent.left + 1 },
				'right',
				'again'
			);
	}

	/** Draws the selection out over other cells. */
	drawOut(to: Extent, direction: Direction, filling: Filling): void {
		const { extent } = this.#host.selection;
		if (extent) this.#fillAlong(extent, to, direction, filling);
	}

	#fillAlong(from: Extent, to: Extent, direction: Direction, filling: Filling): void {
		if (direction === 'right' || direction === 'left') this.#fillAcross(from, to, direction);
		else this.#fillUpright(from, to, direction, filling);
	}

	#fillUpright(from: Extent, to: Extent, direction: 'down' | 'up', filling: Filling): void {
		const sheet = this.#sheet;
		const { rows, columns } = this.#host.selection.area;
		const turned = (ids: readonly string[]): string[] => (direction === 'up' ? ids.toReversed() : [...ids]);
		const source = turned(rows.ids.slice(from.top, from.bottom + 1));
		const targets = turned(rows.ids.slice(to.top, to.bottom + 1));
		const changes: CellChange[] = [];
		for (const field of columns.ids.slice(from.left, from.right + 1).filter(isInputId)) {
			const cells = source.map((row) => sheet.cell(row, field));
			const next: Series =
				filling === 'again'
					? { ok: true, cells: fillCells(cells, targets.length) }
					: seriesOf(inputOf(field), cells, targets.length, sheet.measures);
			if (!next.ok) {
				this.#host.hooks.refuse(`No series of ${inputOf(field).title}: ${next.reason}.`);
				return;
			}
			for (const [at, row] of targets.entries()) changes.push({ row, field, after: next.cells[at] ?? null });
		}
		if (changes.length === 0)
			this.#host.hooks.refuse('What is worked out can’t be filled; it follows from what is typed.');
		else
			this.#fill(
				filling === 'again' ? this.#titleOf('Fill', changes) : `Series of ${cellsWord(changes.length)}`,
				changes
			);
	}

	/** Other columns read the same text in their own way. */
	#fillAcross(from: Extent, to: Extent, direction: 'right' | 'left'): void {
		const sheet = this.#sheet;
		const { text, selection } = this.#host;
		const { rows, columns } = selection.area;
		const turned = (ids: readonly string[]): string[] => (direction === 'left' ? ids.toReversed() : [...ids]);
		const source = turned(exchanged(columns.ids.slice(from.left, from.right + 1)));
		const targets = turned(exchanged(columns.ids.slice(to.left, to.right + 1)));
		const changes: CellChange[] = [];
		const refused: RefusedCell[] = [];
		for (const row of rows.ids.slice(to.top, to.bottom + 1))
			for (const [at, field] of targets.entries()) {
				const column = source[at % source.length];
				if (column === undefined || !isInputId(field)) continue;
				const typed = isInputId(column) ? typedText(sheet.cell(row, column)) : text.text(row, column);
				const reading = text.readField(field, typed);
				if (reading.ok) changes.push({ row, field, after: reading.cell });
				else refused.push({ row, field, text: typed, reason: reading.reason });
			}
		if (changes.length + refused.length === 0)
			this.#host.hooks.refuse('What is worked out can’t be filled; it follows from what is typed.');
		else this.#fill(this.#titleOf('Fill', changes), changes, refused);
	}

	/** One text into all selected input cells, each read by its own column. */
	fillAll(typed: string): void {
		const { text, selection } = this.#host;
		if (!selection.extent) return;
		const changes: CellChange[] = [];
		const refused: RefusedCell[] = [];
		for (const { row, field } of this.#inputsIn(selection.extent)) {
			const reading = text.readField(field, typed);
			if (reading.ok) changes.push({ row, field, after: reading.cell });
			else refused.push({ row, field, text: typed, reason: reading.reason });
		}
		this.#fill(this.#titleOf('Fill', changes), changes, refused);
	}

	/** What a series over the selected column would begin with; a reason where there is none to be had. */
	seriesOffer(): SeriesOffer | { readonly reason: string } {
		const { rows, columns } = this.#host.selection.ids;
		const [field] = columns.filter(isInputId);
		const [first, second] = rows;
		if (columns.length !== 1 || field === undefined || first === undefined || rows.length < 2)
			return { reason: 'Select two or more cells of one column that is typed; the series goes down them.' };
		const sheet = this.#sheet;
		const cell = sheet.cell(first, field);
		return {
			title: inputOf(field).title,
			count: rows.length,
			from: typedText(cell),
			step: stepBetween(cell, second === undefined ? null : sheet.cell(second, field), sheet.measures)
		};
	}

	/** The texts a series would put into the first cells; at most `most`. */
	readSeries(
		from: string,
		step: string,
		most: number
	): { ok: true; texts: string[] } | { ok: false; reason: string } {
		const series = this.#series(from, step);
		if (!series) return { ok: false, reason: 'nothing is selected' };
		if (!series.ok) return series;
		const { field, cells } = series;
		return {
			ok: true,
			texts: cells.slice(0, most).map((cell) => this.#host.text.show(inputOf(field), cell))
		};
	}

	fillSeries(from: string, step: string): void {
		const series = this.#series(from, step);
		if (!series?.ok) return;
		const { field, cells } = series;
		const { rows } = this.#host.selection.ids;
		this.#fill(
			`Series of ${cellsWord(cells.length)}`,
			rows.map((row, at) => ({ row, field, after: cells[at] ?? null }))
		);
	}

	#series(from: string, step: string): (Series & { readonly field: InputId }) | null {
		const { text, selection } = this.#host;
		const { rows, columns } = selection.ids;
		const [field] = columns.filter(isInputId);
		if (field === undefined) return null;
		const first = text.readField(field, from);
		const series = first.ok
			? steppedSeries(inputOf(field), first.cell, step, rows.length, this.#sheet.measures)
			: first;
		return { ...series, field };
	}

	/** Goes on from what stands at the top of each selected column, as far as it is filled. */
	continueSeries(): void {
		const { extent, area } = this.#host.selection;
		if (!extent) return;
		const filled = (at: number): boolean => {
			const row = area.rows.ids[at];
			return (
				row !== undefined &&
				area.columns.ids
					.slice(extent.left, extent.right + 1)
					.some((id) => isInputId(id) && this.#sheet.cell(row, id) !== null)
			);
		};
		let bottom = extent.top;
		while (bottom < extent.bottom && filled(bottom + 1)) bottom++;
		if (bottom === extent.bottom) bottom = extent.top;
		this.#fillUpright({ ...extent, bottom }, { ...extent, top: bottom + 1 }, 'down', 'series');
	}

	/** Replaces in input cells, by the text that was typed; where only what is shown has it, by that. */
	replaceIn(spots: readonly Spot[], search: Search, by: string): void {
		const { text } = this.#host;
		const changes: CellChange[] = [];
		const refused: RefusedCell[] = [];
		for (const { row, column } of spots) {
			if (!isInputId(column)) continue;
			const typed = text.copied(row, column).text;
			const other = replaced(typed, search, by);
			const next = other === typed ? replaced(text.text(row, column), search, by) : other;
			const reading = text.readField(column, next);
			if (reading.ok) changes.push({ row, field: column, after: reading.cell });
			else refused.push({ row, field: column, text: next, reason: reading.reason });
		}
		if (changes.length + refused.length === 0) return;
		const put = this.#put(this.#titleOf('Replace in', changes), changes, [], refused);
		this.#host.hooks.tookCells(changes.length + refused.length - put.refused.length, put.refused);
	}

	// Rows.

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

	/** What stands in the active cell, as it was typed. */
	activeText(): string {
		const { active } = this.#host.selection;
		if (!active || !isInputId(active.column)) return '';
		const cell: Cell = this.#sheet.cell(active.row, active.column);
		return typedText(cell);
	}
}
