/** The Material list sheet: the parts as they were issued. Values, not live: a part keeps what it was ordered as. */
import type { Workbook } from 'exceljs';
import type { Part } from '../../takeoff/result.ts';
import { materialHeadings, materialRow } from '../material-list.ts';
import { look, textFormat } from './look.ts';
import { openSheet, put, setColumns, takeTurns, writeTitle, type Printing } from './sheet-writing.ts';
import type { WorkbookJob } from './workbook-job.ts';

const widths = [17, 14, 12, 13, 34, 24, 18, 13, 13, 8, 18, 10, 8, 9];
const headingRow = 4;

export async function writeMaterials(
	workbook: Workbook,
	job: WorkbookJob,
	parts: readonly Part[],
	printing: Printing
): Promise<void> {
	const text = {
		name: 'Material list',
		title: `${job.name}: material list`,
		lead: 'Material list as exported: values from the app, one line a part. It does not follow changes in this file.'
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		columns: materialHeadings.length,
		width: widths.reduce((sum, width) => sum + width, 0),
		onePage: true,
		headingsFrom: headingRow,
		frozenColumns: 2,
		frozenRows: headingRow,
		lastRow: headingRow + Math.max(parts.length, 1)
	});
	setColumns(
		sheet,
		widths.map((width) => ({ width }))
	);
	writeTitle(sheet, text);
	const quantityAt = materialHeadings.indexOf('Quantity');
	materialHeadings.forEach((heading, i) =>
		put(sheet, headingRow, i + 1, heading, look('heading', i === quantityAt ? { align: 'right' } : {}))
	);
	sheet.autoFilter = {
		from: { row: headingRow, column: 1 },
		to: { row: headingRow + Math.max(parts.length, 1), column: materialHeadings.length }
	};
	const words = look('text', { format: textFormat });
	const figure = look('text', { align: 'right' });
	for (const [at, part] of parts.entries()) {
		materialRow(part, job.measures).forEach((value, i) => {
			const isFigure = i === quantityAt;
			put(sheet, headingRow + 1 + at, i + 1, isFigure ? Number(value) : value, isFigure ? figure : words);
		});
		await takeTurns(at);
	}
	sheet.commit();
}
