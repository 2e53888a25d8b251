/** The unit of figures without one: from notes around the table, from notes between its rows, or asked. */
import type { Measures } from '../../takeoff/inputs.ts';
import { unitInHeading } from '../heading-words.ts';
import { placeOf } from '../headings.ts';
import { oneLine, shown, textOf, type Sheet, type SheetRow } from '../sheet.ts';
import { figureUnits, isFigureUnit, titleOfUnit, unitInNote, type FigureUnit } from '../table-notes.ts';
import type { Line } from './lines.ts';
import type { ScheduleColumn } from './preview.ts';
import type { Questions } from './questions.ts';
import { readSizeText, twoSizes, withoutGrouping } from './size-text.ts';
import { unitRow, type ScheduleTable } from './table.ts';

/** A text with its place. */
export interface Remark {
	readonly place: string;
	readonly text: string;
}

export interface Remarks {
	/** Above the headings, below the last opening, then on other sheets. */
	readonly around: readonly Remark[];
	/** Between openings, with the line each stands on. */
	readonly within: readonly (Remark & { readonly line: number })[];
}

const textsOf = (sheet: Sheet, row: SheetRow): Remark[] =>
	row.cells.flatMap((cell) => {
		const text = oneLine(textOf(cell));
		return text.length > 4 ? [{ place: placeOf(sheet, row.line, null), text }] : [];
	});

/** Text that is no opening and no heading. */
export function remarksOf(sheets: readonly Sheet[], table: ScheduleTable, lines: readonly Line[]): Remarks {
	const { sheet, columns } = table;
	const openings = lines.filter(({ out }) => out === null).map(({ source }) => source.line);
	const [first = Infinity, last = -Infinity] = [openings[0], openings.at(-1)];
	const notes = lines.filter(({ out }) => out?.reason === 'remark' || out?.reason === 'heading');
	const inside = ({ source: { line } }: Line): boolean => first < line && line < last;
	const width = columns.filter((column) => column.heading !== '').length;
	const isNote = (row: SheetRow): boolean =>
		row.cells.filter((cell) => oneLine(textOf(cell)) !== '').length <= Math.max(1, width / 6);
	return {
		around: [
			...table.above.flatMap((row) => textsOf(sheet, row)),
			...notes.filter((line) => !inside(line)).flatMap(({ source }) => textsOf(sheet, source)),
			...sheets
				.filter((other) => other !== sheet)
				.flatMap((other) =>
					other.rows
						.slice(0, 60)
						.filter(isNote)
						.flatMap((row) => textsOf(other, row))
				)
		],
		within: notes
			.filter(inside)
			.flatMap(({ source }) => textsOf(sheet, source).map((remark) => ({ ...remark, line: source.line })))
	};
}

/** The unit of a bare figure in a column and line. */
export type UnitAt = (column: ScheduleColumn, line: number) => string;

/** Sizes in a bare figure outside this are hardly in the job's unit. */
const likely = { imperial: { least: 12, most: 600 }, metric: { least: 250, most: 30_000 } } as const;

const isFigure = (text: string): boolean => /^\d[\d.,]*$/u.test(text);

interface BareSize {
	readonly value: number;
	readonly text: string;
	readonly place: string;
}

/** Widths and heights written as a figure alone that nothing in the table gives a unit. */
function bareSizes(
	table: ScheduleTable,
	lines: readonly Line[],
	known: (column: ScheduleColumn, line: number) => boolean
): BareSize[] {
	return table.columns
		.filter(({ field }) => field === 'openingWidth' || field === 'openingHeight')
		.flatMap((column) =>
			lines.flatMap(({ source }) => {
				if (known(column, source.line)) return [];
				const cell = source.cells[column.index];
				if (typeof cell === 'object') return [];
				const text = oneLine(textOf(cell));
				return (twoSizes(text) ?? [text]).flatMap((size, _, all) => {
					const { figure } = readSizeText(size);
					const value = Number(withoutGrouping(figure).replace(',', '.'));
					// `3050 x 1220 mm` has its unit.
					const shared = all.some((other) => /[a-z'"′″’”]\s*$/iu.test(readSizeText(other).figure));
					if (!isFigure(figure) || !(value > 0) || shared) return [];
					return [{ value, text: size, place: placeOf(table.sheet, source.line, column) }];
				});
			})
		);
}

interface UnitSources {
	readonly table: ScheduleTable;
	/** The openings that come in. */
	readonly lines: readonly Line[];
	readonly all: readonly Line[];
	readonly remarks: Remarks;
	readonly measures: Measures;
	readonly questions: Questions;
	/** What was understood is added here. */
	readonly notes: string[];
}

/**
 * Finds the unit of bare figures. A note around the table holds for all of it, one between its rows for the rows below,
 * a repeated heading with another unit for its column below. What is left is the unit of the job, and asked.
 */
export function findUnits({ table, lines, all, remarks, measures, questions, notes }: UnitSources): UnitAt {
	const changes = remarks.within.flatMap(({ text, place, line }) => {
		const unit = unitInNote(text);
		return unit === null ? [] : [{ unit, text, place, line }];
	});
	const changeAt = (line: number) => changes.findLast((change) => change.line < line);
	const headings = all
		.filter(({ out }) => out?.reason === 'headings')
		.map(({ source }) => ({
			line: source.line,
			units: unitRow(source) ?? unitsIn(source)
		}))
		.filter(({ units }) => units.size > 0);
	/** What was said last above a line: by headings of the column, or for sizes by a note. */
	const saidAt = ({ index, field, unit }: ScheduleColumn, line: number): string | null => {
		const headed = headings.findLast((row) => row.line < line && row.units.has(index));
		const change = changeAt(line);
		const ofHeading = headed?.units.get(index) ?? unit;
		const isSize = field === 'openingWidth' || field === 'openingHeight';
		if (change && (ofHeading === null || (isSize && change.line > (headed?.line ?? 0)))) return change.unit;
		return ofHeading;
	};
	const known = (column: ScheduleColumn, line: number): boolean => saidAt(column, line) !== null;

	const told = remarks.around.flatMap(({ place, text }) => {
		const unit = unitInNote(text);
		return unit === null ? [] : [{ unit, place, text }];
	});
	const general = generalUnit(told, table, () => bareSizes(table, lines, known), measures, questions, notes);
	let said: FigureUnit | null = general;
	for (const { unit, text, place } of changes) {
		if (unit !== said)
			notes.push(
				`Below it, figures without a unit are in ${titleOfUnit(unit)}: “${shown(text)}” (${place}).`
			);
		said = unit;
	}
	return (column, line) => saidAt(column, line) ?? general;
}

/** Units that the headings of a row name, by column. */
const unitsIn = (row: SheetRow): ReadonlyMap<number, string> =>
	new Map(
		row.cells.flatMap((cell, index) => {
			const unit = unitInHeading(oneLine(textOf(cell)));
			return unit === null ? [] : [[index, unit] as const];
		})
	);

function generalUnit(
	told: readonly { readonly unit: FigureUnit; readonly place: string; readonly text: string }[],
	{ sheet, headings }: ScheduleTable,
	bare: () => readonly BareSize[],
	measures: Measures,
	questions: Questions,
	notes: string[]
): FigureUnit {
	const usual: FigureUnit = measures === 'imperial' ? 'in' : 'mm';
	const [note] = told;
	const contrary = told.find(({ unit, place }) => unit !== note?.unit && place.startsWith(sheet.name));
	const ask = (text: string, holds: FigureUnit | null): FigureUnit | null => {
		const answer = questions.ask({
			id: 'unit',
			text,
			lines: [headings.line],
			choices: figureUnits,
			usual: holds
		});
		return isFigureUnit(answer) ? answer : null;
	};
	if (note && !contrary) {
		const given = questions.given('unit');
		if (isFigureUnit(given)) return ask('You said what figures without a unit are in.', note.unit) ?? given;
		notes.push(
			`Figures without a unit are in ${titleOfUnit(note.unit)}: “${shown(note.text)}” (${note.place}).`
		);
		return note.unit;
	}
	const figures = bare();
	const { least, most } = likely[measures];
	const odd = figures.find(({ value }) => value < least || value > most);
	const title = titleOfUnit(usual);
	if (note && contrary)
		return (
			ask(
				`“${shown(note.text)}” (${note.place}), but “${shown(contrary.text)}” (${contrary.place}). What are figures without a unit in?`,
				odd ? null : usual
			) ?? usual
		);
	if (figures.length === 0) {
		const given = questions.given('unit');
		return isFigureUnit(given) ? given : usual;
	}
	const answer = odd
		? ask(
				`Nothing says what unit the sizes are in, and “${odd.text}” (${odd.place}) is hardly in ${title}. What are figures without a unit in?`,
				null
			)
		: ask(
				`Nothing says what unit figures without one are in; they are taken for ${title}, the unit of the job.`,
				usual
			);
	return answer ?? usual;
}
