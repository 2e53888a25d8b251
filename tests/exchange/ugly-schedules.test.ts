/**
 * Ugly schedules against the readings written for them before the reader (`fixtures/schedules/ugly`), before and after
 * a person has answered. All invented.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import {
	readSchedule,
	scheduleRows,
	unansweredQuestions,
	type SchedulePreview,
	type ScheduleRow
} from '../../src/lib/exchange/schedule.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { inputOf, isInputId, type Cell } from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';

const sizes = z.record(z.string(), z.number()).optional();
const rowSchema = z.strictObject({
	line: z.number(),
	cells: z.record(z.string(), z.string()),
	inches: sizes,
	millimetres: sizes,
	held: z.boolean().optional(),
	noteHas: z.array(z.string()).optional(),
	problems: z
		.array(
			z.strictObject({
				column: z.string(),
				field: z.string(),
				text: z.string(),
				offers: z.string().nullable().optional()
			})
		)
		.optional()
});
const leftOutSchema = z.strictObject({ line: z.number(), why: z.string() });
const expectedSchema = z.strictObject({
	about: z.string(),
	measures: z.enum(['imperial', 'metric']),
	sheet: z.string().optional(),
	headerRow: z.number(),
	asks: z.array(
		z.strictObject({
			id: z.string(),
			lines: z.array(z.number()).optional(),
			values: z.array(z.string()),
			answer: z.string().nullable()
		})
	),
	rows: z.array(rowSchema),
	leftOut: z.array(leftOutSchema),
	answered: z
		.array(
			z.strictObject({
				answers: z.record(z.string(), z.string()),
				rows: z.array(rowSchema).optional(),
				leftOut: z.array(leftOutSchema).optional(),
				goesIn: z.number().optional()
			})
		)
		.optional()
});
type ExpectedRow = z.infer<typeof rowSchema>;

const folder = 'fixtures/schedules/ugly';
const files = readdirSync(folder).filter((name) => name.endsWith('.expected.json'));

const isLength = (field: string): boolean => isInputId(field) && inputOf(field).kind === 'length';
const typed = (cell: Cell): string =>
	typeof cell === 'object' && cell !== null ? cell.typed : String(cell ?? '');

/** A row as the expected readings write one; its note only as far as they speak of it. */
function written({ line, cells, problems }: ScheduleRow, like: ExpectedRow | undefined): ExpectedRow {
	const entries = Object.entries(cells).filter(([field]) => field !== 'note' && field !== 'hold');
	const unit = like?.millimetres ? 'millimetres' : 'inches';
	const nm = unit === 'inches' ? 25_400_000 : 1_000_000;
	const note = typeof cells.note === 'string' ? cells.note : '';
	const lengths = entries.flatMap(([field, cell]) =>
		isLength(field) && typeof cell === 'object' && cell !== null ? [[field, cell.amount / nm] as const] : []
	);
	return {
		line,
		cells: Object.fromEntries(
			entries.filter(([field]) => !isLength(field)).map(([field, cell]) => [field, typed(cell)])
		),
		...(lengths.length > 0 || like?.[unit] ? { [unit]: Object.fromEntries(lengths) } : {}),
		...(cells.hold === undefined ? {} : { held: true }),
		...(like?.noteHas ? { noteHas: like.noteHas.filter((text) => note.includes(text)) } : {}),
		...(problems.length > 0 || like?.problems
			? {
					problems: problems.map(({ column, field, text, offers }) => ({
						column: column ?? '',
						field: field ?? '',
						text,
						...(offers === null ? {} : { offers })
					}))
				}
			: {})
	};
}

/** Rows beside their expected readings, paired within their line in order. */
function pairs(
	rows: readonly ScheduleRow[],
	expected: readonly ExpectedRow[]
): [ExpectedRow[], ExpectedRow[]] {
	const seen = new Map<number, number>();
	const found = rows.map((row) => {
		const at = seen.get(row.line) ?? 0;
		seen.set(row.line, at + 1);
		return written(row, expected.filter(({ line }) => line === row.line)[at]);
	});
	return [found, [...expected]];
}

const openings = (preview: SchedulePreview) => preview.rows.filter(({ status }) => status === 'opening');
const leftOut = (preview: SchedulePreview) =>
	preview.rows.flatMap(({ line, reason }) => (reason === null ? [] : [{ line, why: reason }]));

describe('ugly schedules', () => {
	test('there are enough of them', () => {
		expect(files.length).toBeGreaterThanOrEqual(20);
	});

	describe.each(files)('%s', (file) => {
		const expected = expectedSchema.parse(JSON.parse(readFileSync(join(folder, file), 'utf8')));
		const name = file.replace('.expected.json', '');
		const read = async (answers: Record<string, string> = {}): Promise<SchedulePreview> => {
			const table = await readTableFile(name, readFileSync(join(folder, name)));
			if (!table.ok) throw new Error(table.message);
			return readSchedule(table.sheets, {
				measures: expected.measures,
				keysFor: (input) => keysFor(demoTechnicalBook, input),
				mapping: { answers }
			});
		};

		test('before an answer', async () => {
			const preview = await read();
			expect(preview.problems).toEqual([]);
			if (expected.sheet !== undefined) expect(preview.sheet).toBe(expected.sheet);
			expect(preview.headerRow).toBe(expected.headerRow);
			const byId = (a: { id: string }, b: { id: string }) => (a.id < b.id ? -1 : 1);
			expect(
				preview.questions
					.map(({ id, lines, choices, answer }) => ({
						id,
						...(expected.asks.find((ask) => ask.id === id)?.lines ? { lines } : {}),
						values: choices.map(({ value }) => value),
						answer
					}))
					.sort(byId)
			).toEqual([...expected.asks].sort(byId));
			const [found, told] = pairs(openings(preview), expected.rows);
			expect(found).toEqual(told);
			expect(leftOut(preview)).toEqual(expected.leftOut);
			if (unansweredQuestions(preview).length > 0) expect(scheduleRows(preview)).toEqual([]);
		});

		test.each((expected.answered ?? []).map((answered, at) => ({ ...answered, at })))(
			'answered $answers',
			async ({ answers, rows = [], leftOut: out = [], goesIn }) => {
				const [before, after] = [await read(), await read(answers)];
				const [changed, gone] = [new Set(rows.map(({ line }) => line)), new Set(out.map(({ line }) => line))];
				const [found, told] = pairs(
					openings(after).filter(({ line }) => changed.has(line)),
					rows
				);
				expect(found).toEqual(told);
				// Everything else reads as it did.
				const others = (preview: SchedulePreview) =>
					openings(preview)
						.filter(({ line }) => !changed.has(line) && !gone.has(line))
						.map(({ line, cells }) => ({ line, cells }));
				expect(others(after)).toEqual(others(before));
				const outBefore = leftOut(before).filter(({ line }) => !changed.has(line) && !gone.has(line));
				expect(leftOut(after)).toEqual([...outBefore, ...out].sort((a, b) => a.line - b.line));
				if (goesIn !== undefined) expect(scheduleRows(after)).toHaveLength(goesIn);
			}
		);
	});
});
