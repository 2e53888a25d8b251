/** Entries of the history that touch a part: its row, its plan, its orders, lists, counts and measures. */
import type { HistoryKind, HistoryListing, RecordChange } from '../../changes/history.ts';
import type { ChainLine, ChainOrder } from '../../changes/chain.ts';
import type { Actor } from '../identity/actor.ts';
import { keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import { readHistory } from './read-history.ts';
import type { Services } from './services.ts';

/** Entries of each kind that are looked through, and those that are told. */
const most = { looked: 400, told: 60, ofRow: 20 } as const;

export interface Touched {
	readonly openingId: string;
	readonly row: string | null;
	readonly orders: readonly Pick<ChainOrder, 'orderId' | 'line'>[];
	readonly lines: readonly Pick<ChainLine, 'deliveryId' | 'delivery' | 'line'>[];
}

/** Whether a text that names a line by its number names another one. */
function namesAnotherLine(text: string, numbers: ReadonlySet<number>): boolean {
	const named = /\bline (\d+)/iu.exec(text)?.[1];
	return named !== undefined && !numbers.has(Number(named));
}

function touches({ openingId, orders, lines }: Touched): (record: RecordChange) => boolean {
	const lineNumbers = new Set(lines.map(({ line }) => line));
	return ({ record, name, id, field }) => {
		switch (record) {
			case 'Order': {
				const numbers = new Set(orders.filter(({ orderId }) => orderId === id).map(({ line }) => line));
				return numbers.size > 0 && !namesAnotherLine(field, numbers);
			}
			case 'Packing list':
				return lines.some(({ deliveryId }) => deliveryId === id) && !namesAnotherLine(field, lineNumbers);
			case 'Count':
				return lines.some(
					({ delivery, line }) =>
						name === delivery ||
						name === `${delivery}, line ${line}` ||
						name.startsWith(`${delivery}, line ${line}:`)
				);
			case 'Opening':
			case 'Field measure':
			case 'Measure':
				return name === openingId;
			default:
				return false;
		}
	};
}

const kinds: readonly HistoryKind[] = ['plan', 'order', 'delivery', 'count', 'measure'];

/** The latest first. */
export async function chainHistory(
	actor: Actor,
	services: Services,
	jobId: string,
	touched: Touched
): Promise<Outcome<HistoryListing[]>> {
	const key = keyOf(actor, jobId);
	const { row } = touched;
	const ofRow =
		row === null ? null : await readHistory(actor, services, jobId, { row, most: String(most.ofRow) });
	if (ofRow && !ofRow.ok) return ofRow;
	const found: HistoryListing[] = [...(ofRow?.value.entries ?? [])];
	const isTouched = touches(touched);
	for (const kind of kinds) {
		const entries = await services.storage.history.search(key, {
			before: null,
			until: null,
			rowIds: null,
			actorId: null,
			kind,
			most: most.looked,
			largest: 1
		});
		for (const { revision, actorId, actorName, title, madeAt, records } of entries) {
			const own = records.filter(isTouched);
			if (own.length === 0) continue;
			found.push({
				...{ revision, kind, actorId, actorName, title, madeAt },
				lines: [],
				lineCount: 0,
				rowCount: 0,
				records: own
			});
		}
	}
	const once = new Map(found.map((entry) => [entry.revision, entry]));
	return done([...once.values()].sort((a, b) => b.revision - a.revision).slice(0, most.told));
}
