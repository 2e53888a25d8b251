/**
 * The Shop book sheet: every table and constant the formulas look things up in, each with its units and its source.
 * It stands in the book's own units, so that no figure is changed by being shown.
 */
import type { CellValue, Style, Workbook, Worksheet } from 'exceljs';
import { priceConstants, priceTables } from '../../price/tables.ts';
import type { ConstantDefinition, Source, TableDefinition } from '../../rulebook/definition.ts';
import type { PriceBook, TechnicalBook } from '../../shopbook/schema.ts';
import { publishedRows, standardTitles } from '../../shopbook/row-titles.ts';
import {
	anchorKey,
	none,
	springSetKey,
	stockKey,
	technicalConstants,
	technicalTables,
	vocabularies
} from '../../shopbook/tables.ts';
import { failureModes, failureModeWords } from '../../shopbook/words.ts';
import { anchorSize } from '../../takeoff/anchors.ts';
import { columnLetter } from '../sheet.ts';
import { headingOf, look, moneyFormat } from './look.ts';
import { fitHeight, openSheet, put, setColumns, writeTitle, type Printing } from './sheet-writing.ts';

interface Entry {
	readonly title: string;
	readonly source: string;
	/** Text columns after the figures. */
	readonly more: readonly string[];
}

interface BookColumn {
	readonly heading: string;
	readonly style: Partial<Style>;
	/** One a row. */
	readonly values: readonly CellValue[];
}

interface Block {
	readonly id: string;
	readonly title: string;
	/** Row of the title; headings follow, then the rows. */
	readonly top: number;
	readonly keys: readonly string[];
	readonly entries: readonly Entry[];
	readonly columns: readonly BookColumn[];
	/** Ids of the columns that formulas look up, in the order of the first ones. */
	readonly attributes: readonly string[];
}

/** Where the values of the book stand. */
export interface ShopBookPlan {
	readonly blocks: readonly Block[];
	/** Cells with the keys of a table or vocabulary: `'Shop book'!$A$10:$A$13`. */
	keys(vocabulary: string): string;
	/** Cells of one attribute, in the order of the keys. */
	values(table: string, attribute: string): string;
	/** The same in the price tables, which go by the same ids. */
	priceKeys(table: string): string;
	prices(table: string, attribute: string): string;
	/** Names of the constants and their cells. */
	readonly constants: ReadonlyMap<string, string>;
	readonly lastRow: number;
}

const sheetName = 'Shop book';

/** Words that stand in one row; what gives way has a table of its own. */
const words = vocabularies.filter(({ id }) => id !== 'failureModes');
/** Key, what it is, where it comes from; then the figures. */
const figuresFrom = 3;

const basisWords: Readonly<Record<Source['basis'], string>> = {
	published: 'Published',
	commonPractice: 'Common practice',
	fromMemory: 'From memory',
	shop: 'Shop',
	invented: 'Invented',
	definition: 'Definition'
};

/** A source in one line, with how sure it is where the words don't say so. */
export function sourceText({ basis, text }: Source): string {
	const word = basisWords[basis];
	return text.toLowerCase().startsWith(word.toLowerCase()) ? text : `${word}: ${text}`;
}

type Titled = readonly { readonly key: string; readonly title: string; readonly source: Source }[];

const entry = (
	row: { readonly title: string; readonly source: Source },
	more: readonly string[] = []
): Entry => ({
	title: row.title,
	source: sourceText(row.source),
	more
});

/** Titles and sources of the rows of every technical table, and what it has to say besides figures. */
function technicalEntries(
	book: TechnicalBook
): Map<string, { entries: Map<string, Entry>; more: readonly string[] }> {
	const plain = (rows: Titled) => ({ entries: new Map(rows.map((row) => [row.key, entry(row)])), more: [] });
	const anchors = book.fixings.flatMap((fixing) =>
		fixing.anchors.map((anchor) => ({ fixing, anchor, key: anchorKey(fixing.key, anchor.substrate) }))
	);
	const reported = anchors.map(
		({ key, fixing, anchor }) =>
			[
				key,
				entry({ title: anchor.anchor, source: fixing.source }, [
					anchor.reportNumber === '' ? 'none named' : anchor.reportNumber
				])
			] as const
	);
	const stock = anchors.flatMap(({ key, fixing, anchor }) =>
		anchor.lengths.map((length) => {
			const inLength = { key: stockKey(key, length), anchor, length };
			return [
				inLength.key,
				entry({ title: `${anchor.anchor} ${anchorSize(inLength)}`, source: fixing.source })
			] as const;
		})
	);
	const materials = new Map(book.springMaterials.map((material) => [material.key, material]));
	const springs = Array.from({ length: Number(book.constants.mostSprings) }, (_, i) => i + 1).flatMap(
		(count) =>
			book.springWires.map((wire) => {
				const material = materials.get(wire.material);
				const title = count === 1 ? wire.title : `${String(count)} springs of ${wire.title}`;
				const of = material ? `${material.title}. ${sourceText(material.source)}` : '';
				return [springSetKey(wire.key, count), entry({ title, source: wire.source }, [of])] as const;
			})
	);
	const controls = book.controls.map(
		(control) =>
			[
				control.key,
				entry(control, [
					control.parts.map(({ title, quantity }) => `${quantity} ${title}`).join(', '),
					control.suppliedBy,
					control.wiredBy
				])
			] as const
	);
	return new Map([
		...(
			[
				'curtains',
				'guides',
				'barrels',
				'brackets',
				'holePatterns',
				'drives',
				'lifts',
				'operators',
				'hoods',
				'substrates',
				'fixings',
				'finishes'
			] as const
		).map((id) => [id, plain(book[id])] as const),
		...[...publishedRows].map(([id, rows]) => [id, plain(rows)] as const),
		['springSets', { entries: new Map(springs), more: ['Material'] }],
		['anchors', { entries: new Map(reported), more: ['Tested report'] }],
		['anchorStock', { entries: new Map(stock), more: [] }],
		['controls', { entries: new Map(controls), more: ['Parts', 'Supplied by', 'Wired by'] }]
	]);
}

const pricedTables = [
	'curtains',
	'guides',
	'barrels',
	'brackets',
	'drives',
	'operators',
	'hoods',
	'controls'
] as const;

/** Sources of the prices in one table; what is priced has its title from the technical book. */
function priceEntries(
	prices: PriceBook,
	table: string,
	titles: ReadonlyMap<string, Entry> | undefined
): Map<string, Entry> {
	const id = table === 'anchorStock' ? 'anchors' : pricedTables.find((name) => name === table);
	const rows: readonly { readonly key: string; readonly source: Source }[] = id ? prices[id] : [];
	return new Map(
		rows.map(({ key, source }) => [key, entry({ title: titles?.get(key)?.title ?? key, source })])
	);
}

function tableColumns(table: TableDefinition, currency: string): BookColumn[] {
	return table.attributes.map(({ title, unit, kind, values }) => ({
		heading: headingOf(title, unit, currency),
		style: look(
			'typed',
			kind === 'key' ? { align: 'left' } : unit.startsWith('money') ? moneyFormat : { align: 'right' }
		),
		values: values.map((value) => (kind === 'key' ? value : Number(value)))
	}));
}

const textColumn = (heading: string, values: readonly string[]): BookColumn => ({
	heading,
	style: look('typed', { wrap: true, align: 'left' }),
	values
});

export function planShopBook(book: TechnicalBook, prices: PriceBook | null): ShopBookPlan {
	const blocks: Block[] = [];
	let row = 4;
	const add = (block: Omit<Block, 'top'>): void => {
		blocks.push({ ...block, top: row });
		row += block.keys.length + 3;
	};
	const bookSource: Source = { basis: book.invented ? 'invented' : 'shop', text: book.title };
	const addTable = (
		id: string,
		table: TableDefinition,
		entries: ReadonlyMap<string, Entry>,
		more: readonly string[],
		source: Source,
		currency: string
	): void => {
		const found = table.keys.map(
			(key) =>
				entries.get(key) ??
				entry(
					{ title: key === none ? 'None' : key, source },
					more.map(() => '')
				)
		);
		add({
			id,
			title: table.title,
			keys: table.keys,
			entries: found,
			attributes: table.attributes.map((attribute) => attribute.id),
			columns: [
				...tableColumns(table, currency),
				...more.map((heading, i) =>
					textColumn(
						heading,
						found.map((each) => each.more[i] ?? '')
					)
				)
			]
		});
	};
	const addConstants = (
		id: string,
		title: string,
		constants: readonly ConstantDefinition[],
		currency: string
	): void => {
		add({
			id,
			title,
			keys: constants.map((constant) => `shop.${constant.id}`),
			entries: constants.map((constant) => entry(constant)),
			attributes: ['value'],
			columns: [
				{
					heading: 'Value',
					style: look('typed', { align: 'right' }),
					values: constants.map(({ value }) => Number(value))
				},
				textColumn(
					'Unit',
					constants.map(({ unit }) => headingOf('', unit, currency).replace(/^ \(|\)$/gu, ''))
				)
			]
		});
	};

	const technical = technicalEntries(book);
	for (const table of technicalTables(book)) {
		const known = technical.get(table.id);
		addTable(table.id, table, known?.entries ?? new Map<string, Entry>(), known?.more ?? [], bookSource, '');
	}
	add({
		id: 'words',
		title: 'Words for keys',
		keys: words.map(({ id }) => id),
		entries: words.map(() => ({ title: 'Words a cell may have', source: '', more: [] })),
		attributes: [],
		columns: Array.from({ length: Math.max(...words.map(({ keys }) => keys.length)) }, (_, i) =>
			textColumn(
				i === 0 ? 'Words' : '',
				words.map(({ keys }) => keys[i] ?? '')
			)
		)
	});
	add({
		id: 'failureModes',
		title: 'What gives way, as the word stands in Takeoff',
		keys: failureModes,
		entries: Object.values(failureModeWords).map((title) => ({ title, source: '', more: [] })),
		attributes: [],
		columns: []
	});
	add({
		id: 'standards',
		title: 'Editions the formulas follow',
		keys: Object.values(standardTitles),
		entries: Object.keys(standardTitles).map((id) => ({
			title: book.standards[id as keyof typeof standardTitles],
			source: sourceText(bookSource),
			more: []
		})),
		attributes: [],
		columns: []
	});
	add({
		id: 'tasks',
		title: 'Tasks',
		keys: book.tasks.map(({ key }) => key),
		entries: book.tasks.map((task) => entry(task)),
		attributes: [],
		columns: [
			textColumn(
				'Trade',
				book.tasks.map(({ trade }) => trade)
			),
			textColumn(
				'From a lift',
				book.tasks.map(({ lift }) => (lift ? 'yes' : 'no'))
			),
			textColumn(
				'Crew',
				book.tasks.map(({ crew }) => crew)
			),
			textColumn(
				'Crew-minutes',
				book.tasks.map(({ crewMinutes }) => crewMinutes)
			)
		]
	});
	add({
		id: 'consumables',
		title: 'Consumables',
		keys: book.consumables.map(({ key }) => key),
		entries: book.consumables.map((item) => entry(item)),
		attributes: ['waste'],
		columns: [
			{
				heading: 'Waste, share',
				style: look('typed', { align: 'right' }),
				values: book.consumables.map(({ waste }) => Number(waste))
			},
			textColumn(
				'Unit',
				book.consumables.map(({ unit }) => unit)
			),
			textColumn(
				'Quantity for one opening',
				book.consumables.map(({ quantity }) => quantity)
			)
		]
	});
	const constants = technicalConstants(book);
	addConstants('constants', 'Limits and shares', constants, '');
	if (prices) {
		const priceSource: Source = { basis: prices.invented ? 'invented' : 'shop', text: prices.title };
		for (const table of priceTables(book, prices).tables)
			addTable(
				`price ${table.id}`,
				table,
				priceEntries(prices, table.id, technical.get(table.id)?.entries),
				[],
				priceSource,
				prices.currency
			);
		const known = new Set(constants.map(({ id }) => id));
		addConstants(
			'price constants',
			'Rates, shares and prices without a table',
			priceConstants(book, prices).constants.filter(({ id }) => !known.has(id)),
			prices.currency
		);
	}

	const byId = new Map(blocks.map((block) => [block.id, block]));
	const range = (id: string, column: number): string => {
		const block = byId.get(id);
		if (!block) throw new Error(`the Shop book sheet has no table ${id}`);
		const letter = columnLetter(column);
		const first = block.top + 2;
		return `'${sheetName}'!$${letter}$${String(first)}:$${letter}$${String(first + block.keys.length - 1)}`;
	};
	const attributeColumn = (id: string, attribute: string): number => {
		const at = byId.get(id)?.attributes.indexOf(attribute) ?? -1;
		if (at < 0) throw new Error(`the Shop book sheet has no ${attribute} in ${id}`);
		return figuresFrom + at;
	};
	return {
		blocks,
		keys(vocabulary) {
			const block = byId.get('words');
			const at = block?.keys.indexOf(vocabulary) ?? -1;
			if (!block || at < 0) return range(vocabulary, 0);
			const count = vocabularies.find(({ id }) => id === vocabulary)?.keys.length ?? 1;
			const place = String(block.top + 2 + at);
			return `'${sheetName}'!$${columnLetter(figuresFrom)}$${place}:$${columnLetter(figuresFrom + count - 1)}$${place}`;
		},
		values: (table, attribute) => range(table, attributeColumn(table, attribute)),
		priceKeys: (table) => range(`price ${table}`, 0),
		prices: (table, attribute) => range(`price ${table}`, attributeColumn(`price ${table}`, attribute)),
		constants: new Map(
			blocks
				.filter(({ id }) => id.endsWith('constants'))
				.flatMap(({ keys, top }) =>
					keys.map(
						(key, i) => [key, `'${sheetName}'!$${columnLetter(figuresFrom)}$${String(top + 2 + i)}`] as const
					)
				)
		),
		lastRow: row - 2
	};
}

const widths = { key: 21, title: 25, source: 25, figure: 10.5 };

export function writeShopBook(
	workbook: Workbook,
	plan: ShopBookPlan,
	book: TechnicalBook,
	prices: PriceBook | null,
	printing: Printing
): void {
	const figures = Math.max(...plan.blocks.map(({ columns }) => columns.length));
	const columns = figuresFrom + figures;
	const text = {
		name: sheetName,
		title: `Shop book: ${prices ? `${book.title}; ${prices.title}` : book.title}`,
		lead: 'What the formulas look up. A figure changed here changes everything that is worked out from it, in this file only.'
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		columns,
		width: widths.key + widths.title + widths.source + figures * widths.figure,
		headingsFrom: 1,
		frozenColumns: 1,
		frozenRows: 3,
		lastRow: plan.lastRow
	});
	setColumns(sheet, [
		{ width: widths.key },
		{ width: widths.title },
		{ width: widths.source },
		...Array.from({ length: figures }, () => ({ width: widths.figure }))
	]);
	writeTitle(sheet, text);
	if (book.invented || prices?.invented === true)
		put(
			sheet,
			3,
			1,
			'Invented figures, for demonstration only: never to order or to build by.',
			look('warning')
		);
	for (const block of plan.blocks) {
		put(sheet, block.top, 1, block.title, look('band'));
		for (let column = 2; column <= figuresFrom + block.columns.length; column++)
			put(sheet, block.top, column, null, look('band'));
		const headings = ['Key', 'What it is', 'Source', ...block.columns.map((column) => column.heading)];
		headings.forEach((title, i) => {
			const align = block.columns[i - figuresFrom]?.style.alignment?.horizontal;
			put(
				sheet,
				block.top + 1,
				i + 1,
				title,
				look('heading', { wrap: true, ...(align === 'right' || align === 'left' ? { align } : {}) })
			);
		});
		fitHeight(
			sheet.getRow(block.top + 1),
			headings.map((title, i) => [title, i < figuresFrom ? widths.title : widths.figure - 1.5])
		);
		block.keys.forEach((key, i) => writeBookRow(sheet, block, key, i));
	}
	sheet.commit();
}

function writeBookRow(sheet: Worksheet, block: Block, key: string, i: number): void {
	const row = block.top + 2 + i;
	const { title = '', source = '' } = block.entries[i] ?? {};
	const wrapped = look('text', { wrap: true });
	[key, title, source].forEach((value, column) => put(sheet, row, column + 1, value, wrapped));
	block.columns.forEach(({ values, style }, c) => {
		const value = values[i] ?? null;
		// The last text of a row may run on to the right.
		const runsOn = typeof value === 'string' && c === block.columns.length - 1;
		put(sheet, row, figuresFrom + 1 + c, value, runsOn ? look('typed', { align: 'left' }) : style);
	});
	fitHeight(sheet.getRow(row), [
		[title, widths.title],
		[source, widths.source],
		...block.columns.slice(0, -1).map(({ values }): [string, number] => {
			const value = values[i];
			return [typeof value === 'string' ? value : '', widths.figure - 1.5];
		})
	]);
}
