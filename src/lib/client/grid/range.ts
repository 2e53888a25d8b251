/** Selected cells: a rectangle between two corners that are kept by row and column, so that it outlasts every change. */
import type { Direction, Motion } from './keys.ts';

/** A cell by the ids of its row and column. */
export interface Spot {
	readonly row: string;
	readonly column: string;
}

export interface Range {
	/** Corner where the selection began. */
	readonly anchor: Spot;
	/** The opposite corner, which moves. */
	readonly head: Spot;
	/** Whole rows or columns go over all there are, also over those that come. */
	readonly whole: 'cells' | 'rows' | 'columns' | 'all';
}

/** Ids in a row with their places. */
export class Line {
	readonly ids: readonly string[];
	readonly #places: ReadonlyMap<string, number>;

	constructor(ids: readonly string[]) {
		this.ids = ids;
		this.#places = new Map(ids.map((id, at) => [id, at]));
	}

	/** @returns -1 where it is not there. */
	at(id: string): number {
		return this.#places.get(id) ?? -1;
	}

	get length(): number {
		return this.ids.length;
	}
}

/** The rows and columns on the screen. */
export interface Area {
	readonly rows: Line;
	readonly columns: Line;
}

/** Places of the outermost rows and columns, all of them included. */
export interface Extent {
	readonly top: number;
	readonly bottom: number;
	readonly left: number;
	readonly right: number;
}

export const oneCell = (spot: Spot): Range => ({ anchor: spot, head: spot, whole: 'cells' });

/** The places of a range; null where one of its corners is not shown. */
export function extentOf({ anchor, head, whole }: Range, { rows, columns }: Area): Extent | null {
	const [lastRow, lastColumn] = [rows.length - 1, columns.length - 1];
	if (lastRow < 0 || lastColumn < 0) return null;
	const [row, otherRow] = [rows.at(anchor.row), rows.at(head.row)];
	const [column, otherColumn] = [columns.at(anchor.column), columns.at(head.column)];
	const allRows = whole === 'columns' || whole === 'all';
	const allColumns = whole === 'rows' || whole === 'all';
	if (!allRows && Math.min(row, otherRow) < 0) return null;
	if (!allColumns && Math.min(column, otherColumn) < 0) return null;
	return {
		top: allRows ? 0 : Math.min(row, otherRow),
		bottom: allRows ? lastRow : Math.max(row, otherRow),
		left: allColumns ? 0 : Math.min(column, otherColumn),
		right: allColumns ? lastColumn : Math.max(column, otherColumn)
	};
}

export const within = ({ top, bottom, left, right }: Extent, row: number, column: number): boolean =>
	row >= top && row <= bottom && column >= left && column <= right;

export const cellsIn = ({ top, bottom, left, right }: Extent): number =>
	(bottom - top + 1) * (right - left + 1);

/** Ids of the rows and columns of an extent. */
export const idsOf = (
	{ top, bottom, left, right }: Extent,
	{ rows, columns }: Area
): { rows: readonly string[]; columns: readonly string[] } => ({
	rows: rows.ids.slice(top, bottom + 1),
	columns: columns.ids.slice(left, right + 1)
});

/** A cell by places. */
export interface Place {
	readonly row: number;
	readonly column: number;
}

const steps: Readonly<Record<Direction, Place>> = {
	up: { row: -1, column: 0 },
	down: { row: 1, column: 0 },
	left: { row: 0, column: -1 },
	right: { row: 0, column: 1 }
};

/**
 * Where a motion from a cell ends; at the edge of the sheet at the latest.
 * @param size how many rows and columns there are. @param window rows in sight.
 */
export function motionEnd(
	from: Place,
	{ direction, reach }: Motion,
	size: Place,
	window: number,
	isFilled: (place: Place) => boolean
): Place {
	const step = steps[direction];
	const last: Place = { row: size.row - 1, column: size.column - 1 };
	const inside = ({ row, column }: Place): Place => ({
		row: Math.max(0, Math.min(last.row, row)),
		column: Math.max(0, Math.min(last.column, column))
	});
	const ahead = (place: Place, count = 1): Place =>
		inside({ row: place.row + step.row * count, column: place.column + step.column * count });
	switch (reach) {
		case 'cell':
			return ahead(from);
		case 'window':
			return ahead(from, Math.max(1, window - 1));
		case 'row':
			return ahead(from, size.column);
		case 'corner':
			return direction === 'left' ? { row: 0, column: 0 } : last;
		case 'filled':
			return filledEnd(from, ahead, isFilled);
	}
}

/** Out of a block of filled cells to its last one; from there, or from a blank cell, to the next filled one. */
function filledEnd(from: Place, ahead: (place: Place) => Place, isFilled: (place: Place) => boolean): Place {
	const same = (a: Place, b: Place): boolean => a.row === b.row && a.column === b.column;
	let at = ahead(from);
	const inBlock = isFilled(from) && isFilled(at);
	for (let next = ahead(at); !same(next, at); next = ahead(at)) {
		if (inBlock ? !isFilled(next) : isFilled(at)) return at;
		at = next;
	}
	return at;
}

/** The next cell inside a selection: down its columns or along its rows, over the end to the beginning. */
export function walk({ top, bottom, left, right }: Extent, at: Place, direction: Direction): Place {
	const [rows, columns] = [bottom - top + 1, right - left + 1];
	const along = direction === 'left' || direction === 'right';
	const step = direction === 'down' || direction === 'right' ? 1 : -1;
	const place = along
		? (at.row - top) * columns + (at.column - left)
		: (at.column - left) * rows + (at.row - top);
	const count = rows * columns;
	const next = (place + step + count) % count;
	return along
		? { row: top + Math.floor(next / columns), column: left + (next % columns) }
		: { row: top + (next % rows), column: left + Math.floor(next / rows) };
}

/** The cells a selection grows by when it is drawn out to a cell: straight down, up, right or left, whichever is more. */
export function drawnOut(
	from: Extent,
	{ row, column }: Place
): { extent: Extent; direction: Direction } | null {
	const down = Math.max(row - from.bottom, from.top - row, 0);
	const across = Math.max(column - from.right, from.left - column, 0);
	if (down === 0 && across === 0) return null;
	if (down >= across)
		return row > from.bottom
			? { extent: { ...from, top: from.bottom + 1, bottom: row }, direction: 'down' }
			: { extent: { ...from, bottom: from.top - 1, top: row }, direction: 'up' };
	return column > from.right
		? { extent: { ...from, left: from.right + 1, right: column }, direction: 'right' }
		: { extent: { ...from, right: from.left - 1, left: column }, direction: 'left' };
}
