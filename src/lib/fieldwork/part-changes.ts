/** Parts of an opening before and after a measure. */
import type { Engine } from '../takeoff/engine.ts';
import { partsOf } from '../takeoff/parts.ts';
import type { OpeningTakeoff, Part, PartKind } from '../takeoff/result.ts';
import type { SayLength } from './sentence.ts';
import type { TakeoffAgain } from './takeoff-again.ts';

/** A line of a purchase order that a part is on. */
export interface OrderLineOfPart {
	readonly orderNumber: string;
	readonly line: number;
	/** The order has gone out. */
	readonly ordered: boolean;
}

type ChangedAttribute = 'length' | 'width' | 'size' | 'item' | 'springs' | 'quantity';

export interface PartDifference {
	readonly attribute: ChangedAttribute;
	/** As a person reads them. */
	readonly before: string;
	readonly after: string;
	/** After less before, whole nm; null for what is no length. */
	readonly difference: number | null;
}

export interface PartChange {
	/** Null for a part that was not there before. */
	readonly partId: string | null;
	readonly kind: PartKind;
	readonly side: Part['side'];
	readonly title: string;
	readonly state: 'unchanged' | 'changed' | 'added' | 'dropped';
	readonly differences: readonly PartDifference[];
	/** Lines the part is on, as they were given. */
	readonly orderLines: readonly OrderLineOfPart[];
}

/** Parts of one opening with the measured sizes: guides, and the anchors of guides, each by the height of its own side. */
export function partsAgain(engine: Engine, { whole, guide }: TakeoffAgain): Part[] {
	const [first] = whole.openingIds;
	const parts = partsOf(engine, whole).filter(({ openingId }) => openingId === first);
	return parts.map((part): Part => {
		if (part.side === null) return part;
		const own = guide[part.side];
		if (own === whole) return part;
		if (part.kind === 'guide') {
			const length = own.get('guideLength');
			return typeof length === 'number' ? { ...part, length: Math.round(length) } : part;
		}
		if (part.kind === 'anchor') {
			const onGuide = own.get(part.side === 'left' ? 'anchorsPerGuideLeft' : 'anchorsPerGuideRight');
			const onBracket = whole.get('anchorsPerBracket');
			return typeof onGuide === 'number' && typeof onBracket === 'number'
				? { ...part, quantity: String(onGuide + onBracket) }
				: part;
		}
		return part;
	});
}

/** What stays when the size of a part changes. */
const placeOf = ({ kind, side, item }: Part): string =>
	[kind, side ?? '', kind === 'consumable' || kind === 'control' ? item : ''].join('|');

/** What two parts of one place are, as a person reads it: anchors by their names, where those tell them apart. */
const itemWords = (old: Part, now: Part): readonly [before: string, after: string] =>
	old.kind === 'anchor' && old.title !== now.title
		? [old.title.toLowerCase(), now.title.toLowerCase()]
		: [old.item, now.item];

const springsOf = (opening: OpeningTakeoff): string => {
	const set = opening.get('springSet');
	return typeof set === 'string' ? set : '';
};

/**
 * Every part before and after, in the order of the material list, then those that are dropped.
 *
 * @param before parts of this opening as they are ordered or would be
 * @param orderLines lines by part id
 */
export function partChanges(
	before: readonly Part[],
	after: readonly Part[],
	springs: { readonly before: OpeningTakeoff; readonly after: OpeningTakeoff },
	orderLines: ReadonlyMap<string, readonly OrderLineOfPart[]>,
	say: SayLength
): PartChange[] {
	const left = new Map(before.map((part) => [placeOf(part), part]));
	const length = (attribute: 'length' | 'width', old: Part, now: Part): PartDifference[] => {
		const [a, b] = [old[attribute], now[attribute]];
		if (a === b) return [];
		return [
			{
				attribute,
				before: a === null ? 'none' : say(a),
				after: b === null ? 'none' : say(b),
				difference: a === null || b === null ? null : b - a
			}
		];
	};
	const words = (attribute: ChangedAttribute, a: string, b: string): PartDifference[] =>
		a === b
			? []
			: [{ attribute, before: a === '' ? 'none' : a, after: b === '' ? 'none' : b, difference: null }];
	const differences = (old: Part, now: Part): PartDifference[] => [
		...(old.item === now.item ? [] : words('item', ...itemWords(old, now))),
		...(old.item === old.size && now.item === now.size ? [] : words('size', old.size, now.size)),
		...(now.kind === 'barrel' ? words('springs', springsOf(springs.before), springsOf(springs.after)) : []),
		...length('width', old, now),
		...length('length', old, now),
		...words('quantity', old.quantity, now.quantity)
	];
	const changes = after.map((now): PartChange => {
		const place = placeOf(now);
		const old = left.get(place);
		left.delete(place);
		const { kind, side, title } = now;
		if (!old) return { partId: null, kind, side, title, state: 'added', differences: [], orderLines: [] };
		const found = differences(old, now);
		return {
			partId: old.partId,
			kind,
			side,
			title,
			state: found.length > 0 ? 'changed' : 'unchanged',
			differences: found,
			orderLines: orderLines.get(old.partId) ?? []
		};
	});
	const dropped = [...left.values()].map(({ partId, kind, side, title }): PartChange => ({
		partId,
		kind,
		side,
		title,
		state: 'dropped',
		differences: [],
		orderLines: orderLines.get(partId) ?? []
	}));
	return [...changes, ...dropped];
}
