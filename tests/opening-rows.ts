/** Rows of openings as a person would type them, for tests. */
import { demoPriceBook, demoTechnicalBook } from '../src/lib/shopbook/demo/demo-book.ts';
import { buildPricing, type Pricing } from '../src/lib/price/price.ts';
import { readCell } from '../src/lib/takeoff/cell.ts';
import { buildEngine, type Engine } from '../src/lib/takeoff/engine.ts';
import {
	inputOf,
	type Cell,
	type InputId,
	type Measures,
	type OpeningRow
} from '../src/lib/takeoff/inputs.ts';
import { keysFor } from '../src/lib/takeoff/keys.ts';
import type { TechnicalBook } from '../src/lib/shopbook/schema.ts';

export type Typed = Partial<Record<InputId, string>>;

/** Reads typed cells into a row; an unreadable one fails the test. */
export function typedRow(
	typed: Typed,
	measures: Measures = 'imperial',
	book = demoTechnicalBook
): OpeningRow {
	const cells: Partial<Record<InputId, Cell>> = {};
	for (const [id, text] of Object.entries(typed) as [InputId, string][]) {
		const input = inputOf(id);
		const read = readCell(input, text, { measures, keys: keysFor(book, input) });
		if (!read.ok) throw new Error(`${id} “${text}”: ${read.reason}`);
		cells[id] = read.cell;
	}
	return { id: `row-${typed.mark ?? ''}-${typed.openingNumber ?? ''}`, cells };
}

export function engineOf(book: TechnicalBook = demoTechnicalBook): Engine {
	const built = buildEngine(book);
	if (!built.ok) throw new Error(built.problems.map(({ rule, problem }) => `${rule}: ${problem}`).join('\n'));
	return built.engine;
}

export function pricingOf(engine: Engine): Pricing {
	const built = buildPricing(engine, demoPriceBook);
	if (!built.ok) throw new Error(built.problems.map(({ rule, problem }) => `${rule}: ${problem}`).join('\n'));
	return built.pricing;
}

const common: Typed = {
	quantity: '1',
	mounting: 'faceOfWall',
	hood: 'steel-24ga',
	fixing: 'standard',
	operation: 'tubeMotor',
	driveSide: 'left'
};

/** The three openings of the demo book that are worked by hand. */
export const openingA: Typed = {
	...common,
	mark: 'A',
	openingWidth: `10'-0"`,
	openingHeight: `4'-0"`,
	curtain: 'counter-slat',
	guide: 'counter-face',
	leftSubstrate: 'groutedBlock',
	rightSubstrate: 'groutedBlock',
	headSubstrate: 'groutedBlock',
	sill: 'counter',
	sillHeight: `36"`
};
export const openingB: Typed = {
	...common,
	mark: 'B',
	openingWidth: `16'-0"`,
	openingHeight: `9'-0"`,
	curtain: 'heavy-grille',
	guide: 'store-face',
	leftSubstrate: 'concrete',
	rightSubstrate: 'studWithBacking',
	headSubstrate: 'concrete',
	sill: 'floor'
};
export const openingC: Typed = {
	...common,
	mark: 'C',
	openingWidth: `24'-0"`,
	openingHeight: `10'-0"`,
	curtain: 'light-grille',
	guide: 'store-face',
	leftSubstrate: 'structuralSteel',
	rightSubstrate: 'structuralSteel',
	headSubstrate: 'structuralSteel',
	sill: 'floor'
};
