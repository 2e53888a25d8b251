/** The same mark in several rows: a revision, another place, or an error. Only a person can say. */
import type { Cell, InputId } from '../../takeoff/inputs.ts';
import { isInputId } from '../../takeoff/inputs.ts';
import type { Sheet } from '../sheet.ts';
import { lineOf, markOf, staying, type Draft, type MutableCells } from './draft.ts';
import { listedLines, type Choice } from './preview.ts';
import type { Questions } from './questions.ts';

const highestCount = 10_000;

/** Cells that mean the same, however they were typed. */
function same(a: Cell | undefined, b: Cell | undefined): boolean {
	if (typeof a === 'object' && a !== null && typeof b === 'object' && b !== null)
		return a.amount === b.amount && a.unit === b.unit;
	return (a ?? null) === (b ?? null);
}

/** The cells of a row that differ from its mark's. */
function differing(cells: MutableCells, from: MutableCells): MutableCells {
	const own: MutableCells = {};
	for (const [field, cell] of Object.entries(cells))
		if (isInputId(field) && field !== 'mark' && field !== 'quantity' && !same(cell, from[field]))
			own[field] = cell;
	return own;
}

/** Cells of the mark that a later row leaves blank: an opening of the mark inherits them. */
const inherited = (cells: MutableCells, from: MutableCells): InputId[] =>
	Object.keys(from).filter(
		(field): field is InputId => isInputId(field) && field !== 'quantity' && cells[field] === undefined
	);

/** One mark with the openings of all its rows; those that differ become rows of their own. */
function asPlaces(group: readonly Draft[], rowWord: string): ReadonlyMap<Draft, readonly Draft[]> {
	const [first, ...others] = group;
	const rows = new Map<Draft, readonly Draft[]>();
	if (!first) return rows;
	const quantityOf = ({ cells }: Draft): number => (typeof cells.quantity === 'number' ? cells.quantity : 1);
	const sum = group.reduce((total, draft) => total + quantityOf(draft), 0);
	let number = quantityOf(first);
	for (const draft of others) {
		const own = differing(draft.cells, first.cells);
		const count = quantityOf(draft);
		const blank = inherited(draft.cells, first.cells);
		const numbers = Array.from({ length: count }, (_, i) => number + 1 + i);
		number += count;
		if (Object.keys(own).length === 0) {
			draft.out = {
				reason: 'duplicate',
				why: `the same as ${rowWord} ${lineOf(first)}, and counted there`
			};
			rows.set(draft, [draft]);
			continue;
		}
		const notes = [
			`in another place: opening ${count === 1 ? String(number) : `${number - count + 1} to ${number}`} of ${markOf(first)}, with only what differs from ${rowWord} ${lineOf(first)}`,
			...(blank.length > 0 ? [`what is blank here is as in ${rowWord} ${lineOf(first)}`] : []),
			...draft.notes
		];
		rows.set(
			draft,
			numbers.map((openingNumber, i): Draft => ({
				...draft,
				cells: { mark: first.cells.mark ?? null, openingNumber, ...own },
				problems: i === 0 ? draft.problems : [],
				notes
			}))
		);
	}
	first.cells.quantity = sum;
	first.quantityOpen = false;
	first.notes.push(`quantity ${sum} is that of ${rowWord}s ${listedLines(group.map(lineOf))} together`);
	return rows;
}

const revision: Choice = { value: 'revision', title: 'a revision: only the last of them comes in' };
const place: Choice = { value: 'place', title: 'another place: one mark with the openings of all of them' };
const error: Choice = {
	value: 'error',
	title: 'an error: all come in, to be given marks of their own in the grid'
};

/** Asks about the same mark, or the same opening of it, in several rows. */
export function settleDuplicates(
	drafts: readonly Draft[],
	{ rowWord }: Sheet,
	questions: Questions
): readonly Draft[] {
	const groups = new Map<string, Draft[]>();
	for (const draft of staying(drafts)) {
		const { openingNumber } = draft.cells;
		const mark = markOf(draft);
		if (mark === '') continue;
		const key = JSON.stringify([mark.toLowerCase(), openingNumber ?? null]);
		groups.set(key, [...(groups.get(key) ?? []), draft]);
	}
	const replaced = new Map<Draft, readonly Draft[]>();
	for (const group of groups.values()) {
		const [first] = group;
		if (first === undefined || group.length < 2) continue;
		const { openingNumber } = first.cells;
		const mark = markOf(first);
		const name = typeof openingNumber === 'number' ? `${mark}.${openingNumber}` : mark;
		const lines = group.map(lineOf);
		const total = group.reduce(
			(sum, { cells }) => sum + (typeof cells.quantity === 'number' ? cells.quantity : 1),
			0
		);
		const answer = questions.ask({
			id: `duplicate:${name}`,
			text: `${name} stands in ${rowWord}s ${listedLines(lines)}. What does that mean?`,
			lines,
			choices:
				openingNumber === undefined && total <= highestCount ? [revision, place, error] : [revision, error]
		});
		const last = group.at(-1);
		if (answer === 'revision' && last)
			for (const draft of group) {
				if (draft === last) continue;
				draft.out = { reason: 'duplicate', why: `replaced by the revision in ${rowWord} ${lineOf(last)}` };
			}
		if (answer === 'place') for (const [draft, rows] of asPlaces(group, rowWord)) replaced.set(draft, rows);
	}
	return drafts.flatMap((draft) => replaced.get(draft) ?? [draft]);
}
