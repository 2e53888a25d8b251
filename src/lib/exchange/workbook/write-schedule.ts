/** The grid as a workbook of one sheet that reads back to the same rows (`exchange/schedule-file.ts`). Values only. */
import type { Workbook } from 'exceljs';
import { fileColumns, fileMark, type ScheduleFile } from '../schedule-file.ts';
import { look, textFormat } from './look.ts';
import { literal } from './row-writing.ts';
import { a4, put, takeTurns, widthFor } from './sheet-writing.ts';
import { streamedWorkbook } from './streamed-workbook.ts';

const headingRow = 2;
const idRow = 3;
const widest = 34;

/** @returns the bytes of an .xlsx without formulas; a sheet for each schedule, under its name */
export function writeScheduleWorkbook(
	files: ReadonlyMap<string, ScheduleFile>,
	madeAt: Date
): Promise<Uint8Array> {
	return streamedWorkbook(madeAt, async (workbook) => {
		for (const [name, file] of files) await writeSheet(workbook, name, file);
	});
}

async function writeSheet(workbook: Workbook, name: string, file: ScheduleFile): Promise<void> {
	const columns = fileColumns(file);
	const markAt = columns.findIndex(({ id }) => id === 'mark');
	const sheet = workbook.addWorksheet(name, {
		views: [{ state: 'frozen', xSplit: markAt === 1 ? 2 : 1, ySplit: idRow, showGridLines: false }],
		pageSetup: {
			orientation: 'landscape',
			...(file.measures === 'metric' ? a4 : {}),
			fitToPage: true,
			fitToWidth: 1,
			fitToHeight: 0,
			printTitlesRow: `${String(headingRow)}:${String(headingRow)}`
		}
	});
	const words = columns.map(({ cell }) =>
		file.openings.reduce((longest, _, at) => Math.max(longest, String(cell(at) ?? '').length), 0)
	);
	sheet.columns = columns.map(({ heading }, i) => ({
		width: widthFor(heading, Math.min(words[i] ?? 0, widest))
	}));
	fileMark(file).forEach((text, i) => put(sheet, 1, i + 1, text, look('id')));
	columns.forEach(({ heading, id }, i) => {
		put(sheet, headingRow, i + 1, heading, look('heading', { wrap: true }));
		put(sheet, idRow, i + 1, id, look('id'));
	});
	sheet.getRow(headingRow).height = 42;
	for (let at = 0; at < file.openings.length; at++) {
		columns.forEach(({ typed, cell }, i) => {
			const value = cell(at);
			const align = typeof value === 'number' ? 'right' : 'left';
			const format = typed && typeof value !== 'number' ? { format: textFormat } : {};
			const content = typeof value === 'string' ? literal(value) : value;
			put(sheet, idRow + 1 + at, i + 1, content, look(typed ? 'typed' : 'worked', { ...format, align }));
		});
		sheet.getRow(idRow + 1 + at).commit();
		await takeTurns(at);
	}
	sheet.commit();
}
