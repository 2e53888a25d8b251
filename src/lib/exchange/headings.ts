/** Finds the heading row of a table and says which column is what, with the reason. */
import { columnLetter, oneLine, shown, textOf, type Sheet, type SheetRow } from './sheet.ts';

/** What a column may be, and the words people write over it. */
export interface HeadingField<F extends string> {
	readonly field: F;
	/** Usual names. Words in any order; capitals, dots and small words do not matter. */
	readonly names: readonly string[];
	/** Names that mean this only where nothing, or nothing telling, stands over several columns above. */
	readonly alone?: readonly string[];
	/** Names that also mean other things: taken only if the column's cells agree. */
	readonly perhaps?: readonly string[];
	/** Whether a cell could be this. Without it any text could. */
	readonly fits?: (text: string) => boolean;
}

export interface ColumnReading<F extends string> {
	/** From 0. */
	readonly index: number;
	/** `A`, `B` … */
	readonly letter: string;
	readonly heading: string;
	readonly field: F | null;
	/** Unit in the heading, such as `mm`, for figures without one. */
	readonly unit: string | null;
	/** Why this field, or why none. */
	readonly how: string;
}

export interface HeadingRow<F extends string> {
	readonly sheet: Sheet;
	/** Position in `sheet.rows`. */
	readonly position: number;
	readonly columns: readonly ColumnReading<F>[];
	/** Fields recognised. */
	readonly found: number;
}

/** One word for every way of writing it. */
const sameWord: ReadonlyMap<string, string> = new Map(
	Object.entries({
		width: 'w wd wdth wide',
		height: 'h ht hgt hght high',
		left: 'l lh lhs',
		right: 'r rh rhs',
		opening: 'op opg opng opn',
		number: 'no num nr nos numbers',
		quantity: 'qty qnty quant qtys quantities',
		mounting: 'mount mounted mtg mtd mntg',
		guide: 'guides gd track tracks',
		finish: 'fin finishes',
		design: 'des',
		drawing: 'dwg drg drawings',
		distance: 'dist',
		pressure: 'press',
		operation: 'operated operator',
		remark: 'remarks rmks rem',
		note: 'notes',
		comment: 'comments',
		mark: 'marks mk',
		room: 'rm rooms',
		fixing: 'fixings',
		control: 'controls',
		curtain: 'curtains',
		hood: 'hoods',
		wall: 'walls',
		description: 'desc descr',
		length: 'lg len',
		thickness: 'thk thick',
		windlock: 'windlocks',
		size: 'sizes',
		rough: 'ro',
		shipped: 'ship shpd',
		ordered: 'ord',
		reference: 'ref',
		elevation: 'elev el',
		interior: 'int',
		exterior: 'ext'
	}).flatMap(([word, others]) => others.split(' ').map((other) => [other, word] as const))
);

/** Words that add nothing to a heading. */
const smallWords = new Set('of the to at a an is per in on for by be or and'.split(' '));
/** Words that people add to any size; leaving them out changes nothing. */
const sizeWords = new Set('clear finished dimension dimensions dim dims net size'.split(' '));
/** Words over several columns that change the meaning of none. */
const plainGroups = new Set('opening openings door doors general grille grilles shutter shutters'.split(' '));

const unitWords =
	'mm|cm|m|in|in\\.|inch|inches|ft|feet|psf|psi|ksi|kpa|mpa|pa|n\\/mm2|n\\/mm²|plf|lb\\/ft|lb\\/in|n\\/m|kn\\/m|kg\\/m|v|volts';
const unitAtEnd = new RegExp(
	`(?:[([]\\s*(${unitWords})\\s*[)\\]]|[,;]\\s*(?:in )?(${unitWords}))\\s*$`,
	'iu'
);
/** `(ft-in)` says only how it is written. */
const manner = /[([]\s*(?:ft|feet)\s*[-–&/]\s*(?:in|inches)\.?\s*[)\]]\s*$/iu;

const plainUnits: ReadonlyMap<string, string> = new Map([
	['in.', 'in'],
	['inch', 'in'],
	['inches', 'in'],
	['feet', 'ft'],
	['volts', 'V'],
	['v', 'V'],
	['kpa', 'kPa'],
	['pa', 'Pa'],
	['mpa', 'MPa'],
	['n/mm2', 'MPa'],
	['n/mm²', 'MPa'],
	['plf', 'lb/ft'],
	['n/m', 'N/m'],
	['kn/m', 'kN/m']
]);

/** The unit that a heading names in brackets or after a comma: `Width (mm)`, `Feed, m`, `f'c [psi]`. */
export function unitInHeading(heading: string): string | null {
	const match = unitAtEnd.exec(heading);
	const word = (match?.[1] ?? match?.[2])?.toLowerCase();
	return word === undefined ? null : (plainUnits.get(word) ?? word);
}

/** The telling words of a heading, each in one spelling, sorted. */
function headingWords(heading: string): string[] {
	const words = heading
		.replace(manner, '')
		.replace(unitAtEnd, '')
		.replace(/([a-z])([A-Z])/gu, '$1 $2')
		.normalize('NFKD')
		.replace(/\p{M}/gu, '')
		.toLowerCase()
		.replace(/#/gu, ' number ')
		// Initials are one word: `R.O.`, `A.F.F.`, `L.H.`
		.replace(/\b[a-z](?:\.[a-z])+\b\.?/gu, (initials) => initials.replaceAll('.', ''))
		.replace(/\b([lr])\/h\b/gu, '$1h')
		.replace(/\bu\/m\b/gu, 'um')
		.replace(/['’′]/gu, '')
		.split(/[^a-z0-9]+/u)
		.filter((word) => word !== '' && !smallWords.has(word))
		.map((word) => sameWord.get(word) ?? word);
	return words.sort();
}

const withoutSizeWords = (words: readonly string[]): string[] => words.filter((word) => !sizeWords.has(word));

/** A heading over this many columns is none of a table's. */
const deepest = 60;
const samples = 40;

/** The names of all fields, ready for looking up. */
export interface HeadingNames<F extends string> {
	readonly sure: ReadonlyMap<string, F>;
	readonly alone: ReadonlyMap<string, F>;
	readonly perhaps: ReadonlyMap<string, readonly F[]>;
	readonly fits: ReadonlyMap<F, (text: string) => boolean>;
}

const keyOf = (words: readonly string[]): string => words.join(' ');

/** @throws Error when two fields share a name that is not marked as perhaps. */
export function headingNames<F extends string>(fields: readonly HeadingField<F>[]): HeadingNames<F> {
	const sure = new Map<string, F>();
	const alone = new Map<string, F>();
	const perhaps = new Map<string, F[]>();
	const fits = new Map<F, (text: string) => boolean>();
	for (const { field, names, alone: bare = [], perhaps: others = [], fits: test } of fields) {
		if (test) fits.set(field, test);
		for (const name of names) {
			const key = keyOf(headingWords(name));
			const taken = sure.get(key);
			if (taken !== undefined && taken !== field)
				throw new Error(`“${name}” is a name of ${taken} and of ${field}`);
			sure.set(key, field);
		}
		for (const name of bare) alone.set(keyOf(headingWords(name)), field);
		for (const name of others) {
			const key = keyOf(headingWords(name));
			perhaps.set(key, [...(perhaps.get(key) ?? []), field]);
		}
	}
	return { sure, alone, perhaps, fits };
}

/** Share of the cells under a heading that could be the field; null when there are none. */
function share<F extends string>(
	names: HeadingNames<F>,
	field: F,
	cellsBelow: () => readonly string[]
): number | null {
	const test = names.fits.get(field);
	if (!test) return null;
	const cells = cellsBelow();
	if (cells.length === 0) return null;
	return cells.filter(test).length / cells.length;
}

interface Candidate<F extends string> {
	readonly field: F;
	readonly score: number;
	readonly how: string;
}

function candidates<F extends string>(
	names: HeadingNames<F>,
	heading: string,
	above: string,
	cellsBelow: () => readonly string[]
): Candidate<F>[] {
	const own = headingWords(heading);
	if (own.length === 0) return [];
	const group = withoutSizeWords(headingWords(above));
	const plain = group.every((word) => plainGroups.has(word));
	const list: Candidate<F>[] = [];
	const forms: { words: string[]; score: number; how: string }[] = [
		{ words: own, score: 1, how: `heading “${shown(heading)}”` },
		{ words: withoutSizeWords(own), score: 0.95, how: `heading “${shown(heading)}”` }
	];
	if (above !== '') {
		const both = Array.from(new Set([...headingWords(above), ...own])).sort();
		const how = `heading “${shown(heading)}” under “${shown(above)}”`;
		forms.push({ words: both, score: 1.05, how }, { words: withoutSizeWords(both), score: 1, how });
	}
	for (const { words, score, how } of forms) {
		if (words.length === 0) continue;
		const key = keyOf(words);
		const field = names.sure.get(key) ?? (plain ? names.alone.get(key) : undefined);
		if (field !== undefined) list.push({ field, score, how });
		for (const maybe of names.perhaps.get(key) ?? []) {
			const agree = share(names, maybe, cellsBelow);
			if (agree !== null && agree < 0.5) continue;
			list.push({
				field: maybe,
				score: score * (agree === null ? 0.6 : 0.6 + 0.2 * agree),
				how: agree === null ? `${how}, perhaps` : `${how}, and ${Math.round(agree * 100)} % of its cells fit`
			});
		}
	}
	return list;
}

/** The heading above, where one stands over several columns. */
function headingAbove(sheet: Sheet, position: number, column: number): string {
	const row = sheet.rows[position];
	const before = sheet.rows[position - 1];
	if (!row || before?.line !== row.line - 1) return '';
	const merge = sheet.merges.find(
		({ top, bottom, left, right }) =>
			top <= before.line && bottom >= before.line && left <= column && right >= column && right > left
	);
	// Over the whole table it is a title.
	if (!merge || merge.right - merge.left + 1 >= row.cells.length) return '';
	return oneLine(textOf(before.cells[merge.left]));
}

function cellsBelow(sheet: Sheet, position: number, column: number): string[] {
	const cells: string[] = [];
	for (const row of sheet.rows.slice(position + 1, position + 1 + samples)) {
		const text = oneLine(textOf(row.cells[column]));
		if (text !== '') cells.push(text);
	}
	return cells;
}

/** Reads one row as headings. Each field goes to the column that claims it best; the others say so. */
export function readHeadings<F extends string>(
	sheet: Sheet,
	position: number,
	names: HeadingNames<F>
): ColumnReading<F>[] {
	const row = sheet.rows[position];
	if (!row) return [];
	const width = Math.max(
		row.cells.length,
		...sheet.rows.slice(position, position + samples).map((r) => r.cells.length)
	);
	const columns = Array.from({ length: width }, (_, index) => {
		const heading = oneLine(textOf(row.cells[index]));
		return {
			index,
			heading,
			candidates: candidates(names, heading, headingAbove(sheet, position, index), () =>
				cellsBelow(sheet, position, index)
			)
		};
	});
	const claims = columns
		.flatMap(({ index, candidates: list }) => list.map((candidate) => ({ index, ...candidate })))
		.sort((a, b) => b.score - a.score || a.index - b.index);
	const fieldOf = new Map<number, (typeof claims)[number]>();
	const columnOf = new Map<F, number>();
	for (const claim of claims) {
		if (fieldOf.has(claim.index) || columnOf.has(claim.field)) continue;
		fieldOf.set(claim.index, claim);
		columnOf.set(claim.field, claim.index);
	}
	return columns.map(({ index, heading, candidates: list }) => {
		const claim = fieldOf.get(index);
		const loser = list[0];
		const winner = loser && columnOf.get(loser.field);
		const how = claim
			? claim.how
			: winner !== undefined
				? `column ${columnLetter(winner)} has this already`
				: heading === ''
					? 'no heading'
					: 'heading not known';
		return {
			index,
			letter: columnLetter(index),
			heading,
			field: claim?.field ?? null,
			unit: unitInHeading(heading),
			how
		};
	});
}

/**
 * The row with the most known headings, in the likeliest sheet: visible before hidden, more headings before fewer,
 * more rows before fewer. Null when no row has enough.
 *
 * @param enough whether the fields of a row can head a table of this kind
 */
export function findHeadings<F extends string>(
	sheets: readonly Sheet[],
	names: HeadingNames<F>,
	enough: (fields: ReadonlySet<F>) => boolean
): HeadingRow<F> | null {
	let best: HeadingRow<F> | null = null;
	const rank = (row: HeadingRow<F>): number[] => [
		row.sheet.hidden ? 0 : 1,
		row.found,
		row.sheet.rows.length - row.position
	];
	const better = (a: HeadingRow<F>, b: HeadingRow<F>): boolean => {
		const [x, y] = [rank(a), rank(b)];
		const at = x.findIndex((value, i) => value !== y[i]);
		return at >= 0 && (x[at] ?? 0) > (y[at] ?? 0);
	};
	for (const sheet of sheets) {
		let inSheet: HeadingRow<F> | null = null;
		for (let position = 0; position < Math.min(sheet.rows.length, deepest); position++) {
			const columns = readHeadings(sheet, position, names);
			const fields = new Set(columns.flatMap(({ field }) => (field === null ? [] : [field])));
			if (!enough(fields)) continue;
			if (inSheet && fields.size <= inSheet.found) continue;
			inSheet = { sheet, position, columns, found: fields.size };
		}
		if (inSheet && (!best || better(inSheet, best))) best = inSheet;
	}
	return best;
}

/** Whether a row says the headings once more, as on every printed page. */
export function repeatsHeadings(row: SheetRow, headings: SheetRow): boolean {
	let same = 0;
	let filled = 0;
	row.cells.forEach((cell, index) => {
		const text = oneLine(textOf(cell)).toLowerCase();
		if (text === '') return;
		filled++;
		if (text === oneLine(textOf(headings.cells[index])).toLowerCase()) same++;
	});
	return filled >= 2 && same >= filled * 0.6 && same >= 2;
}

/** Where a cell stands, for messages: `Schedule, row 12, F “Clear Width”`. */
export function placeOf(
	sheet: Sheet,
	line: number,
	column: { readonly letter: string; readonly heading: string } | null
): string {
	const where = `${sheet.name}, ${sheet.rowWord} ${line}`;
	if (!column) return where;
	return column.heading === ''
		? `${where}, column ${column.letter}`
		: `${where}, ${column.letter} “${shown(column.heading)}”`;
}
