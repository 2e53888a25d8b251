/** Tab-separated text as spreadsheets put it on the clipboard: quoted where a cell holds a tab, quote or line end. */

/** Reads rows of cells. One line end at the very end does not make a row. */
export function readPlainTable(text: string): string[][] {
	const rows: string[][] = [[]];
	let cell = '';
	let quoted = false;
	let atStart = true;
	for (let i = 0; i < text.length; i++) {
		const letter = text[i] ?? '';
		if (quoted) {
			if (letter !== '"') cell += letter;
			else if (text[i + 1] === '"') {
				cell += '"';
				i++;
			} else quoted = false;
			continue;
		}
		if (letter === '"' && atStart && closes(text, i)) {
			quoted = true;
			atStart = false;
		} else if (letter === '\t' || letter === '\n') {
			rows.at(-1)?.push(cell);
			cell = '';
			atStart = true;
			if (letter === '\n' && i < text.length - 1) rows.push([]);
			else if (letter === '\n') return rows;
		} else if (letter !== '\r') {
			cell += letter;
			atStart = false;
		}
	}
	rows.at(-1)?.push(cell);
	return rows;
}

/** A quote that opens a quoted cell has its partner before a tab, a line end or the end. `"` alone may mean inches. */
function closes(text: string, from: number): boolean {
	for (let i = from + 1; i < text.length; i++) {
		if (text[i] !== '"') continue;
		if (text[i + 1] === '"') {
			i++;
			continue;
		}
		const next = text[i + 1];
		return next === undefined || next === '\t' || next === '\n' || next === '\r';
	}
	return false;
}

/** One cell for the clipboard. */
export const plainCell = (text: string): string =>
	/[\t\n\r]/u.test(text) || text.startsWith('"') ? `"${text.replaceAll('"', '""')}"` : text;
