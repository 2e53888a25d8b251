/** The schedule of openings as it is printed: chosen columns in words, and what stops each opening. No price among it. */
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import type { Engine, JobTakeoff } from '../../takeoff/engine.ts';
import { showCell } from '../../takeoff/cell.ts';
import { inputs, type InputDefinition } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff, Severity } from '../../takeoff/result.ts';
import { showKey, showQuantity, spaced } from '../../takeoff/show.ts';

/** The column that counts stops, cautions and notes. */
const checksColumn = 'checks';

export interface ScheduleColumn {
	readonly id: string;
	readonly title: string;
	/** Figures stand at the right. */
	readonly figure: boolean;
	/** One for each row. */
	readonly cells: readonly string[];
}

interface OpeningChecks {
	readonly stops: readonly string[];
	readonly cautions: number;
	readonly notes: number;
}

export interface ScheduleSheet {
	/** Mark of each row, or the opening that has a row of its own. */
	readonly names: readonly string[];
	readonly columns: readonly ScheduleColumn[];
	readonly checks: readonly OpeningChecks[];
	readonly openings: number;
}

const countOf = (opening: OpeningTakeoff, severity: Severity): number =>
	opening.checks.filter((check) => check.severity === severity).length;

const checkWords = (opening: OpeningTakeoff): string => {
	const words = (['stop', 'caution', 'note'] as const).flatMap((severity) => {
		const count = countOf(opening, severity);
		return count === 0 ? [] : [`${String(count)} ${severity}${count === 1 ? '' : 's'}`];
	});
	return words.length === 0 ? 'none' : words.join(', ');
};

function inputText(input: InputDefinition, opening: OpeningTakeoff, job: JobTakeoff): string {
	if (input.id === 'quantity') return String(opening.quantity);
	const text = showCell(input, opening.cell(input.id), job.measures);
	return input.kind === 'key' && !input.table ? spaced(text) : text;
}

function resultText(
	engine: Engine,
	definition: QuantityDefinition,
	opening: OpeningTakeoff,
	job: JobTakeoff
): string {
	const value = opening.get(definition.id);
	if (value === null) return '';
	if (typeof value === 'number')
		return definition.kind === 'flag'
			? value === 1
				? 'yes'
				: 'no'
			: showQuantity(value, definition, job.measures);
	return showKey(engine.book, definition.id, value);
}

interface Source {
	readonly id: string;
	readonly title: string;
	readonly figure: boolean;
	readonly text: (opening: OpeningTakeoff) => string;
}

/** Every column there is: what is typed, the checks, what is worked out. The mark stands in front of all. */
function sources(engine: Engine, job: JobTakeoff): Source[] {
	return [
		...inputs
			.filter(({ id }) => id !== 'mark')
			.map((input) => ({
				id: input.id,
				title: input.title,
				figure: input.kind !== 'text' && input.kind !== 'key',
				text: (opening: OpeningTakeoff) => inputText(input, opening, job)
			})),
		{ id: checksColumn, title: 'Checks', figure: false, text: checkWords },
		...engine.quantities.map((definition) => ({
			id: definition.id,
			title: definition.title,
			figure: definition.kind !== 'key' && definition.kind !== 'flag',
			text: (opening: OpeningTakeoff) => resultText(engine, definition, opening, job)
		}))
	];
}

/** Ids that are no columns of this book. `mark` is one: it stands in front anyway. */
export function unknownColumns(engine: Engine, ids: readonly string[]): string[] {
	const known = new Set<string>([
		checksColumn,
		...inputs.map(({ id }) => id),
		...engine.quantities.map(({ id }) => id)
	]);
	return ids.filter((id) => !known.has(id));
}

/**
 * @param openings of the job, in the order in which they are to stand
 * @param columns ids in the order wanted; null: every column that holds something.
 */
export function scheduleSheet(
	engine: Engine,
	job: JobTakeoff,
	openings: readonly OpeningTakeoff[],
	columns: readonly string[] | null
): ScheduleSheet {
	const all = sources(engine, job);
	const wanted =
		columns === null ? all : columns.flatMap((id) => all.find((source) => source.id === id) ?? []);
	const written = wanted.map(({ id, title, figure, text }): ScheduleColumn => ({
		id,
		title,
		figure,
		cells: openings.map(text)
	}));
	return {
		names: openings.map(({ openingId, mark }) => openingId ?? mark),
		columns: columns === null ? written.filter(({ cells }) => cells.some((cell) => cell !== '')) : written,
		checks: openings.map((opening) => ({
			stops: opening.checks.filter(({ severity }) => severity === 'stop').map(({ text }) => text),
			cautions: countOf(opening, 'caution'),
			notes: countOf(opening, 'note')
		})),
		openings: openings.reduce((sum, { quantity }) => sum + quantity, 0)
	};
}
