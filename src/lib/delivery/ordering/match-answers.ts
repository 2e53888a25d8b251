/** Which line of an order a line of its acknowledgement answers. */
import { readWords } from '../kind-words.ts';
import { plainMark } from '../spelling.ts';
import type { AcknowledgedLine } from './acknowledgement.ts';
import { isFill } from './attributes.ts';
import type { PurchaseLine } from './purchase-order.ts';

export type Answered =
	| { readonly line: PurchaseLine }
	/** Why it answers none; `candidates` where it could be several. */
	| { readonly line: null; readonly candidates: readonly PurchaseLine[] };

const isAt = (line: PurchaseLine, mark: string): boolean => {
	const plain = plainMark(mark);
	return [...line.marks, ...line.openingIds].some((name) => plainMark(name) === plain);
};

interface Said {
	readonly answer: AcknowledgedLine;
	readonly kinds: ReturnType<typeof readWords>['kinds'];
	readonly hand: 'left' | 'right' | null;
}

/** What it says without its sizes can be this line. A complete unit is told by its mark alone. */
function canMean({ answer, kinds, hand }: Said, line: PurchaseLine): boolean {
	if (isFill(line)) return false;
	if (answer.mark !== null && !isAt(line, answer.mark)) return false;
	if (line.kind === null) return answer.mark !== null && kinds.length === 0;
	if (kinds.length > 0 ? !kinds.includes(line.kind) : answer.mark === null) return false;
	return hand === null || line.hand === null || hand === line.hand;
}

const near = (a: number | null, b: number | null, tolerance: number): boolean =>
	a === null || b === null || Math.abs(a - b) <= tolerance;

/**
 * By the number it names, else by mark, words and sizes, and then only where exactly one line fits: first with its
 * sizes, then without them, so that a wrong size is told as one.
 *
 * @param hand as the order sees it
 * @param tolerance of lengths, nm
 */
export function matchAnswer(
	answer: AcknowledgedLine,
	hand: 'left' | 'right' | null,
	lines: readonly PurchaseLine[],
	tolerance: number
): Answered {
	if (answer.orderLine !== null) {
		const line = lines.find(({ number }) => number === answer.orderLine);
		return line ? { line } : { line: null, candidates: [] };
	}
	const { kinds, mixed } = readWords(answer.description);
	if (mixed) return { line: null, candidates: [] };
	const possible = lines.filter((line) => canMean({ answer, kinds, hand }, line));
	const measured = possible.filter(
		(line) => near(answer.length, line.length, tolerance) && near(answer.width, line.width, tolerance)
	);
	const among = measured.length > 0 ? measured : possible;
	const [line, other] = among;
	return line && !other ? { line } : { line: null, candidates: among };
}
