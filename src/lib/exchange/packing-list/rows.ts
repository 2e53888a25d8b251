/** What each row below the headings is: a line of goods, words that continue the line above, or no line, and why. */
import { repeatsHeadings } from '../headings.ts';
import { oneLine, textOf, type SheetRow } from '../sheet.ts';
import { unitInNote } from '../table-notes.ts';
import { crateInRow } from './crates.ts';
import { sizesIn } from './facts.ts';
import type { PackingField } from './fields.ts';
import { readOrderLine } from './order-line.ts';
import { saysNothing } from './read-line.ts';
import { isTotal, type PackingTable } from './tables.ts';
import { viewpointIn } from './viewpoint.ts';

export interface GoodsRow {
	readonly row: SheetRow;
	readonly table: PackingTable;
	/** The crate that a row above names. */
	readonly crate: string | null;
	/** Words of rows below that continue it. */
	readonly more: { description: string[]; remark: string[] };
	/** Nothing in it says what part it is, though it counts something. */
	readonly nameless: boolean;
}

export interface SortedRows {
	readonly goods: readonly GoodsRow[];
	readonly skipped: readonly { readonly line: number; readonly why: string }[];
	/** Rows that may hold facts. */
	readonly around: readonly SheetRow[];
}

/** Words of a row that is about the list and not about its goods. Common practice, no source. */
const aboutTheList =
	/:\s*(?:_|$)|^(?:note|nb|n\.b|remarks?|please|all|end of|end$|continued|cont\b|checked|received|signed|signature|packed|picked|loaded|date|driver|carrier|thank|see|page|pg\.?|packing (?:list|slip)|weight|gross|net|order|po|job|project|your|our)\b|^[*=_–—-]{2,}|_{3,}/iu;

const isAboutTheList = (text: string): boolean =>
	aboutTheList.test(text) ||
	crateInRow(text) !== null ||
	unitInNote(text) !== null ||
	viewpointIn(text) !== null ||
	(sizesIn(text) !== null && /\b(?:are|is|all)\b/iu.test(text));

const textAt = (row: SheetRow, index: number): string => oneLine(textOf(row.cells[index]));

/** The crate that the head of the list names, where it names only one. */
function crateOfHead(rows: readonly SheetRow[]): string | null {
	const last = rows.at(-1);
	const beside = last?.cells.map((cell) => oneLine(textOf(cell))).find((text) => text !== '');
	const above = beside === undefined ? null : crateInRow(beside);
	if (above) return above.name;
	const named = new Set(
		rows.flatMap((row) => row.cells.flatMap((cell) => crateInRow(oneLine(textOf(cell)))?.name ?? []))
	);
	const [only] = named;
	return named.size === 1 && only !== undefined ? only : null;
}

export function sortRows(rows: readonly SheetRow[], tables: readonly PackingTable[]): SortedRows {
	const [first] = tables;
	const goods: GoodsRow[] = [];
	const skipped: { line: number; why: string }[] = [];
	const around: SheetRow[] = [];
	if (!first) return { goods, skipped, around };
	const head = rows.slice(0, first.position);
	around.push(...head);
	let table = first;
	let crate = crateOfHead(head);
	/** The line of goods that the row straight below may continue. */
	let open: { goods: GoodsRow; line: number } | null = null;
	const starts = new Map(tables.map((each) => [each.position, each]));
	rows.slice(first.position + 1).forEach((row, at) => {
		const next = starts.get(first.position + 1 + at);
		const before = open?.line === row.line - 1 ? open : null;
		open = null;
		if (next) {
			table = next;
			skipped.push({ line: row.line, why: 'headings of another table, read by their own names' });
			return;
		}
		const what = whatIs(row, table, before !== null);
		if (what.kind === 'goods') {
			const found: GoodsRow = {
				row,
				table,
				crate,
				more: { description: [], remark: [] },
				nameless: what.nameless
			};
			goods.push(found);
			open = { goods: found, line: row.line };
			return;
		}
		if (what.kind === 'more' && before) {
			before.goods.more[what.field].push(what.text);
			skipped.push({
				line: row.line,
				why: `continues line ${before.goods.row.line}: its ${what.field} goes on`
			});
			open = { goods: before.goods, line: row.line };
			return;
		}
		if (what.kind === 'crate') crate = what.name;
		skipped.push({
			line: row.line,
			why: what.kind === 'more' ? 'a remark: one text and nothing else' : what.why
		});
		if (what.kind !== 'skip' || !what.ofTable) around.push(row);
	});
	return { goods, skipped, around };
}

type What =
	| { kind: 'goods'; nameless: boolean }
	| { kind: 'more'; field: 'description' | 'remark'; text: string }
	| { kind: 'crate'; name: string; why: string }
	/** `ofTable`: headings and totals, which hold no facts. */
	| { kind: 'skip'; why: string; ofTable: boolean };

function whatIs(row: SheetRow, table: PackingTable, belowGoods: boolean): What {
	const skip = (why: string, ofTable = false): What => ({ kind: 'skip', why, ofTable });
	if (repeatsHeadings(row, table.headings)) return skip('the headings repeated', true);
	if (isTotal(row)) return skip('a total', true);
	const texts = row.cells.map((cell) => oneLine(textOf(cell)));
	const filled = texts.flatMap((text, index) => (text === '' ? [] : [{ text, index }]));
	const [lead] = filled;
	if (!lead) return skip('nothing is written in it', true);
	if (row.struck && filled.every(({ index }) => row.struck?.includes(index)))
		return skip('struck through', true);
	const fieldAt = (index: number): PackingField | null =>
		table.columns.find((column) => column.index === index)?.field ?? null;
	const says = (field: PackingField): boolean => {
		const column = table.columns.find((each) => each.field === field);
		return column !== undefined && !saysNothing(textAt(row, column.index));
	};
	const counts =
		(['quantity', 'ordered', 'backordered'] as const).some(says) ||
		table.maybeQuantity.some((index) => !saysNothing(textAt(row, index)));
	const named = crateInRow(filled.map(({ text }) => text).join(' '));
	if (
		named &&
		(filled.length === 1 ||
			!counts ||
			(filled.length === 2 && /^\D+$/u.test(lead.text) && fieldAt(lead.index) !== 'crate'))
	)
		return { kind: 'crate', name: named.name, why: 'names the crate of the lines below' };
	if (filled.length === 1) {
		const field = fieldAt(lead.index);
		const about = isAboutTheList(lead.text);
		if (belowGoods && !about && (field === 'description' || field === 'kind' || field === 'remark'))
			return { kind: 'more', field: field === 'remark' ? 'remark' : 'description', text: lead.text };
		return skip(/^(?:page|pg)\b/iu.test(lead.text) ? 'a page number' : 'a remark: one text and nothing else');
	}
	const line = table.columns.find(({ field }) => field === 'orderLine');
	const part =
		(['partId', 'mark', 'kind', 'description'] as const).some(says) ||
		(line !== undefined && readOrderLine(textAt(row, line.index)) !== null);
	if (!counts && isAboutTheList(lead.text)) return skip('about the list, not about goods');
	if (part) return { kind: 'goods', nameless: false };
	return counts ? { kind: 'goods', nameless: true } : skip('nothing says what part it is');
}
