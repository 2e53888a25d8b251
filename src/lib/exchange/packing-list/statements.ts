/** What stands around a table, as statements: a cell, or a label with the value beside or below it. */
import { oneLine, textOf, type SheetRow } from '../sheet.ts';

export interface Statement {
	readonly line: number;
	readonly text: string;
}

/** Characters of a statement that are looked at. */
const longest = 500;

const label =
	/^(?:(?:packing|pack|delivery|des?patch|shipping|shipment|shipper|your|our|customer|client|sales|purchase|order|po|p\.\s?o\.|job|project|site|list|crates?|box(?:es)?|cartons?|pages?|rev(?:ision)?|hands?|handing|sizes?|lengths?|dimensions?|deliver|ship|total|number|no|date|ref|reference|name|to|for|of|note|advice|slip|ticket|docket|line|all|in|#|&|and)\b[.:#]?\s*|#\s*)+$/iu;

const isLabel = (text: string): boolean => text.length <= 40 && (/[:#]$/u.test(text) || label.test(text));

const joined = (name: string, value: string): string => `${name.replace(/\s*:$/u, '')}: ${value}`;

/** Statements of rows that hold no parts, in their order. */
export function statementsOf(rows: readonly SheetRow[]): Statement[] {
	const found: Statement[] = [];
	rows.forEach((row, at) => {
		const cells = row.cells.map((cell) => oneLine(textOf(cell)).slice(0, longest));
		const filled = cells.flatMap((text, index) => (text === '' ? [] : [{ text, index }]));
		const below = rows[at + 1];
		const allLabels = filled.length >= 2 && filled.every(({ text }) => isLabel(text));
		filled.forEach(({ text, index }, i) => {
			found.push({ line: row.line, text });
			if (!isLabel(text)) return;
			const beside = allLabels ? undefined : filled[i + 1]?.text;
			const under = allLabels && below?.line === row.line + 1 ? oneLine(textOf(below.cells[index])) : '';
			const value = beside !== undefined && !isLabel(beside) ? beside : under.slice(0, longest);
			if (value !== '') found.push({ line: row.line, text: joined(text, value) });
		});
	});
	return found;
}
