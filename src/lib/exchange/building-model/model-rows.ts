/** Rows of the grid from the openings of a model. */
import { exactLength, formatLength } from '../../quantity/length.ts';
import { readCell } from '../../takeoff/cell.ts';
import { inputOf, type Cell, type Cells, type InputId, type Measures } from '../../takeoff/inputs.ts';
import { oneLine } from '../sheet.ts';
import type { ModelChoice } from './model-choice.ts';
import type { ModelOpening } from './model.ts';

export interface ModelRow {
	/** Unlike that of any other row of the model. */
	readonly mark: string;
	/** At least one. */
	readonly openings: readonly [ModelOpening, ...ModelOpening[]];
}

const longestMark = 40;
const longestText = 2000;
/** The highest quantity of a row. */
const mostOfRow = 10_000;
/** GlobalIds named in a note; more are counted. */
const mostNamed = 20;
const sixteenthNm = 1_587_500;

/** What a person calls it: its tag, else its name, else its type. */
const ownName = ({ tag, name, type, globalId, line }: ModelOpening): string =>
	tag || name || type || globalId || `#${line}`;

/** Openings of one row have the same of all of this. */
const alike = (opening: ModelOpening): string => {
	const { kind, type, tag, name, width, height, exterior, notes } = opening;
	return JSON.stringify([kind, type || tag || name || opening.line, width, height, exterior, notes]);
};

function rowName([first, ...others]: ModelRow['openings'], grouping: ModelChoice['grouping']): string {
	const sameTag = others.every(({ tag }) => tag === first.tag);
	return grouping === 'each' || others.length === 0 || (first.tag !== '' && sameTag)
		? ownName(first)
		: first.type || ownName(first);
}

const numbered = (name: string, count: number): string =>
	count === 1 ? name : `${name.slice(0, longestMark - 1 - String(count).length)}-${count}`;

/**
 * Rows in the order of the model. The marks depend on the whole model only, so that bringing in some of it first and
 * the rest later gives every row the same mark; where two would be the same, the later one gets `-2` and so on.
 */
export function modelRows(openings: readonly ModelOpening[], grouping: ModelChoice['grouping']): ModelRow[] {
	const groups: [ModelOpening, ...ModelOpening[]][] = [];
	const open = new Map<string | number, ModelOpening[]>();
	for (const opening of openings) {
		const key = grouping === 'each' ? opening.line : alike(opening);
		const group = open.get(key);
		if (group && group.length < mostOfRow) group.push(opening);
		else {
			const started: [ModelOpening] = [opening];
			groups.push(started);
			open.set(key, started);
		}
	}
	const names = groups.map((group) => oneLine(rowName(group, grouping)).slice(0, longestMark));
	const reserved = new Set(names);
	const counts = new Map<string, number>();
	return groups.map((group, i) => {
		const name = names[i] ?? '';
		let count = (counts.get(name) ?? 0) + 1;
		let mark = numbered(name, count);
		while (count > 1 && reserved.has(mark)) mark = numbered(name, ++count);
		counts.set(name, count);
		reserved.add(mark);
		return { mark, openings: group };
	});
}

/** The rows that hold some of the chosen openings, with those only. */
export const chosenRows = (rows: readonly ModelRow[], chosen: ReadonlySet<number>): ModelRow[] =>
	rows.flatMap(({ mark, openings }) => {
		const [first, ...others] = openings.filter(({ line }) => chosen.has(line));
		return first ? [{ mark, openings: [first, ...others] }] : [];
	});

/** A size as a person of the job would type it, exact: `10'-0"`, `33 1/64"` or `3048 mm`. */
export function sizeText(nm: number, measures: Measures): string {
	if (measures === 'metric') return exactLength(nm, 'mm');
	return nm % sixteenthNm === 0 ? formatLength(nm, 'feetInches') : exactLength(nm, 'in');
}

const placeOf = ({ storey, space }: ModelOpening): string =>
	[storey, space].filter((name) => name !== '').join(', ');

const distinct = (texts: readonly string[]): string[] => [...new Set(texts.filter((text) => text !== ''))];

function noteOf(fileName: string, { openings }: ModelRow): string {
	const [{ type, notes }] = openings;
	const ids = openings.map(({ globalId, line }) => globalId || `#${line}`);
	const more = ids.length > mostNamed ? ` and ${ids.length - mostNamed} more` : '';
	const origin = [
		`From model ${fileName}`,
		...(type === '' ? [] : [`type ${type}`]),
		`GlobalId ${ids.slice(0, mostNamed).join(', ')}${more}`
	];
	return [`${origin.join(', ')}.`, ...notes].join(' ').slice(0, longestText);
}

/**
 * The cells of a row; what the model does not give is left out.
 * @param fileName goes into the note
 * @param measures of the job: the unit of the sizes as typed
 */
export function modelCells(row: ModelRow, fileName: string, measures: Measures): Cells {
	const [{ width, height, exterior }] = row.openings;
	const texts: readonly (readonly [InputId, string])[] = [
		['mark', row.mark],
		['quantity', String(row.openings.length)],
		['location', distinct(row.openings.map(placeOf)).join('; ').slice(0, longestText)],
		['openingWidth', width === null ? '' : sizeText(width, measures)],
		['openingHeight', height === null ? '' : sizeText(height, measures)],
		['exposure', exterior === null ? '' : exterior ? 'exterior' : 'interior'],
		['note', noteOf(fileName, row)]
	];
	const cells: Partial<Record<InputId, Cell>> = {};
	for (const [id, text] of texts) {
		const read = readCell(inputOf(id), text, { measures, keys: [] });
		if (!read.ok) throw new Error(`${id} of ${row.mark}: ${read.reason}`);
		if (read.cell !== null) cells[id] = read.cell;
	}
	return cells;
}
