/** Finds the heading row of a table and says which column is what, with the reason. */
import { headingTexts } from './heading-rows.ts';
import { headingWords, isPlainGroup, unitInHeading, withoutSizeWords, withoutUnit } from './heading-words.ts';
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
	/** The same, where no other column or field claims them better. */
	readonly lastly?: readonly string[];
	/** Whether a cell could be this. Without it any text could. */
	readonly fits?: (text: string) => boolean;
}

export interface ColumnReading<F extends string> {
	/** From 0. */
	readonly index: number;
	/** `A`, `B` … */
	readonly letter: string;
	readonly heading: string;
	/** What stands over it and its neighbours together; '' for most. */
	readonly group: string;
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

/** Rows among which headings are looked for. */
const deepest = 60;
/** Rows below headings that can speak for a doubtful one. */
const samples = 40;

/** The names of all fields, ready for looking up. */
export interface HeadingNames<F extends string> {
	readonly sure: ReadonlyMap<string, F>;
	readonly alone: ReadonlyMap<string, F>;
	readonly perhaps: ReadonlyMap<string, readonly F[]>;
	readonly lastly: ReadonlyMap<string, F>;
	readonly fits: ReadonlyMap<F, (text: string) => boolean>;
	/** Every word of them. */
	readonly vocabulary: ReadonlySet<string>;
	/** A word of them by what a scan makes of it; those that only one word can be. */
	readonly scanned: ReadonlyMap<string, string>;
}

/** Letters that scans confuse become one. */
const asScanned = (word: string): string =>
	word.replace(/[i1|]/gu, 'l').replace(/[0q]/gu, 'o').replace(/5/gu, 's').replace(/rn/gu, 'm');

/** Words of four letters and more; shorter ones are too many things. */
function byScan(vocabulary: ReadonlySet<string>): ReadonlyMap<string, string> {
	const found = new Map<string, string | null>();
	for (const word of vocabulary)
		if (word.length >= 4) found.set(asScanned(word), found.has(asScanned(word)) ? null : word);
	return new Map([...found].flatMap(([scan, word]) => (word === null ? [] : [[scan, word] as const])));
}

const keyOf = (words: readonly string[]): string => words.join(' ');

/** @throws Error when two fields share a name that is not marked as perhaps. */
export function headingNames<F extends string>(fields: readonly HeadingField<F>[]): HeadingNames<F> {
	const sure = new Map<string, F>();
	const alone = new Map<string, F>();
	const perhaps = new Map<string, F[]>();
	const lastly = new Map<string, F>();
	const fits = new Map<F, (text: string) => boolean>();
	for (const {
		field,
		names,
		alone: bare = [],
		perhaps: others = [],
		lastly: last = [],
		fits: test
	} of fields) {
		if (test) fits.set(field, test);
		for (const name of names) {
			const key = keyOf(headingWords(name));
			const taken = sure.get(key);
			if (taken !== undefined && taken !== field)
				throw new Error(`“${name}” is a name of ${taken} and of ${field}`);
			sure.set(key, field);
		}
		for (const name of last) lastly.set(keyOf(headingWords(name)), field);
		for (const name of bare) alone.set(keyOf(headingWords(name)), field);
		for (const name of others) {
			const key = keyOf(headingWords(name));
			perhaps.set(key, [...(perhaps.get(key) ?? []), field]);
		}
	}
	const vocabulary = new Set(
		[...sure.keys(), ...alone.keys(), ...perhaps.keys(), ...lastly.keys()].flatMap((key) => key.split(' '))
	);
	return { sure, alone, perhaps, lastly, fits, vocabulary, scanned: byScan(vocabulary) };
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
	const own = headingWords(heading)
		.map((word) => (names.vocabulary.has(word) ? word : (names.scanned.get(asScanned(word)) ?? word)))
		.sort();
	if (own.length === 0) return [];
	const group = withoutSizeWords(headingWords(above));
	const plain = isPlainGroup(group);
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
		const last = names.lastly.get(key);
		if (last !== undefined && (!names.fits.has(last) || (share(names, last, cellsBelow) ?? 0) >= 0.5))
			list.push({ field: last, score: score * 0.5, how: `${how}, and nothing else is` });
	}
	return list;
}

function cellsBelow(sheet: Sheet, position: number, column: number): string[] {
	const cells: string[] = [];
	for (const row of sheet.rows.slice(position + 1, position + 1 + samples)) {
		const text = oneLine(textOf(row.cells[column]));
		if (text !== '') cells.push(text);
	}
	return cells;
}

/** Reads one row as headings, with what stands above it over several columns. Each field goes to the column that claims it best; the others say so. */
export function readHeadings<F extends string>(
	sheet: Sheet,
	position: number,
	names: HeadingNames<F>
): ColumnReading<F>[] {
	const width = widthAt(sheet, position);
	const { texts } = headingTexts(sheet, position, width, names.vocabulary);
	const columns = texts.map(({ own, group }, index) => ({
		index,
		heading: own,
		group,
		candidates: candidates(names, own, group, () => cellsBelow(sheet, position, index))
	}));
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
	return columns.map(({ index, heading, group, candidates: list }) => {
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
			group,
			field: claim?.field ?? null,
			unit: unitInHeading(heading) ?? unitInHeading(group),
			how
		};
	});
}

const widthAt = (sheet: Sheet, position: number): number =>
	Math.max(0, ...sheet.rows.slice(position, position + samples).map((row) => row.cells.length));

/** The rows that head a table together: the row at the position, and those above it that head its groups. */
export function headingRows<F extends string>(
	sheet: Sheet,
	position: number,
	names: HeadingNames<F>
): readonly SheetRow[] {
	const { first } = headingTexts(sheet, position, widthAt(sheet, position), names.vocabulary);
	return sheet.rows.slice(first, position + 1);
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

/** Whether a row says the headings once more, as on every printed page; units may differ, and `(cont.)` may follow. */
export function repeatsHeadings(row: SheetRow, headings: SheetRow): boolean {
	let same = 0;
	let filled = 0;
	row.cells.forEach((cell, index) => {
		const text = oneLine(textOf(cell));
		if (text === '') return;
		filled++;
		const heading = withoutUnit(oneLine(textOf(headings.cells[index])));
		if (heading !== '' && `${withoutUnit(text)} `.startsWith(`${heading} `)) same++;
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
