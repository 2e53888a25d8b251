/**
 * How a kind of file was read before. What a person decided about its columns and its words holds for the next file of
 * that kind too; what was decided about single rows, quantities and dates does not.
 */
import type { InputId } from '../takeoff/inputs.ts';
import type { ScheduleMapping, SchedulePreview } from './schedule.ts';

/** A confirmed mapping, without what belongs to one file alone. */
export interface KindMapping {
	/** Sheet that was chosen by name. */
	readonly sheet: string | null;
	/** Rows from the headings found without help down to those chosen; negative is up. */
	readonly headerOffset: number;
	/** Inputs that were chosen, by place of the column among all columns, from 0. */
	readonly columns: readonly { readonly place: number; readonly field: InputId | null }[];
	/** By id of the question. */
	readonly answers: Readonly<Record<string, string>>;
}

/** Reads the file at hand in another way. */
type Reading = (mapping: ScheduleMapping) => SchedulePreview;

const ofTheKind: ReadonlySet<string> = new Set([
	'unit',
	'viewpoint',
	'rough',
	'sizeOrder',
	'hidden',
	'filtered',
	'struck'
]);

const isOfTheKind = (question: string): boolean => ofTheKind.has(question) || question.startsWith('blank:');

const withSheet = (sheet: string | null | undefined): ScheduleMapping =>
	sheet === null || sheet === undefined ? {} : { sheet };

/** What is worth remembering of a confirmed mapping, or null when nothing was decided. */
export function kindMapping(mapping: ScheduleMapping, read: Reading): KindMapping | null {
	const { sheet, headerRow, columns = {}, answers = {} } = mapping;
	const found = read(withSheet(sheet));
	// A further table of a file stands as far down as the first one is long: that says nothing of the next file.
	if (found.rows.some(({ line, reason }) => line === headerRow && reason === 'otherTable')) return null;
	const headerOffset = headerRow === undefined ? 0 : headerRow - found.headerRow;
	const places = read(
		headerRow === undefined ? withSheet(sheet) : { ...withSheet(sheet), headerRow }
	).columns;
	const kept: KindMapping = {
		sheet: sheet ?? null,
		headerOffset,
		columns: places.flatMap(({ index }, place) => {
			const field = columns[String(index)];
			return field === undefined ? [] : [{ place, field }];
		}),
		answers: Object.fromEntries(Object.entries(answers).filter(([question]) => isOfTheKind(question)))
	};
	const decided = kept.sheet !== null || kept.columns.length > 0 || Object.keys(kept.answers).length > 0;
	return decided || headerOffset !== 0 ? kept : null;
}

/** Questions that are not asked where the file itself says it; then its own word holds, and not what was said of another. */
const saidByNotes: ReadonlySet<string> = new Set(['unit', 'viewpoint']);

/** Remembered answers, without those to what this file says itself; those of now come before them. */
function answersFor(kind: KindMapping, mapping: ScheduleMapping, read: Reading): Record<string, string> {
	const others = Object.entries(kind.answers).filter(([question]) => !saidByNotes.has(question));
	const bare = { ...Object.fromEntries(others), ...mapping.answers };
	const asked = new Set(read({ ...mapping, answers: bare }).questions.map(({ id }) => id));
	const open = Object.entries(kind.answers).filter(([question]) => asked.has(question));
	return { ...Object.fromEntries(open), ...bare };
}

/**
 * A remembered mapping for the file at hand, with what is decided now before it: a column that was given to the same
 * input then is left to the one of now, and with another sheet or other headings only the answers hold.
 */
export function recall(kind: KindMapping, now: ScheduleMapping, read: Reading): ScheduleMapping {
	const bare = read({});
	const sheet = kind.sheet !== null && bare.sheets.includes(kind.sheet) ? kind.sheet : undefined;
	const placed = withSheet(sheet);
	const found = read(placed);
	const headerRow = kind.headerOffset === 0 ? undefined : found.headerRow + kind.headerOffset;
	const elsewhere =
		(now.sheet !== undefined && now.sheet !== found.sheet) ||
		(now.headerRow !== undefined && now.headerRow !== (headerRow ?? found.headerRow));
	if (elsewhere || (headerRow !== undefined && headerRow < 1))
		return { ...now, answers: answersFor(kind, now, read) };
	const at: ScheduleMapping = headerRow === undefined ? placed : { ...placed, headerRow };
	const places = read(at).columns;
	const taken = new Set(Object.values(now.columns ?? {}));
	const columns = kind.columns.flatMap(({ place, field }) => {
		const column = places[place];
		const free = field === null || !taken.has(field);
		return column && free ? [[String(column.index), field] as const] : [];
	});
	const whole = { ...at, ...now, columns: { ...Object.fromEntries(columns), ...now.columns } };
	return { ...whole, answers: answersFor(kind, whole, read) };
}
