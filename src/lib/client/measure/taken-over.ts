/** Measured sizes as an edit of the sheet: into the row of the opening, or into a row of its own beside its mark. */
import type { Change } from '../../changes/message.ts';
import { inputOf, type Cell, type Cells, type InputId } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';

/** Lengths only: another wall asks for its strength and thickness, which nobody measured. */
const taken = ['openingWidth', 'openingHeight', 'headroom', 'leftSideRoom', 'rightSideRoom'] as const;

interface TakenCell {
	readonly field: InputId;
	readonly title: string;
	readonly before: Cell;
	readonly after: Cell;
}

interface TakenOver {
	/** The opening gets a row of its own: others of its mark stay as they are. */
	readonly ownRow: boolean;
	/** What the opening has now, and what it gets. */
	readonly cells: readonly TakenCell[];
	/** The mark is held for all its openings, so it stays held here. */
	readonly staysHeld: boolean;
	/** A wall was found to be another one: it is entered in the sheet by hand. */
	readonly wallLeft: boolean;
	readonly changes: readonly Change[];
}

/**
 * @param openingId which of the openings of the row
 * @param changed cells that the measure changes
 * @param newRow id for a row of its own
 * @param after row below which that one goes
 * @param markHeld the row of the mark itself has the hold
 * @returns null where there is nothing to take over
 */
export function takenOver(
	opening: OpeningTakeoff,
	openingId: string,
	changed: Cells,
	{ newRow, after, markHeld }: { readonly newRow: string; readonly after: string; readonly markHeld: boolean }
): TakenOver | null {
	const ownRow = opening.openingId === null && opening.quantity > 1;
	const held = opening.cell('hold') !== null;
	// A blank cell takes the mark’s: only where the hold stands in this row alone can it be cleared here.
	const clearsHold = held && !ownRow && (opening.openingId === null || !markHeld);
	const cells: TakenCell[] = [
		...taken.flatMap((field): TakenCell[] => {
			const cell = changed[field];
			if (cell === undefined || cell === null) return [];
			return [{ field, title: inputOf(field).title, before: opening.cell(field), after: cell }];
		}),
		...(clearsHold
			? [{ field: 'hold' as const, title: inputOf('hold').title, before: opening.cell('hold'), after: null }]
			: [])
	];
	if (cells.length === 0) return null;
	const number = Number(openingId.slice(openingId.lastIndexOf('.') + 1));
	const changes: Change[] = ownRow
		? [
				{
					kind: 'addRow',
					row: newRow,
					after,
					cells: {
						mark: opening.mark,
						openingNumber: number,
						...Object.fromEntries(cells.map(({ field, after: cell }) => [field, cell]))
					}
				}
			]
		: cells.map(({ field, after: cell }): Change => ({
				kind: 'setCell',
				row: opening.row.id,
				field,
				before: opening.row.cells[field] ?? null,
				after: cell
			}));
	return {
		ownRow,
		cells,
		staysHeld: held && !clearsHold,
		wallLeft: changed.leftSubstrate !== undefined || changed.rightSubstrate !== undefined,
		changes
	};
}
