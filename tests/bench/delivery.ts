/** The comparison of a large packing list with its order, beside the same lines looked up and added up by hand. */
import { Decimal } from 'decimal.js';
import { compareDelivery, type DeliveryList } from '../../src/lib/delivery/compare.ts';
import type { PackingLine } from '../../src/lib/delivery/line.ts';
import type { PurchaseLine } from '../../src/lib/delivery/ordering/purchase-order.ts';
import type { Part } from '../../src/lib/takeoff/result.ts';

const inch = 25_400_000;
const kinds = [
	['guide', 'Guide, left', 'Guide LH'],
	['barrel', 'Barrel', 'Barrel pipe'],
	['curtain', 'Curtain, heavy grille', 'Grille curtain'],
	['hoodPiece', 'Hood piece', 'Hood section']
] as const;

/** Invented: every mark one opening of four parts, every part a line of the order. */
function largeOrder(count: number): { parts: Part[]; lines: PurchaseLine[] } {
	const parts = Array.from({ length: count }, (_, i): Part => {
		const [kind, title] = kinds[i % kinds.length] ?? kinds[0];
		const mark = `M-${String(Math.floor(i / kinds.length) + 1).padStart(4, '0')}`;
		const hand = kind === 'guide' ? 'left' : null;
		const length = (96 + ((i * 7) % 160)) * inch;
		return {
			partId: `P-${String(i).padStart(6, '0')}`,
			openingId: `${mark}.1`,
			mark,
			kind,
			title,
			side: hand,
			item: kind,
			length,
			width: null,
			size: '',
			hand,
			finish: '',
			quantity: '1',
			unit: 'each',
			supply: 'maker',
			interchangeKey: `${kind} ${String(length)}`,
			task: 'coil',
			supersedes: null
		};
	});
	const lines = parts.map((part, i): PurchaseLine => ({
		number: i + 1,
		scope: 'part',
		kind: part.kind,
		partIds: [part.partId],
		openingIds: [part.openingId],
		marks: [part.mark],
		title: part.title,
		item: part.item,
		size: '',
		length: part.length,
		width: null,
		hand: part.hand,
		finish: '',
		quantity: '1',
		unit: 'each',
		unitPrice: null,
		needBy: null,
		orderBy: null,
		note: ''
	}));
	return { parts, lines };
}

const blank: PackingLine = {
	line: 0,
	orderLine: null,
	partId: null,
	mark: null,
	description: '',
	quantity: 1,
	ordered: null,
	backordered: null,
	unit: 'EA',
	length: null,
	width: null,
	size: null,
	hand: null,
	finish: null,
	crate: null,
	remark: null
};

/** By order line, by part id, by mark and kind, with a misread mark, and with unknown words, in turn. */
function listed(parts: readonly Part[]): PackingLine[] {
	return parts.map((part, i): PackingLine => {
		const [, , description] = kinds[i % kinds.length] ?? kinds[0];
		const line = { ...blank, line: i + 1, length: part.length, hand: part.hand };
		// Every fifth in turn, but so that all kinds come in each way.
		switch (Math.floor(i / kinds.length) % 5) {
			case 0:
				return { ...line, orderLine: String(i + 1) };
			case 1:
				return { ...line, partId: part.partId };
			case 2:
				return { ...line, mark: part.mark.replace('0', 'O'), description };
			case 3:
				return { ...line, mark: part.mark, description: 'Oddments' };
			default:
				return { ...line, mark: part.mark, description };
		}
	});
}

/** The floor: the same lines found by one key each and added up. */
function byOneKey(parts: readonly Part[], lines: readonly PackingLine[]): Decimal {
	const keyOf = (mark: string, length: number | null): string => `${mark} ${String(length)}`;
	const found = new Map(parts.map((part) => [keyOf(part.mark, part.length), part]));
	let here = new Decimal(0);
	for (const [at, line] of lines.entries())
		if (found.has(keyOf(parts[at]?.mark ?? '', line.length))) here = here.plus(line.quantity ?? 0);
	return here;
}

export function deliveryRows(
	median: (runs: number, work: () => unknown) => number
): (readonly [string, string, string])[] {
	const count = 2000;
	const { parts, lines: ordered } = largeOrder(count);
	const lines = listed(parts);
	const list: DeliveryList = { deliveryId: 'a', name: 'A', lines };
	const orders = [{ orderNumber: '1', revision: 1, lines: ordered }];
	const compare = () => compareDelivery(parts, [list], { orders });
	const asked = compare().lines.filter((line) => line.asked).length;
	const ours = median(5, compare);
	const floor = median(9, () => byOneKey(parts, lines));
	return [
		[
			`packing list of ${String(count)} lines against ${String(count)} order lines`,
			`${ours.toFixed(0)} ms`,
			'1 s'
		],
		['of them asked about', `${String(asked)} of ${String(count)}`, ''],
		['the same lines by one key each', `${floor.toFixed(2)} ms`, ''],
		['comparison over lookup', `${(ours / floor).toFixed(0)} ×`, '']
	];
}
