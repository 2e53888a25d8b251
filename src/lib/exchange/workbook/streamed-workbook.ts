/** A workbook written as a stream, gathered into its bytes. */
import { once } from 'node:events';
import { PassThrough } from 'node:stream';
import Excel, { type Workbook } from 'exceljs';

/** @param write adds and commits the sheets. @returns the bytes of an .xlsx */
export async function streamedWorkbook(
	madeAt: Date,
	write: (workbook: Workbook) => Promise<void>
): Promise<Uint8Array> {
	const stream = new PassThrough();
	const chunks: Buffer[] = [];
	stream.on('data', (chunk: Buffer) => chunks.push(chunk));
	const ended = once(stream, 'end');
	const workbook = new Excel.stream.xlsx.WorkbookWriter({ stream, useStyles: true, useSharedStrings: true });
	workbook.creator = 'Coilwright';
	workbook.lastModifiedBy = 'Coilwright';
	workbook.created = madeAt;
	workbook.modified = madeAt;
	await write(workbook);
	await workbook.commit();
	await ended;
	return new Uint8Array(Buffer.concat(chunks));
}
