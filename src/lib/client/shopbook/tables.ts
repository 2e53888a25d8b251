/** The shop book laid out as tables to read: headings with their units, and where every row comes from. */
import type { Source, TableAttribute, TableDefinition } from '../../rulebook/definition.ts';
import { publishedRows, standardTitles } from '../../shopbook/row-titles.ts';
import type { PartCosts, PriceBook, TechnicalBook } from '../../shopbook/schema.ts';
import { anchorKey, technicalConstants, technicalTables } from '../../shopbook/tables.ts';
import { spaced } from '../../takeoff/show.ts';

export interface ReadTable {
	readonly id: string;
	readonly title: string;
	readonly headings: readonly string[];
	readonly rows: readonly {
		readonly key: string;
		readonly title: string;
		readonly values: readonly string[];
		readonly source: Source | null;
	}[];
}

interface TitledRow {
	readonly key: string;
	readonly title: string;
	readonly source: Source;
}

const heading = (title: string, unit: string): string =>
	unit === '1' ? title : `${title}, ${unit.replace('2', '²').replace('4', '⁴')}`;

const headingsOf = (attributes: readonly TableAttribute[]): string[] =>
	attributes.map(({ title, unit }) => heading(title, unit));

/** Attributes that are 1 for yes and 0 for no. */
const conditions: ReadonlySet<string> = new Set([
	'needsTestedReport',
	'cracked',
	'ductile',
	'hasReport',
	'windlocks'
]);

/** One row of a table, keys and conditions as a person reads them. */
const valuesOf = (table: TableDefinition, attributes: readonly TableAttribute[], key: string): string[] => {
	const at = table.keys.indexOf(key);
	return attributes.map(({ id, kind, values }) => {
		const value = values[at] ?? '';
		if (conditions.has(id)) return value === '1' ? 'yes' : 'no';
		return kind === 'key' ? spaced(value) : value;
	});
};

/** Read better in columns of their own, or follow from other tables. */
const laidOutApart: ReadonlySet<string> = new Set([
	'fixings',
	'controls',
	'anchors',
	'anchorStock',
	'springSets'
]);

/** Columns of the table of anchors that say what one is; the others say what it holds by. */
const whatAnchorsAre: ReadonlySet<string> = new Set([
	'kind',
	'diameter',
	'perBox',
	'holesPerBit',
	'hasReport'
]);

function anchorFigures(book: TechnicalBook, table: TableDefinition): ReadTable {
	const attributes = table.attributes.filter(({ id }) => !whatAnchorsAre.has(id));
	return {
		id: 'anchor-figures',
		title: 'What anchors hold by',
		headings: ['Wall', ...headingsOf(attributes)],
		rows: book.fixings.flatMap((fixing) =>
			fixing.anchors.map((anchor) => ({
				key: fixing.key,
				title: anchor.anchor,
				values: [
					spaced(anchor.substrate),
					...valuesOf(table, attributes, anchorKey(fixing.key, anchor.substrate))
				],
				source: fixing.source
			}))
		)
	};
}

/** `standard.concrete.3.75` as `standard, concrete, 3.75 in`; other keys as they are. */
const anchorWords = (key: string): string => {
	const [, fixing, wall, length] = /^(.+)\.([A-Za-z]+)\.(\d+(?:\.\d+)?)$/u.exec(key) ?? [];
	return fixing === undefined || wall === undefined || length === undefined
		? spaced(key)
		: `${fixing}, ${spaced(wall)}, ${length} in`;
};

/** The sizes and weights of the technical book. */
export function technicalPages(book: TechnicalBook): ReadTable[] {
	const rowsOf = new Map<string, readonly TitledRow[]>([
		['curtains', book.curtains],
		['guides', book.guides],
		['barrels', book.barrels],
		['brackets', book.brackets],
		['holePatterns', book.holePatterns],
		['drives', book.drives],
		['lifts', book.lifts],
		['operators', book.operators],
		['hoods', book.hoods],
		['substrates', book.substrates],
		['controls', book.controls],
		['finishes', book.finishes],
		...publishedRows
	]);
	const all = technicalTables(book);
	const tables = all
		.filter(({ id }) => !laidOutApart.has(id))
		.map((table): ReadTable => {
			const rows = rowsOf.get(table.id) ?? [];
			return {
				id: table.id,
				title: table.title,
				headings: headingsOf(table.attributes),
				rows: rows.map((row) => ({
					key: spaced(row.key),
					title: row.title,
					values: valuesOf(table, table.attributes, row.key),
					source: row.source
				}))
			};
		});
	const anchors = all.find(({ id }) => id === 'anchors');
	return [
		...tables,
		{
			id: 'spring-materials',
			title: 'Spring materials',
			headings: ['Strength constant A, ksi·inᵐ', 'Strength exponent m', 'Elastic modulus, ksi'],
			rows: book.springMaterials.map((row) => ({
				key: row.key,
				title: row.title,
				values: [row.strength, row.exponent, row.elasticModulus],
				source: row.source
			}))
		},
		{
			id: 'spring-wires',
			title: 'Spring wire',
			headings: ['Diameter, in', 'Material'],
			rows: book.springWires.map((row) => ({
				key: row.key,
				title: row.title,
				values: [row.diameter, row.material],
				source: row.source
			}))
		},
		{
			id: 'anchors',
			title: 'Anchors by fixing and wall',
			headings: ['Wall', 'Holds as', 'Diameter, in', 'Lengths, in', 'In a box', 'Holes a bit', 'Report'],
			rows: book.fixings.flatMap((fixing) =>
				fixing.anchors.map((anchor) => ({
					key: fixing.key,
					title: anchor.anchor,
					values: [
						spaced(anchor.substrate),
						spaced(anchor.kind),
						anchor.diameter,
						anchor.lengths.join(', '),
						anchor.perBox,
						anchor.holesPerBit,
						anchor.reportNumber === '' ? 'none' : anchor.reportNumber
					],
					source: fixing.source
				}))
			)
		},
		...(anchors ? [anchorFigures(book, anchors)] : []),
		{
			id: 'controls',
			title: 'Controls',
			headings: ['Parts', 'Supplied by', 'Wired by'],
			rows: book.controls.map((control) => ({
				key: control.key,
				title: control.title,
				values: [
					control.parts.map((part) => `${part.quantity} ${part.title}`).join(', '),
					control.suppliedBy === 'nobody' ? 'nobody named' : control.suppliedBy,
					control.wiredBy === '' ? 'nobody named' : control.wiredBy
				],
				source: control.source
			}))
		},
		{
			id: 'tasks',
			title: 'Tasks',
			headings: ['Trade', 'Crew', 'Crew-minutes', 'From a lift'],
			rows: book.tasks.map((task) => ({
				key: task.key,
				title: task.title,
				values: [task.trade, task.crew, task.crewMinutes, task.lift ? 'where high' : 'no'],
				source: task.source
			}))
		},
		{
			id: 'consumables',
			title: 'Used up',
			headings: ['Unit', 'Quantity for one opening'],
			rows: book.consumables.map((item) => ({
				key: item.key,
				title: item.title,
				values: [item.unit, item.quantity],
				source: item.source
			}))
		},
		{
			id: 'standards',
			title: 'Editions the rules follow',
			headings: ['Edition'],
			rows: Object.entries(standardTitles).map(([id, title]) => ({
				key: id,
				title,
				values: [book.standards[id as keyof typeof standardTitles]],
				source: { basis: 'shop', text: 'The shop book says which edition is followed.' }
			}))
		},
		{
			id: 'constants',
			title: 'Limits and rates of the shop',
			headings: ['Value', 'Unit'],
			rows: technicalConstants(book).map((constant) => ({
				key: constant.id,
				title: constant.title,
				values: [constant.value, constant.unit === '1' ? '' : constant.unit],
				source: constant.source
			}))
		}
	];
}

/** What parts cost. */
export function costPages(prices: PartCosts): ReadTable[] {
	const perFoot = `${prices.currency} a ft`;
	const each = `${prices.currency} each`;
	const simple: readonly [
		string,
		string,
		string,
		readonly { key: string; cost: string; source: Source }[]
	][] = [
		['guides', 'Guides', perFoot, prices.guides],
		['barrels', 'Barrels', perFoot, prices.barrels],
		['brackets', 'Brackets with wall plates', `${prices.currency} a pair`, prices.brackets],
		['drives', 'Drives', each, prices.drives],
		['operators', 'Operators', each, prices.operators],
		['anchors', 'Anchors', each, prices.anchors],
		['controls', 'Controls', `${prices.currency} a set`, prices.controls],
		['consumables', 'Used up', `${prices.currency} a unit`, prices.consumables]
	];
	return [
		{
			id: 'price-curtains',
			title: 'Curtains',
			headings: [`${prices.currency} a ft²`, `Bottom bar, ${prices.currency} a ft`],
			rows: prices.curtains.map((row) => ({
				key: row.key,
				title: '',
				values: [row.cost, row.bar],
				source: row.source
			}))
		},
		{
			id: 'price-hoods',
			title: 'Hoods',
			headings: [`${prices.currency} a ft²`, `Support, ${each}`, `End cap, ${each}`],
			rows: prices.hoods.map((row) => ({
				key: row.key,
				title: '',
				values: [row.cost, row.support, row.endCap],
				source: row.source
			}))
		},
		...simple.map(([id, title, unit, rows]): ReadTable => ({
			id: `price-${id}`,
			title,
			headings: [unit],
			rows: rows.map((row) => ({
				key: anchorWords(row.key),
				title: '',
				values: [row.cost],
				source: row.source
			}))
		})),
		{
			id: 'price-springs',
			title: 'Springs',
			headings: [`${prices.currency} a lb`],
			rows: [
				{
					key: 'springs',
					title: '',
					values: [prices.springPound],
					source: { basis: prices.invented ? 'invented' : 'shop', text: prices.title }
				}
			]
		}
	];
}

/** The price book: what parts cost, labour, and the shop’s own shares. */
export function pricePages(prices: PriceBook): ReadTable[] {
	const percent = (share: string): string => `${Number((Number(share) * 100).toFixed(4))} %`;
	const shares: readonly [string, string, string][] = [
		['liftDay', 'Scissor lift, a day', `${prices.liftDay} ${prices.currency}`],
		[
			'mobilisation',
			'Mobilisation, a visit (not in the price yet)',
			`${prices.mobilisation} ${prices.currency}`
		],
		['tax', 'Tax, on material', percent(prices.tax)],
		['freight', 'Freight, on material', percent(prices.freight)],
		['contingency', 'Contingency, on direct cost', percent(prices.contingency)],
		['overhead', 'Overhead, on direct cost and contingency', percent(prices.overhead)],
		[
			'profit',
			prices.profitBasis === 'marginOfPrice' ? 'Profit, as margin of the price' : 'Profit, on cost',
			percent(prices.profit)
		],
		['bond', 'Bond, on the price', percent(prices.bond)],
		['roundingStep', 'Price rounded to', `${prices.roundingStep} ${prices.currency}`]
	];
	return [
		...costPages(prices),
		{
			id: 'price-rates',
			title: 'Labour rates',
			headings: [`${prices.currency} an hour`, 'Burden'],
			rows: prices.rates.map((rate) => ({
				key: rate.trade,
				title: '',
				values: [rate.base, percent(rate.burden)],
				source: rate.source
			}))
		},
		{
			id: 'price-shares',
			title: 'Equipment and the shop’s own shares',
			headings: ['Value'],
			rows: shares.map(([key, title, value]) => ({ key, title, values: [value], source: null }))
		}
	];
}
