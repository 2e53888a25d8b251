/** A quantity of an opening as it is shown: what it is, how much, and that it is not known. */
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { springSetKey } from '../../shopbook/tables.ts';
import { anchorSize, anchorStockOf } from '../../takeoff/anchors.ts';
import type { Engine } from '../../takeoff/engine.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { showKey, showQuantity } from '../../takeoff/show.ts';
import type { Read } from '../../drawing/readings.ts';

const notKnown = 'not known';

/** Where nothing of the shop book does, or an equation gives no limit to divide by, that is known. */
function missing(id: string, read: Read): string {
	if (id === 'liftingIndex' && read('handLiftLimit') === 0) return 'does not apply';
	return id === 'springSet' || id === 'lift' || id.startsWith('anchorStock') ? 'none fits' : notKnown;
}

export interface Figure {
	/** Quantity whose working it opens. */
	readonly id: string;
	readonly title: string;
	readonly text: string;
	readonly known: boolean;
}

/** Of what an anchor gives way by nothing is known while its use is not. */
export const unknownMode = (mode: Figure): Figure => ({ ...mode, text: notKnown, known: false });

/** Says the quantities of one opening. */
export function figures(engine: Engine, measures: Measures, read: Read): (id: string) => Figure {
	return (id) => {
		const definition = engine.rules.definition(id);
		const value = read(id);
		const title = definition?.title ?? id;
		if (value === null || !definition) return { id, title, text: missing(id, read), known: false };
		const text =
			typeof value === 'string'
				? keyWords(engine.book, id, value)
				: showQuantity(value, definition, measures);
		return { id, title, text, known: true };
	};
}

const titleIn = (rows: readonly { readonly key: string; readonly title: string }[], key: string): string =>
	rows.find((row) => row.key === key)?.title ?? key;

/** What is chosen, by the name it is bought under. */
function keyWords(book: TechnicalBook, id: string, key: string): string {
	if (id.startsWith('anchorStock')) {
		const stock = anchorStockOf(book, key);
		return stock ? `${stock.anchor.anchor} ${anchorSize(stock)}` : key;
	}
	switch (id) {
		case 'springSet':
			return springWords(book, key);
		case 'lift':
			return titleIn(book.lifts, key);
		case 'holePattern':
			return titleIn(book.holePatterns, key);
		case 'drive':
			return titleIn(book.drives, key);
		case 'conductor':
			return `${key} AWG copper`;
		case 'breaker':
			return `${key} A`;
		case 'motorSize':
			return `${key} hp`;
		default:
			return showKey(book, id, key);
	}
}

/** `oil-0.25.2` → `2 × Oil-tempered wire 0.25 in`. */
function springWords(book: TechnicalBook, key: string): string {
	for (const wire of book.springWires)
		for (let count = 1; count <= Number(book.constants.mostSprings); count++)
			if (springSetKey(wire.key, count) === key) return `${count} × ${wire.title}`;
	return key;
}
