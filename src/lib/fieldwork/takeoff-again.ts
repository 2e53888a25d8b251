/** The takeoff run again with what was measured. */
import type { Engine } from '../takeoff/engine.ts';
import type { Cells, Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { sides, type Side } from './governing.ts';
import { cellsOf, measuredCell, tallest, type TakenSizes } from './taken-sizes.ts';

export interface TakeoffAgain {
	/** With the governing width and the greater height: everything but the guides. */
	readonly whole: OpeningTakeoff;
	/** With the height of that side: its guide and the anchors of its guide. */
	readonly guide: Readonly<Record<Side, OpeningTakeoff>>;
}

/** Runs the takeoff with the changed cells, with a row more for a side whose own height is another one. */
export function takeoffAgain(
	engine: Engine,
	opening: OpeningTakeoff,
	changes: Cells,
	sizes: TakenSizes,
	measures: Measures
): TakeoffAgain {
	const height = tallest(sizes);
	const own = sides.filter((side) => sizes.height[side] !== null && sizes.height[side] !== height);
	if (own.length === 0 && Object.keys(changes).length === 0)
		return { whole: opening, guide: { left: opening, right: opening } };
	const rowOf = (id: string, more: Cells): OpeningRow => ({
		id,
		cells: cellsOf(opening, { ...changes, ...more })
	});
	const rows = own.map((side) => {
		const nm = sizes.height[side];
		return rowOf(`${opening.row.id} ${side}`, {
			// A mark of its own: one that stands in two rows is stopped.
			mark: `${opening.mark} ${side}`,
			...(nm === null ? {} : { openingHeight: measuredCell(nm, measures) })
		});
	});
	const [whole, ...guides] = engine.takeoff([rowOf(opening.row.id, {}), ...rows], measures).openings;
	if (!whole) throw new Error('a takeoff of rows has openings');
	const guideAt = (side: Side): OpeningTakeoff => guides[own.indexOf(side)] ?? whole;
	return { whole, guide: { left: guideAt('left'), right: guideAt('right') } };
}
