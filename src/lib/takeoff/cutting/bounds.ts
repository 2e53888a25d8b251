/** Bars that any plan needs. */
import { sum, type Packing } from './packing.ts';

/** Total length over the length of a bar, rounded up. */
export const lengthBound = ({ room, sizes, counts }: Packing): number =>
	Math.ceil(sum(sizes.map((size, i) => size * (counts[i] ?? 0))) / room);

/**
 * Martello and Toth's L₂. For a threshold t ≤ room / 2: pieces above room − t have a bar to themselves, those above half
 * a bar never share one with each other, and those from t to half a bar go into what the latter leave, or into more
 * bars. The largest over all t.
 */
export function pairBound(packing: Packing): number {
	const { room, sizes, counts } = packing;
	const half = room / 2;
	let bound = lengthBound(packing);
	for (const t of [0, ...sizes.filter((size) => size <= half)]) {
		let alone = 0;
		let wide = 0;
		let open = 0;
		let narrow = 0;
		sizes.forEach((size, i) => {
			const count = counts[i] ?? 0;
			if (size > room - t) alone += count;
			else if (size > half) {
				wide += count;
				open += (room - size) * count;
			} else if (size >= t) narrow += size * count;
		});
		bound = Math.max(bound, alone + wide + Math.max(0, Math.ceil((narrow - open) / room)));
	}
	return bound;
}
