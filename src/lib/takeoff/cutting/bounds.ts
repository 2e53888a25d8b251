/** Bars that any plan needs. */
import { sum, type Packing } from './packing.ts';

/** Total length over the length of a bar, rounded up: L₁. */
export const lengthBound = ({ room, sizes, counts }: Packing): number =>
	Math.ceil(sum(sizes.map((size, i) => size * (counts[i] ?? 0))) / room);

/**
 * The bound of Martello and Toth (1990), L₂. For a threshold t of at most half a bar: sizes above room − t have a bar to
 * themselves; those above half a bar share none with each other; those from t to half a bar go into what these leave, or
 * into more bars. The largest over all t.
 */
export function pairBound(packing: Packing): number {
	const { room, sizes, counts } = packing;
	/** Pieces, and their length, of the sizes before each position. */
	const pieces = [0];
	const lengths = [0];
	sizes.forEach((size, i) => {
		pieces.push((pieces[i] ?? 0) + (counts[i] ?? 0));
		lengths.push((lengths[i] ?? 0) + size * (counts[i] ?? 0));
	});
	const between = (sums: readonly number[], from: number, to: number): number =>
		(sums[to] ?? 0) - (sums[from] ?? 0);
	const firstNarrow = sizes.findIndex((size) => 2 * size <= room);
	if (firstNarrow < 0) return between(pieces, 0, sizes.length);

	let bound = lengthBound(packing);
	/** Sizes before this position are above room − t. */
	let shared = 0;
	for (let last = sizes.length - 1; last >= firstNarrow; last--) {
		const threshold = sizes[last] ?? 0;
		while (shared < firstNarrow && (sizes[shared] ?? 0) > room - threshold) shared++;
		const open = room * between(pieces, shared, firstNarrow) - between(lengths, shared, firstNarrow);
		const narrow = between(lengths, firstNarrow, last + 1);
		const more = Math.max(0, Math.ceil((narrow - open) / room));
		bound = Math.max(bound, between(pieces, 0, firstNarrow) + more);
	}
	return bound;
}
