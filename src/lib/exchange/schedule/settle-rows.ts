/** What only a person can say of whole rows, and what rows need of each other. */
import { shown } from '../sheet.ts';
import { viewpointInNote } from '../table-notes.ts';
import { lineOf, refusal, staying, type Draft } from './draft.ts';
import type { Line } from './lines.ts';
import type { LeftOutReason } from './preview.ts';
import type { Questions } from './questions.ts';
import type { ScheduleTable } from './table.ts';
import type { Remark } from './units.ts';

const leaveOrTake = [
	{ value: 'leave', title: 'leave them out' },
	{ value: 'take', title: 'bring them in' }
] as const;

/** Whether a row is struck through: its mark is, or with no mark all that stands in it. */
function isStruck({ source }: Line, { columns }: ScheduleTable): boolean {
	const { struck = [], cells } = source;
	const mark = columns.find(({ field }) => field === 'mark')?.index ?? -1;
	if ((cells[mark] ?? '') !== '') return struck.includes(mark);
	return struck.length > 0 && cells.every((cell, index) => cell === '' || struck.includes(index));
}

/** Rows that the file hides, filters away or strikes through stay out, and those of an alternate wait, until a person says more. */
export function settleLines(
	lines: readonly Line[],
	table: ScheduleTable,
	questions: Questions
): readonly Line[] {
	const { rowWord } = table.sheet;
	let left = lines;
	const settle = (
		id: LeftOutReason & ('hidden' | 'filtered' | 'struck'),
		is: (line: Line) => boolean,
		text: string,
		why: string
	): void => {
		const found = left.filter((line) => line.out === null && is(line));
		if (found.length === 0) return;
		const answer = questions.ask({
			id,
			text,
			lines: found.map(({ source }) => source.line),
			choices: leaveOrTake,
			usual: 'leave'
		});
		if (answer === 'take') return;
		left = left.map((line) => (found.includes(line) ? { ...line, out: { reason: id, why } } : line));
	};
	settle(
		'hidden',
		({ source }) => source.hidden && source.filtered !== true,
		`Some ${rowWord}s are hidden in the file. Do they come in?`,
		'hidden in the file'
	);
	settle(
		'filtered',
		({ source }) => source.filtered === true,
		`A filter of the sheet hides some ${rowWord}s. Do they come in?`,
		'hidden by a filter of the sheet'
	);
	settle(
		'struck',
		(line) => isStruck(line, table),
		`Some ${rowWord}s are struck through. Do they come in?`,
		'struck through'
	);

	const alternates = left.filter((line) => line.out === null && line.alternate !== null);
	const [first] = alternates;
	if (!first) return left;
	const answer = questions.ask({
		id: 'alternate',
		text: `Some ${rowWord}s stand under “${shown(first.alternate ?? '')}”${alternates.some(({ alternate }) => alternate !== first.alternate) ? ' and other alternates' : ''}. Do they come in?`,
		lines: alternates.map(({ source }) => source.line),
		choices: [
			{ value: 'phase', title: 'bring them in, with the alternate as their phase' },
			{ value: 'leave', title: 'leave them out' }
		]
	});
	if (answer !== 'leave') return left;
	return left.map((line) =>
		alternates.includes(line)
			? { ...line, out: { reason: 'alternate', why: `part of “${line.alternate ?? ''}”` } }
			: line
	);
}

/** Rows take the phase from the heading above them, and from that of an alternate once a person has said so. */
export function settlePhases(drafts: readonly Draft[], questions: Questions): void {
	const takesAlternates = questions.given('alternate') === 'phase';
	for (const { line, cells, notes } of drafts) {
		if (cells.openingNumber !== undefined) continue;
		if (line.alternate !== null) {
			if (takesAlternates) cells.phase = line.alternate;
		} else if (line.phase !== null && cells.phase === undefined) {
			cells.phase = line.phase;
			notes.push(`phase from the heading “${shown(line.phase)}”`);
		}
	}
}

/** Asks about sizes: rough ones, which of two comes first, and dates. */
export function settleSizes(drafts: readonly Draft[], table: ScheduleTable, questions: Questions): void {
	const rows = staying(drafts);
	const { rowWord } = table.sheet;
	const rough = rows.filter(({ asks }) => asks.rough).map(lineOf);
	const headed = table.roughColumns.length > 0;
	if (headed || rough.length > 0)
		questions.ask({
			id: 'rough',
			text: headed
				? 'The sizes are headed as rough openings. The takeoff needs finished ones, jamb to jamb and sill to head. What are they?'
				: `Some sizes are marked as rough openings among finished ones. The takeoff needs finished ones, jamb to jamb and sill to head. What are they?`,
			lines: headed ? [table.headings.line, ...rough] : rough,
			choices: [
				{ value: 'finished', title: 'finished sizes after all: use them' },
				{ value: 'leave', title: 'rough sizes: leave them out' }
			]
		});
	const unordered = rows.filter(({ asks }) => asks.order).map(lineOf);
	if (unordered.length > 0)
		questions.ask({
			id: 'sizeOrder',
			text: 'Both sizes stand in one cell, and nothing says which comes first. It is usually the width.',
			lines: unordered,
			choices: [
				{ value: 'widthFirst', title: 'width, then height' },
				{ value: 'heightFirst', title: 'height, then width' }
			],
			usual: 'widthFirst'
		});
	for (const column of table.columns) {
		const dates = rows.flatMap((draft) =>
			draft.asks.dates
				.filter((date) => date.column === column)
				.map(({ offers }) => ({ line: lineOf(draft), offers }))
		);
		const [first] = dates;
		if (!first) continue;
		questions.ask({
			id: `date:${column.letter}`,
			text: `The spreadsheet made dates of sizes in column ${column.letter} “${shown(column.heading)}” (${rowWord} ${first.line}: probably ${first.offers}). What are they?`,
			lines: dates.map(({ line }) => line),
			choices: [
				{
					value: 'probable',
					title: `what they probably were: ${first.offers}${dates.length > 1 ? ' and so on' : ''}`
				},
				{ value: 'leave', title: 'leave them blank' }
			],
			usual: 'leave'
		});
	}
}

const viewpointChoices = [
	{ value: 'coilSide', title: 'seen from the coil side' },
	{ value: 'farSide', title: 'seen from the far side' }
] as const;

/** From which side left and right are seen: by a column, by a note, or asked. */
export function settleViewpoint(
	drafts: readonly Draft[],
	{ columns }: ScheduleTable,
	remarks: readonly Remark[],
	questions: Questions,
	notes: string[]
): void {
	const column = columns.find(({ field }) => field === 'drawnFrom');
	const open = drafts.filter(
		({ cells }) =>
			cells.drawnFrom === undefined && (cells.openingNumber === undefined || column === undefined)
	);
	const handed = open.filter(
		({ cells }) => cells.driveSide !== undefined || cells.leftSubstrate !== cells.rightSubstrate
	);
	if (handed.length === 0) return;
	const given = questions.given('viewpoint');
	const answer = given === 'coilSide' || given === 'farSide' ? given : null;
	const note = remarks.flatMap(({ place, text }) => {
		const viewpoint = viewpointInNote(text);
		return viewpoint === null ? [] : [{ viewpoint, place, text }];
	})[0];
	const told = answer ?? note?.viewpoint;
	if (note && told === note.viewpoint)
		notes.push(
			`Left and right are ${told === 'farSide' ? 'seen from the far side' : 'seen from the coil side'}: “${shown(note.text)}” (${note.place}).`
		);
	else
		questions.ask({
			id: 'viewpoint',
			text: 'Nothing says from which side left and right are seen. Everything is reckoned standing on the coil side.',
			lines: handed.slice(0, 20).map(lineOf),
			choices: viewpointChoices,
			usual: 'coilSide'
		});
	if (told === 'farSide') for (const { cells } of open) cells.drawnFrom = 'farSide';
}

/** Every row needs a mark, and an opening of its own a number that its mark has. */
export function checkNumbers(drafts: readonly Draft[], table: ScheduleTable): void {
	const markColumn = table.columns.find(({ field }) => field === 'mark') ?? null;
	const numberColumn = table.columns.find(({ field }) => field === 'openingNumber') ?? null;
	const rows = staying(drafts);
	const quantities = new Map<string, number>();
	for (const { cells, quantityOpen } of rows)
		if (typeof cells.mark === 'string' && cells.openingNumber === undefined)
			quantities.set(
				cells.mark.toLowerCase(),
				typeof cells.quantity === 'number' ? cells.quantity : quantityOpen ? Infinity : 1
			);
	for (const { line, cells, problems } of rows) {
		const { mark, openingNumber } = cells;
		if (typeof mark !== 'string') {
			if (problems.some((problem) => problem.field === 'mark')) continue;
			problems.push(refusal(table.sheet, line, markColumn, 'mark', '', 'no mark; write one'));
			continue;
		}
		if (typeof openingNumber !== 'number') continue;
		const quantity = quantities.get(mark.toLowerCase());
		const reason =
			quantity === undefined
				? `opening ${openingNumber} of ${mark}, but there is no row for the mark; add one`
				: openingNumber > quantity
					? `opening ${openingNumber} of ${mark}, but there are ${quantity} of it; change the number or the quantity`
					: null;
		if (reason !== null)
			problems.push(refusal(table.sheet, line, numberColumn, 'openingNumber', String(openingNumber), reason));
	}
}
