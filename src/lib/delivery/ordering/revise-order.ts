/** The next revision of an order, from what the takeoff needs now. Numbers of lines stay with what they were given to. */
import { Decimal } from 'decimal.js';
import type { Part } from '../../takeoff/result.ts';
import { isCancelled, isFill } from './attributes.ts';
import { draftLines, scopeOf, type ScopedPart } from './draft-lines.ts';
import { severalPrices, type Buying, type DraftLine } from './line-parts.ts';
import { knownAs, predecessorsOf, type Predecessors } from './lineage.ts';
import { releaseOf, supplierFor } from './proposals.ts';
import type { PurchaseLine, PurchaseOrder, Supplier } from './purchase-order.ts';

export interface RevisionRequest extends Buying {
	/** What the takeoff needs now, in the wanted order. */
	readonly parts: readonly Part[];
	readonly phases: ReadonlyMap<string, string>;
	/** Among them the one the order goes to. */
	readonly suppliers: readonly Supplier[];
	/** Parts on other standing orders. */
	readonly elsewhere: ReadonlySet<string>;
	/** Of all parts ever issued; without it, what the parts say themselves. */
	readonly predecessors?: Predecessors;
}

/** A part of the new revision, and under which id and on which line the last one had it. */
interface Known {
	readonly line: PurchaseLine;
	readonly id: string;
}

/** The parts that belong into the order: those it has, what took their place, and what is new for its phase and release. */
function belonging(
	last: PurchaseOrder,
	request: RevisionRequest,
	known: (part: Part) => Known | null,
	predecessors: Predecessors
): ScopedPart[] {
	const { parts, phases, suppliers, elsewhere, plans } = request;
	const units = new Set(last.lines.flatMap(({ scope, openingIds }) => (scope === 'unit' ? openingIds : [])));
	return parts.flatMap((part): ScopedPart[] => {
		const before = known(part);
		if (before) return [{ part, scope: before.line.scope }];
		if (knownAs(part, elsewhere, predecessors) !== null) return [];
		// What a complete unit has more than before belongs to it.
		if (part.supply === 'maker' && units.has(part.openingId)) return [{ part, scope: 'unit' }];
		const scope = scopeOf(part, plans);
		const here =
			supplierFor(suppliers, scope)?.id === last.supplierId &&
			(phases.get(part.openingId) ?? '') === last.phase &&
			releaseOf(part.openingId, plans) === last.release;
		return here ? [{ part, scope }] : [];
	});
}

type Described = Pick<
	PurchaseLine,
	'scope' | 'kind' | 'item' | 'size' | 'length' | 'width' | 'hand' | 'finish' | 'unit'
>;
const described = ['scope', 'kind', 'item', 'size', 'length', 'width', 'hand', 'finish', 'unit'] as const;

const saysTheSame = (a: Described, b: Described): boolean => described.every((name) => a[name] === b[name]);

/** Parts in one of it: a unit that has one part more is another unit. */
const partsInOne = ({ partIds, quantity }: Pick<PurchaseLine, 'partIds' | 'quantity'>): Decimal =>
	new Decimal(partIds.length).div(quantity);

/** The same thing at the same price, however many of it: what was agreed for it stands. */
function isSameThing(draft: DraftLine, line: PurchaseLine, replaced: boolean): boolean {
	if (replaced || isCancelled(line) || !saysTheSame(draft, line)) return false;
	return draft.scope !== 'unit' || partsInOne(draft).eq(partsInOne(line));
}

interface Match {
	readonly draft: DraftLine;
	readonly line: PurchaseLine;
	/** Parts of the draft that were on the line, themselves or those before them. */
	readonly shared: number;
	readonly replaced: boolean;
}

function matchesOf(
	drafts: readonly DraftLine[],
	last: PurchaseOrder,
	knownById: ReadonlyMap<string, Known>
): Match[] {
	return drafts.flatMap((draft): Match[] => {
		if (isFill(draft)) {
			const line = last.lines.find(
				(one) => isFill(one) && one.item === draft.item && one.unit === draft.unit
			);
			return line ? [{ draft, line, shared: 0, replaced: false }] : [];
		}
		const lines = new Map<PurchaseLine, { shared: number; replaced: boolean }>();
		for (const partId of draft.partIds) {
			const known = knownById.get(partId);
			if (!known) continue;
			const so = lines.get(known.line) ?? { shared: 0, replaced: false };
			lines.set(known.line, { shared: so.shared + 1, replaced: so.replaced || known.id !== partId });
		}
		return [...lines].map(([line, so]) => ({ draft, line, ...so }));
	});
}

/** Each line to the draft that has most of its parts; of equal ones to the one that says the same, then to the first. */
function deal(matches: readonly Match[]): Map<DraftLine, Match> {
	const dealt = new Map<DraftLine, Match>();
	const taken = new Set<PurchaseLine>();
	const same = ({ draft, line }: Match): number => (saysTheSame(draft, line) ? 0 : 1);
	for (const match of matches.toSorted(
		(a, b) => b.shared - a.shared || same(a) - same(b) || a.line.number - b.line.number
	)) {
		if (dealt.has(match.draft) || taken.has(match.line)) continue;
		dealt.set(match.draft, match);
		taken.add(match.line);
	}
	return dealt;
}

const cancelled = (line: PurchaseLine, revision: number): PurchaseLine =>
	isCancelled(line)
		? line
		: { ...line, partIds: [], openingIds: [], quantity: '0', note: `Cancelled in revision ${revision}.` };

/**
 * The next revision of an order. A part that took the place of another stays on its line; where only some of a line
 * changed, the larger share keeps the number and the others get a new one. Parts that are gone lower the quantity or
 * cancel the line, which stays with a quantity of 0. New things get numbers after the highest ever given. A price
 * that was agreed stays as long as the thing is the same.
 *
 * @throws RangeError when the supplier of the order is not among the suppliers
 */
export function reviseOrder(last: PurchaseOrder, request: RevisionRequest): PurchaseOrder {
	const supplier = request.suppliers.find(({ id }) => id === last.supplierId);
	if (!supplier)
		throw new RangeError(
			`${last.supplierName}, to whom order ${last.number} goes, is not a supplier any more`
		);
	const predecessors = request.predecessors ?? predecessorsOf(request.parts);
	const lineOf = new Map(last.lines.flatMap((line) => line.partIds.map((id) => [id, line] as const)));
	const known = (part: Part): Known | null => {
		const id = knownAs(part, lineOf, predecessors);
		const line = id === null ? undefined : lineOf.get(id);
		return id !== null && line ? { id, line } : null;
	};
	const parts = belonging(last, request, known, predecessors);
	const knownById = new Map(
		parts.flatMap(({ part }) => {
			const before = known(part);
			return before ? [[part.partId, before] as const] : [];
		})
	);
	const drafts = draftLines(parts, request, supplier);
	const dealt = deal(matchesOf(drafts, last, knownById));
	let next = Math.max(0, ...last.lines.map(({ number }) => number));
	const revision = last.revision + 1;
	const lines = drafts.map((draft): PurchaseLine => {
		const match = dealt.get(draft);
		if (!match) return { number: ++next, ...draft };
		const { line, replaced } = match;
		const keepsPrice = isSameThing(draft, line, replaced) && line.unitPrice !== null;
		return {
			...draft,
			number: line.number,
			// What somebody wrote to a line stays on it.
			note: draft.note === '' && !isCancelled(line) && line.note !== severalPrices ? line.note : draft.note,
			...(keepsPrice ? { unitPrice: line.unitPrice } : {})
		};
	});
	const standing = new Set(lines.map(({ number }) => number));
	const gone = last.lines
		.filter(({ number }) => !standing.has(number))
		.map((line) => cancelled(line, revision));
	return {
		...last,
		supplierName: supplier.name,
		revision,
		lines: [...lines, ...gone].sort((a, b) => a.number - b.number)
	};
}
