/** Marks and ids in one spelling, and in the spellings that scans and eyes make of them. */

/** A mark or id in one spelling: capitals, no spaces, one dash. */
export const plainMark = (text: string): string =>
	text
		.normalize('NFKC')
		.replace(/[‐‑‒–—−]/gu, '-')
		.replace(/\s+/gu, '')
		.toUpperCase();

/** Digits and letters that scans and eyes confuse become the same. */
export const lookalike = (text: string): string => text.replace(/O/gu, '0').replace(/[IL|]/gu, '1');

export const withoutSeparators = (text: string): string => text.replace(/[-_./]/gu, '');

/** More of them, in marks only: `5-201` for `S-201`, `C-10Z` for `C-102`. */
const lookalikeInMarks = (text: string): string =>
	lookalike(text).replace(/S/gu, '5').replace(/Z/gu, '2').replace(/B/gu, '8');

/** As it may be misread: look-alikes, no separators but between figures, no zeros in front. `T-1` is `T-001`. */
export const misreadMark = (plain: string): string =>
	lookalikeInMarks(plain)
		.replace(/(?<=\d)[-_./]+(?=\d)/gu, '.')
		.replace(/[-_/]+|(?<!\d)\.|\.(?!\d)/gu, '')
		.replace(/(?<!\d)0+(?=\d)/gu, '');

/** Number of an order, without the words that stand before it: `PO 1042-01` is `104201`. */
export const orderKey = (text: string): string =>
	lookalike(
		withoutSeparators(
			plainMark(text.replace(/\b(?:our|your|purchase|order|po|p\.o\.|number|no)\b\.?|#|:/giu, ' '))
		)
	);
