/** The file of a packing list, whatever kind it is: a document of UBL, a workbook or delimited text. */
import type { DeliveryPreview } from '../../changes/deliveries.ts';
import { readPackingList, type PackingMapping } from '../../exchange/packing-list.ts';
import { missingFrom } from '../../exchange/packing-list/reading.ts';
import { looksLikeXml } from '../../exchange/purchase-documents/documents.ts';
import { readPurchaseDocument } from '../../exchange/purchase-documents/purchase-document.ts';
import { readTableFile } from '../../exchange/table-file.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { done, refuse, type Outcome } from './outcome.ts';

export type PackingFile = Pick<
	DeliveryPreview,
	'columns' | 'sheet' | 'sheets' | 'headerRow' | 'lines' | 'facts' | 'missing' | 'skipped' | 'questions'
>;

export async function readPackingFile(
	{ name, bytes }: { readonly name: string; readonly bytes: Uint8Array },
	{ measures, mapping }: { readonly measures: Measures; readonly mapping: PackingMapping }
): Promise<Outcome<PackingFile>> {
	if (looksLikeXml(bytes)) {
		const read = readPurchaseDocument(name, bytes, { measures });
		if (!read.ok) return refuse(422, { message: read.message, place: read.place });
		if (read.kind !== 'DespatchAdvice')
			return refuse(422, {
				message: `${name} is an answer to an order (OrderResponse), no packing list. Take it in at its order.`
			});
		const { lines, facts, skipped, questions } = read;
		const document = { columns: [], sheet: '', sheets: [], headerRow: 0 };
		return done({ ...document, lines, facts, missing: missingFrom(facts), skipped, questions });
	}
	const file = await readTableFile(name, bytes);
	if (!file.ok) return refuse(422, { message: file.message });
	const list = readPackingList(file.sheets, { measures, mapping });
	if (!list.ok) return refuse(422, { message: list.message, place: list.place });
	const { columns, sheet, headerRow, lines, facts, missing, skipped, questions } = list;
	const sheets = file.sheets.map((one) => one.name);
	return done({ columns, sheet, sheets, headerRow, lines, facts, missing, skipped, questions });
}
