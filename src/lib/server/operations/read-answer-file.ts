/** The file of an answer to an order, whatever kind it is: a document of UBL, a workbook or delimited text. */
import type { Acknowledgement } from '../../delivery/ordering/acknowledgement.ts';
import {
	readAcknowledgementTable,
	type AcknowledgementOptions
} from '../../exchange/acknowledgement-table.ts';
import { readPurchaseDocument } from '../../exchange/purchase-documents/purchase-document.ts';
import { readTableFile } from '../../exchange/table-file.ts';
import type { AnswerTaken } from '../../changes/orders.ts';
import { done, refuse, type Outcome } from './outcome.ts';

export interface AnswerFile {
	readonly name: string;
	readonly bytes: Uint8Array;
}

export interface AnswerRead {
	readonly acknowledgement: Acknowledgement;
	readonly questions: Extract<AnswerTaken, { taken: false }>['questions'];
	readonly skipped: AnswerTaken['skipped'];
}

/** Its first sign that is no blank and no mark of the encoding. */
function startsAsXml(bytes: Uint8Array): boolean {
	for (const byte of bytes.subarray(0, 200)) {
		// Byte order marks, the zeros of UTF-16, and blanks.
		if ([0xef, 0xbb, 0xbf, 0xfe, 0xff, 0, 0x20, 9, 10, 13].includes(byte)) continue;
		return byte === 0x3c;
	}
	return false;
}

export async function readAnswerFile(
	{ name, bytes }: AnswerFile,
	options: AcknowledgementOptions
): Promise<Outcome<AnswerRead>> {
	if (startsAsXml(bytes)) {
		const read = readPurchaseDocument(name, bytes, options);
		if (!read.ok) return refuse(422, { message: `${read.message} Nothing was taken in.`, place: read.place });
		if (read.kind !== 'OrderResponse')
			return refuse(422, {
				message: `${name} is a packing list (DespatchAdvice), no answer to an order. Take it in under Deliveries.`
			});
		const { acknowledgement, questions, skipped } = read;
		return done({ acknowledgement, questions, skipped });
	}
	const file = await readTableFile(name, bytes);
	if (!file.ok) return refuse(422, { message: file.message });
	const read = readAcknowledgementTable(file.sheets, options);
	if (!read.ok) return refuse(422, { message: read.message, place: read.place });
	const { acknowledgement, questions, skipped } = read;
	return done({ acknowledgement, questions, skipped });
}
