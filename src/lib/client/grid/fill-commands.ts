/** Commands that fill the cells selected: from a neighbour, with one text, with a series; each is one edit. */
import { typedText } from '../../takeoff/cell.ts';
import { inputOf, isInputId, type InputId } from '../../takeoff/inputs.ts';
import type { CellChange } from '../job-sheet.svelte.ts';
import { cellsWord, exchanged, type CellEdits, type EditHost } from './cell-edits.ts';
import { fillCells, seriesOf, type Series } from './fill.ts';
import type { GridHooks, SeriesOffer, SeriesReading } from './grid-hooks.ts';
import type { Direction } from './keys.ts';
import type { Extent } from './range.ts';
import { stepBetween, steppedSeries } from './series-steps.ts';

export interface FillHost extends EditHost {
	readonly edits: CellEdits;
}

type Filling = 'again' | 'series';

export class FillCommands {
	readonly #host: FillHost;

	constructor(host: FillHost) {
		this.#host = host;
	}

	get #sheet(): GridHooks['sheet'] {
		return this.#host.hooks.sheet;
	}

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
		const { edits, hooks, selection } = this.#host;
		const { rows, columns } = selection.area;
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
				hooks.refuse(`No series of ${inputOf(field).title}: ${next.reason}.`);
				return;
			}
			for (const [at, row] of targets.entries()) changes.push({ row, field, after: next.cells[at] ?? null });
		}
		if (changes.length === 0)
			hooks.refuse('What is worked out can’t be filled; it follows from what is typed.');
		else
			edits.fill(
				filling === 'again' ? edits.titleOf('Fill', changes) : `Series of ${cellsWord(changes.length)}`,
				changes
			);
	}

	/** Other columns read the same text in their own way. */
	#fillAcross(from: Extent, to: Extent, direction: 'right' | 'left'): void {
		const sheet = this.#sheet;
		const { hooks, text, selection } = this.#host;
		const { rows, columns } = selection.area;
		const turned = (ids: readonly string[]): string[] => (direction === 'left' ? ids.toReversed() : [...ids]);
		const source = turned(exchanged(columns.ids.slice(from.left, from.right + 1)));
		const targets = turned(exchanged(columns.ids.slice(to.left, to.right + 1)));
		const entries = rows.ids.slice(to.top, to.bottom + 1).flatMap((row) =>
			targets.flatMap((field, at) => {
				const column = source[at % source.length];
				if (column === undefined || !isInputId(field)) return [];
				const typed = isInputId(column) ? typedText(sheet.cell(row, column)) : text.text(row, column);
				return [{ row, field, text: typed }];
			})
		);
		if (entries.length === 0)
			hooks.refuse('What is worked out can’t be filled; it follows from what is typed.');
		else this.#fillRead(entries);
	}

	/** One text into all selected input cells, each read by its own column: what stands in the active cell unless said. */
	fillAll(typed = this.#activeText()): void {
		const { edits, selection } = this.#host;
		if (selection.extent)
			this.#fillRead(edits.inputsIn(selection.extent).map((cell) => ({ ...cell, text: typed })));
	}

	/** As it was typed. */
	#activeText(): string {
		const { active } = this.#host.selection;
		return active && isInputId(active.column) ? typedText(this.#sheet.cell(active.row, active.column)) : '';
	}

	#fillRead(entries: readonly { row: string; field: InputId; text: string }[]): void {
		const { edits } = this.#host;
		const { changes, refused } = edits.read(entries);
		edits.fill(edits.titleOf('Fill', changes), changes, refused);
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
	readSeries(from: string, step: string, most: number): SeriesReading {
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
		this.#host.edits.fill(
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
}
