/** Parts and lines for tests. Invented: marks of the Saltmarsh Pier Market Hall, sizes chosen to be easy to follow. */
import type { Part } from '../takeoff/result.ts';
import type { PackingLine } from './line.ts';
import type { PurchaseLine } from './ordering/purchase-order.ts';

export const inches = (count: number): number => Math.round(count * 25_400_000);

type Sample = Pick<Part, 'kind' | 'openingId'> & Partial<Part>;

/** One part; its id says opening, kind and side unless given, its interchange key follows its attributes. */
export function part(sample: Sample): Part {
	const side = sample.side ?? null;
	const filled = {
		partId: [sample.openingId, sample.kind, side ?? sample.item ?? '']
			.filter((text) => text !== '')
			.join('/'),
		mark: sample.openingId.replace(/\.\d+$/u, ''),
		title: sample.kind,
		side,
		item: 'sample',
		length: null,
		width: null,
		size: '',
		hand: null,
		finish: '',
		quantity: '1',
		unit: 'each' as const,
		supply: 'maker' as const,
		task: 'coil' as const,
		supersedes: null,
		...sample
	};
	const { kind, item, length, width, size, hand, finish } = filled;
	return { interchangeKey: JSON.stringify([kind, item, length, width, size, hand, finish]), ...filled };
}

const sides = ['left', 'right'] as const;

export interface OpeningOptions {
	/** Of the guides, in. */
	readonly length?: number;
	readonly driveAt?: 'left' | 'right';
}

/** What hangs one storefront opening: guides, brackets, curtain, barrel, motor, hood, switch, anchors, sealant. */
export function opening(openingId: string, options: OpeningOptions = {}): Part[] {
	const { length = 110, driveAt = 'right' } = options;
	return [
		...sides.map((side) =>
			part({
				openingId,
				kind: 'guide',
				title: `Guide, ${side}`,
				side,
				hand: side,
				item: 'store-face',
				length: inches(length),
				finish: 'powder-graphite',
				task: 'guides'
			})
		),
		...sides.map((side) =>
			part({
				openingId,
				kind: 'bracket',
				title: `Bracket, ${side}${side === driveAt ? ', drive side' : ''}`,
				side,
				hand: side,
				item: '16',
				size: '16',
				task: 'brackets'
			})
		),
		...sides.map((side) =>
			part({
				openingId,
				kind: 'anchor',
				title: `Wedge anchor, ${side} wall`,
				side,
				item: 'standard.concrete',
				size: '3/8" x 3 3/4"',
				quantity: '6',
				supply: 'stock',
				task: 'guides'
			})
		),
		part({
			openingId,
			kind: 'curtain',
			title: 'Curtain, heavy grille, steel rods',
			item: 'heavy-grille',
			width: inches(196.75),
			length: inches(136),
			finish: 'powder-graphite'
		}),
		part({ openingId, kind: 'barrel', title: 'Barrel', item: '4.5', size: '4.5', length: inches(199) }),
		part({
			openingId,
			kind: 'drive',
			title: 'Tube motor',
			item: 'tube-165',
			size: 'tube-165',
			hand: driveAt
		}),
		part({
			openingId,
			kind: 'hoodPiece',
			title: 'Hood piece',
			item: 'steel-24ga',
			size: '16',
			length: inches(100.5),
			quantity: '2',
			task: 'hood'
		}),
		part({
			openingId,
			kind: 'hoodSupport',
			title: 'Hood support',
			item: 'steel-24ga',
			size: '16',
			task: 'hood'
		}),
		part({ openingId, kind: 'control', title: 'Key switch', item: 'Key switch', task: 'power' }),
		part({ openingId, kind: 'control', title: 'Lock cylinder', item: 'Lock cylinder', task: 'power' }),
		part({
			openingId,
			kind: 'consumable',
			title: 'Sealant',
			item: 'sealant',
			quantity: '1.25',
			unit: 'tube',
			supply: 'stock',
			task: 'guides'
		})
	];
}

export const mark = (name: string, openings: number, options?: OpeningOptions): Part[] =>
	Array.from({ length: openings }, (_, index) => opening(`${name}.${index + 1}`, options)).flat();

export function packed(fields: Partial<PackingLine>): PackingLine {
	return {
		line: 1,
		orderLine: null,
		partId: null,
		mark: null,
		description: '',
		quantity: 1,
		ordered: null,
		backordered: null,
		unit: null,
		length: null,
		width: null,
		size: null,
		hand: null,
		finish: null,
		crate: null,
		remark: null,
		...fields
	};
}

/** A line of an order for some of the parts, as they are; what `more` says goes before. */
export function purchaseOf(
	parts: readonly Part[],
	number: number,
	partIds: readonly string[],
	more: Partial<PurchaseLine> = {}
): PurchaseLine {
	const covered = parts.filter(({ partId }) => partIds.includes(partId));
	return {
		number,
		scope: 'part',
		kind: covered[0]?.kind ?? null,
		partIds,
		openingIds: covered.map(({ openingId }) => openingId),
		marks: [...new Set(covered.map((one) => one.mark))],
		title: covered[0]?.title ?? '',
		item: covered[0]?.item ?? '',
		size: '',
		length: null,
		width: null,
		hand: null,
		finish: '',
		quantity: String(covered.length),
		unit: 'each',
		unitPrice: null,
		needBy: null,
		orderBy: null,
		note: '',
		...more
	};
}
