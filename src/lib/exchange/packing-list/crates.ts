/** Crates as packing lists name them: `3`, `crate 3 of 7`, `3/7`, and rows such as `CRATE 3 OF 7` above a table. */

export interface CrateReading {
	/** `3`; as written where it is no plain number. */
	readonly name: string;
	/** How many there are, where it says so. */
	readonly all: number | null;
}

const box = String.raw`(?:crates?|box(?:es)?|cases?|cartons?|ctns?)`;
const other = String.raw`(?:bundles?|pallets?|skids?|packages?|pkgs?)`;
const name = String.raw`([a-z]?\d{1,3}[a-z]?|[a-z])`;
const of = String.raw`(?:\s*(?:of|out of|/)\s*(\d{1,3}))`;
const cell = new RegExp(String.raw`^(?:${box}\.?\s*(?:no\.?|number|#)?\s*:?\s*)?${name}${of}?$`, 'iu');
const row = new RegExp(
	String.raw`^[*=\-–—\s]*(${box}|${other})\b\.?\s*(?:no\.?|number|#)?\s*:?\s*${name}\b(?!\s*(?:,|&|and|to|[-–])\s*\d)${of}?(?![\d/])`,
	'iu'
);

const plain = (text: string): string => text.replace(/^0+(?=\d)/u, '').toUpperCase();

/** The crate in a cell of the column of crates. */
export function readCrate(text: string): CrateReading {
	const [, crate, all] = cell.exec(text) ?? [];
	if (crate === undefined) return { name: text, all: null };
	return { name: plain(crate), all: all === undefined ? null : Number(all) };
}

/** The crate that a row above its lines names; null for any other text. Bundles and pallets keep their word. */
export function crateInRow(text: string): CrateReading | null {
	const [, word, crate, all] = row.exec(text) ?? [];
	if (word === undefined || crate === undefined) return null;
	// `Box is open`: one letter is a name only in capitals, or when counted.
	if (/^[a-z]$/u.test(crate) && all === undefined) return null;
	const isBox = new RegExp(`^${box}$`, 'iu').test(word);
	return {
		name: isBox ? plain(crate) : `${word.toLowerCase()} ${plain(crate)}`,
		all: all === undefined ? null : Number(all)
	};
}

/** `2 & 3`, `1-3`, `4 to 6`: each of them. Anything else is one. */
export function cratesNamed(text: string): string[] {
	if (!/^\d{1,3}(?:\s*(?:,|&|\+|and|to|[-–])\s*\d{1,3})+$/iu.test(text)) return [text];
	const found: string[] = [];
	for (const part of text.split(/\s*(?:,|&|\+|and)\s*/iu)) {
		const [from, to] = part.split(/\s*(?:to|[-–])\s*/iu).map(Number);
		if (from === undefined) continue;
		for (let at = from; at <= Math.max(from, to ?? from); at++) found.push(String(at));
	}
	return found;
}
