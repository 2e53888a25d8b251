/** Text that ends in a number or in one letter, which can be counted on: `C-101`, `Stall 9`, `C-101A`. */

export interface CountedText {
	/** What stands before the number or letter. */
	readonly stem: string;
	/** A letter counts from A = 1. */
	readonly count: bigint;
	readonly by: 'number' | 'capital' | 'small';
	/** Digits of a number written with zeros in front; 0 without. */
	readonly width: number;
}

/** A letter counts where it stands alone or after a digit, a space or a mark: in `West` there is none. */
export function countedText(text: string): CountedText | null {
	const number = /^(.*?)(\d+)$/su.exec(text);
	if (number) {
		const [, stem = '', digits = ''] = number;
		return { stem, count: BigInt(digits), by: 'number', width: digits.startsWith('0') ? digits.length : 0 };
	}
	const letter = /^(|.*[\d\s\p{P}])([A-Za-z])$/su.exec(text);
	if (!letter) return null;
	const [, stem = '', sign = ''] = letter;
	const capital = sign < 'a';
	const count = BigInt(sign.charCodeAt(0) - (capital ? 64 : 96));
	return { stem, count, by: capital ? 'capital' : 'small', width: 0 };
}

/** The text with another count; null below 0, or below A. After Z comes AA. */
export function withCount({ stem, by, width }: CountedText, count: bigint): string | null {
	if (count < (by === 'number' ? 0n : 1n)) return null;
	if (by === 'number') return stem + String(count).padStart(width, '0');
	let letters = '';
	for (let rest = count; rest > 0n; rest = (rest - 1n) / 26n)
		letters = String.fromCharCode(Number((rest - 1n) % 26n) + (by === 'capital' ? 65 : 97)) + letters;
	return stem + letters;
}
