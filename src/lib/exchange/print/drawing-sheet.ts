/** What goes on the sheet of one opening, taken from the takeoff: plain data, no price among it. */
import { elevationOf, sectionOf } from '../../drawing/scene.ts';
import type { Scene } from '../../drawing/shapes.ts';
import type { Engine } from '../../takeoff/engine.ts';
import { inputOf, type Measures } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { showCell } from '../../takeoff/cell.ts';
import { showQuantity } from '../../takeoff/show.ts';

const printedSeverities = ['stop', 'caution'] as const;

export interface PrintedCheck {
	readonly severity: (typeof printedSeverities)[number];
	readonly text: string;
	readonly clears: string;
}

export interface DrawingSheet {
	/** Mark, or the opening that has a row of its own. */
	readonly name: string;
	readonly location: string;
	readonly quantity: string;
	readonly size: string;
	readonly curtain: string;
	readonly hand: string;
	readonly seenFrom: string;
	readonly measures: Measures;
	/** Elevation, section, section at the head: those that can be drawn. */
	readonly scenes: readonly Scene[];
	/** Stops, then cautions. */
	readonly checks: readonly PrintedCheck[];
	/** Of the takeoff, which are not printed. */
	readonly notes: number;
	/** Cautions of the work with the figures of this opening. */
	readonly work: readonly string[];
}

/** `4: C-101.1 to C-101.3, C-101.5`: which openings it is for. */
function quantityText({ openingId, openingIds, quantity, mark }: OpeningTakeoff): string {
	if (openingId !== null) return `1, of ${mark}`;
	if (quantity <= 1) return String(quantity);
	const runs: { from: string; to: string; next: number }[] = [];
	for (const id of openingIds) {
		const number = Number(id.slice(mark.length + 1));
		const run = runs.at(-1);
		if (run?.next === number) {
			run.to = id;
			run.next++;
		} else runs.push({ from: id, to: id, next: number + 1 });
	}
	const which = runs.map(({ from, to }) => (from === to ? from : `${from} to ${to}`));
	return `${String(quantity)}: ${which.join(', ')}`;
}

/** The title of a row of the shop book, behind its key. */
function curtainText(engine: Engine, opening: OpeningTakeoff): string {
	const key = opening.cell('curtain');
	if (typeof key !== 'string' || key === '') return 'not given';
	const title = engine.book.curtains.find((row) => row.key === key)?.title;
	const finish = opening.cell('finish');
	return [title ?? key, ...(typeof finish === 'string' && finish !== '' ? [finish] : [])].join(', ');
}

/** The usual cautions of this work. They name what to think of and leave the rest to the codes and people of the place. */
function workCautions(engine: Engine, opening: OpeningTakeoff, measures: Measures): string[] {
	const figure = (id: string): string | null => {
		const value = opening.get(id);
		const definition = engine.rules.definition(id);
		return typeof value === 'number' && definition ? showQuantity(value, definition, measures) : null;
	};
	const height = figure('workHeight');
	const weight = figure('coilWeight');
	return [
		`Height: ${height === null ? 'work above the floor' : `work up to ${height} above the finished floor`} needs a platform or lift and protection against falls.`,
		`Lifting: ${weight === null ? 'the coil' : `the coil weighs ${weight} and`} is lifted by machine or by enough people, and stays held until both brackets carry it.`,
		'Stored energy: a wound spring or a hanging curtain can turn the barrel at once; secure it before fixings, drive or brackets are loosened.',
		'Dust: drilling masonry and concrete sets silica free; use extraction or water, and breathing protection.',
		'Power: lock out and test dead before wiring; circuits are for a licensed electrician.',
		'Local codes, the maker’s instructions and licensed practice go before this sheet; it approves nothing. Check every size on site before anything is cut or drilled.'
	];
}

/** The sheet of one opening. */
export function drawingSheet(engine: Engine, opening: OpeningTakeoff, measures: Measures): DrawingSheet {
	const said = (id: 'openingWidth' | 'openingHeight' | 'location'): string =>
		showCell(inputOf(id), opening.cell(id), measures);
	const [width, height] = [said('openingWidth'), said('openingHeight')];
	const hand = opening.get('driveAt');
	const scenes = [
		elevationOf(opening, measures),
		sectionOf(opening, measures),
		sectionOf(opening, measures, { open: false, looking: 'right', part: 'head' })
	];
	return {
		name: opening.openingId ?? opening.mark,
		location: said('location'),
		quantity: quantityText(opening),
		size: width === '' || height === '' ? 'not given' : `${width} × ${height}`,
		curtain: curtainText(engine, opening),
		hand: typeof hand === 'string' ? `drive on the ${hand}` : 'not given',
		seenFrom: opening.get('drawnFrom') === 'farSide' ? 'coil side; the job’s drawing: far side' : 'coil side',
		measures,
		scenes: scenes.filter((scene) => scene !== null),
		checks: printedSeverities.flatMap((severity) =>
			opening.checks
				.filter((check) => check.severity === severity)
				.map(({ text, clears }) => ({ severity, text, clears }))
		),
		notes: opening.checks.filter(({ severity }) => severity === 'note').length,
		work: workCautions(engine, opening, measures)
	};
}
