/** Documents that suppliers send: which of them a file is, is told by what is in it. */
import type { Measures } from '../../takeoff/inputs.ts';
import { readDespatch, type DespatchReading } from './despatch-advice.ts';
import { openDocument, type DocumentRefusal } from './documents.ts';
import { readResponse, type OrderResponseReading } from './order-response.ts';

/**
 * Reads an OrderResponse or a DespatchAdvice of UBL 2.1; `kind` of the reading says which it was.
 *
 * @param name of the file, for messages
 * @param measures of the job: what a comma in a written length means
 */
export function readPurchaseDocument(
	name: string,
	bytes: Uint8Array,
	{ measures }: { readonly measures: Measures }
): OrderResponseReading | DespatchReading | DocumentRefusal {
	const opened = openDocument(name, bytes);
	if (!opened.ok) return opened;
	return opened.kind === 'OrderResponse'
		? readResponse(name, opened.root, measures)
		: readDespatch(name, opened.root, measures);
}
