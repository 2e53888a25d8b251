/** What the editions, and the rows of published tables that every shop book shares, are called. */
import type { Source } from '../rulebook/definition.ts';
import { conductors, motorCurrents, standardBreakers } from './published-tables.ts';
import type { TechnicalBook } from './schema.ts';

/** What each edition is followed for. */
export const standardTitles: Readonly<Record<keyof TechnicalBook['standards'], string>> = {
	wood: 'Lag screws in wood',
	concrete: 'Anchors in concrete',
	masonry: 'Anchors in grouted masonry',
	screws: 'Screws in thin steel',
	bolts: 'Bolts through steel',
	wind: 'Pressure of the wind',
	electrical: 'Circuit of a motor',
	lifting: 'Lifting by hand'
};

interface TitledRow {
	readonly key: string;
	readonly title: string;
	readonly source: Source;
}

const titled = (
	rows: readonly { readonly key: string; readonly source: string }[],
	title: (key: string) => string
): TitledRow[] =>
	rows.map(({ key, source }) => ({
		key,
		title: title(key),
		source: { basis: source.includes('from memory') ? 'fromMemory' : 'published', text: source }
	}));

/** By the id of the table. */
export const publishedRows: ReadonlyMap<string, readonly TitledRow[]> = new Map([
	['motorCurrents', titled(motorCurrents, (key) => `Motor of ${key} hp, single-phase`)],
	['conductors', titled(conductors, (key) => `Copper, AWG ${key}`)],
	['breakers', titled(standardBreakers, (key) => `Breaker of ${key} A`)]
]);
