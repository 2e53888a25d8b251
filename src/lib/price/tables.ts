/** The price book as the rule book sees it. */
import type { ConstantDefinition, ScopeDefinition, Source, TableDefinition } from '../rulebook/definition.ts';
import type { PriceBook, TechnicalBook } from '../shopbook/schema.ts';
import { anchorKey, none, stockKey } from '../shopbook/tables.ts';
import { consumableConstants } from './material.ts';

type Priced = readonly { readonly key: string }[];

/** One price table: a row for every key the technical book knows, so that a missing price is found when the books meet. */
function table(
	id: string,
	title: string,
	keys: readonly string[],
	rows: Priced,
	columns: readonly (readonly [id: string, title: string, unit: string])[]
): { table: TableDefinition; missing: string[] } {
	const byKey = new Map(rows.map((row) => [row.key, row as unknown as Readonly<Record<string, string>>]));
	return {
		table: {
			id,
			title,
			keys,
			attributes: columns.map(([attribute, heading, unit]) => ({
				id: attribute,
				title: heading,
				unit,
				kind: 'number' as const,
				values: keys.map((key) => byKey.get(key)?.[attribute] ?? '0')
			}))
		},
		missing: keys.filter((key) => key !== none && !byKey.has(key)).map((key) => `${title}: ${key}`)
	};
}

const keysOf = (rows: Priced): string[] => rows.map((row) => row.key);
const withNone = (keys: readonly string[]): string[] => (keys.includes(none) ? [...keys] : [...keys, none]);

/**
 * Price tables stand under the vocabulary names of the technical book (`curtains`, `guides` …), so that the same keys
 * pick their rows.
 */
export function priceTables(
	book: TechnicalBook,
	prices: PriceBook
): { tables: TableDefinition[]; missing: string[] } {
	const cost = (unit: string) => ['cost', 'Price', unit] as const;
	const anchors = book.fixings.flatMap((fixing) =>
		fixing.anchors.flatMap(({ substrate, lengths }) =>
			lengths.map((length) => stockKey(anchorKey(fixing.key, substrate), length))
		)
	);
	const parts = [
		table('curtains', 'Curtain prices', keysOf(book.curtains), prices.curtains, [
			cost('money/ft2'),
			['bar', 'Bottom bar', 'money/ft']
		]),
		table('guides', 'Guide prices', keysOf(book.guides), prices.guides, [cost('money/ft')]),
		table('barrels', 'Barrel prices', keysOf(book.barrels), prices.barrels, [cost('money/ft')]),
		table('brackets', 'Bracket prices, a pair', keysOf(book.brackets), prices.brackets, [cost('money')]),
		table('drives', 'Drive prices', withNone(keysOf(book.drives)), prices.drives, [cost('money')]),
		table('operators', 'Operator prices', keysOf(book.operators), prices.operators, [cost('money')]),
		table('hoods', 'Hood prices', withNone(keysOf(book.hoods)), prices.hoods, [
			cost('money/ft2'),
			['support', 'Support', 'money'],
			['endCap', 'End cap', 'money']
		]),
		table('anchorStock', 'Anchor prices', anchors, prices.anchors, [cost('money')]),
		table('controls', 'Control prices', keysOf(book.controls), prices.controls, [cost('money')])
	];
	return { tables: parts.map((part) => part.table), missing: parts.flatMap((part) => part.missing) };
}

export const priceScopes: readonly ScopeDefinition[] = [
	{ name: 'curtainPrice', table: 'curtains', key: 'curtain' },
	{ name: 'guideLeftPrice', table: 'guides', key: 'guideLeft' },
	{ name: 'guideRightPrice', table: 'guides', key: 'guideRight' },
	{ name: 'barrelPrice', table: 'barrels', key: 'barrel' },
	{ name: 'bracketPrice', table: 'brackets', key: 'bracket' },
	{ name: 'drivePrice', table: 'drives', key: 'drive' },
	{ name: 'operatorPrice', table: 'operators', key: 'operation' },
	{ name: 'hoodPrice', table: 'hoods', key: 'hood' },
	{ name: 'anchorLeftPrice', table: 'anchorStock', key: 'anchorStockLeft' },
	{ name: 'anchorRightPrice', table: 'anchorStock', key: 'anchorStockRight' },
	{ name: 'anchorHeadPrice', table: 'anchorStock', key: 'anchorStockHead' },
	{ name: 'controlPrice', table: 'controls', key: 'controls' }
];

export function priceConstants(
	book: TechnicalBook,
	prices: PriceBook
): { constants: ConstantDefinition[]; missing: string[] } {
	const source: Source = { basis: prices.invented ? 'invented' : 'shop', text: prices.title };
	const constant = (id: string, title: string, unit: string, value: string): ConstantDefinition => ({
		id,
		title,
		unit,
		value,
		source
	});
	const missing: string[] = [];
	const consumables = book.consumables.flatMap(({ key, title, waste, unit }) => {
		const price = prices.consumables.find((row) => row.key === key);
		if (!price) missing.push(`Consumable prices: ${key}`);
		const ids = consumableConstants(key);
		return [
			constant(ids.cost, `${title}, price a ${unit}`, 'money', price?.cost ?? '0'),
			constant(ids.waste, `${title}, waste`, '1', waste)
		];
	});
	return {
		missing,
		constants: [
			constant('wasteCurtain', 'Waste, shop-made curtain', '1', book.constants.wasteCurtain),
			constant('wasteSheet', 'Waste, sheet', '1', book.constants.wasteSheet),
			constant('wasteAnchors', 'Waste, anchors', '1', book.constants.wasteAnchors),
			...consumables,
			...prices.rates.flatMap(({ trade, base, burden }) => [
				constant(`${trade}Rate`, `Base rate, ${trade}`, 'money/h', base),
				constant(`${trade}Burden`, `Burden, ${trade}`, '1', burden)
			]),
			constant('springPound', 'Springs, a pound', 'money/lb', prices.springPound),
			constant('liftDay', 'Lift, a day', 'money/day', prices.liftDay),
			constant('tax', 'Tax', '1', prices.tax),
			constant('freight', 'Freight', '1', prices.freight),
			constant('contingency', 'Contingency', '1', prices.contingency),
			constant('overhead', 'Overhead', '1', prices.overhead),
			constant('profit', 'Profit', '1', prices.profit),
			constant('bond', 'Bond', '1', prices.bond),
			constant('roundingStep', 'Rounding step', 'money', prices.roundingStep)
		]
	};
}
