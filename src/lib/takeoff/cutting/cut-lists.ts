/**
 * Stock cut over the whole job: guides, barrels and bottom bars, each from its own stock. Hood sheet is bent to order and
 * what the maker cuts (stock length 0 in the shop book) comes cut, so neither has a cut list.
 */
import type { Engine, JobTakeoff } from '../engine.ts';
import type { OpeningTakeoff } from '../result.ts';
import { lengthText } from './length-text.ts';
import { planCuts, usualSteps, type CutBar } from './plan.ts';

export const cutKinds = ['guide', 'barrel', 'bottomBar'] as const;
type CutKind = (typeof cutKinds)[number];

/** Pieces of one length for one mark. */
export interface CutPiece {
	/** Nanometres. */
	readonly length: number;
	readonly mark: string;
	/** One entry a piece: an opening whose two guides come from the same stock is there twice. */
	readonly openingIds: readonly string[];
}

/** Bars that are cut alike. */
export interface CutPattern {
	/** Pieces in the order they are cut, the longest first; the cuts between them not counted. nm */
	readonly lengths: readonly number[];
	readonly offcut: number;
	/** What the saw takes on one bar, nm. */
	readonly kerf: number;
	/** For each bar, the opening each of its pieces is for. */
	readonly bars: readonly (readonly string[])[];
}

/** A piece that no bar of this stock gives. */
interface UncutPiece extends CutPiece {
	readonly text: string;
	readonly clears: string;
}

export interface CutList {
	readonly kind: CutKind;
	/** Shop-book key of guide, barrel or curtain. */
	readonly item: string;
	readonly title: string;
	/** Nanometres, as all lengths here. */
	readonly stockLength: number;
	readonly kerf: number;
	/** What is cut, the longest first. */
	readonly pieces: readonly CutPiece[];
	readonly patterns: readonly CutPattern[];
	readonly bars: number;
	/** Bars that any plan needs. */
	readonly lowerBound: number;
	/** No plan has fewer bars. */
	readonly proved: boolean;
	/** Bars when the longest piece always goes into the first bar with room for it: what is done by hand. */
	readonly firstFitDecreasing: number;
	/** Everything bought that does not end in a piece. */
	readonly waste: { readonly offcut: number; readonly kerf: number; readonly share: number };
	readonly notCuttable: readonly UncutPiece[];
}

/** What one opening takes from one stock. */
interface Wanted {
	readonly kind: CutKind;
	readonly item: string;
	readonly stockLength: number;
	readonly length: number;
	/** Pieces for one opening. */
	readonly count: number;
}

const figure = (opening: OpeningTakeoff, id: string): number => {
	const value = opening.get(id);
	return typeof value === 'number' ? Math.round(value) : 0;
};

/** A guide of two parts takes two pieces of its length. */
const sources = [
	{ kind: 'guide', key: 'guideLeft', stock: 'stockLength', length: 'guideLength', each: 'parts' },
	{ kind: 'guide', key: 'guideRight', stock: 'stockLength', length: 'guideLength', each: 'parts' },
	{ kind: 'barrel', key: 'barrel', stock: 'stockLength', length: 'bracketDistance', each: null },
	{ kind: 'bottomBar', key: 'curtain', stock: 'barStockLength', length: 'bottomBarLength', each: null }
] as const;

const wantedBy = (opening: OpeningTakeoff): Wanted[] =>
	sources.flatMap(({ kind, key, stock, length, each }) => {
		const item = opening.get(key);
		const stockLength = figure(opening, `${key}.${stock}`);
		if (typeof item !== 'string' || stockLength === 0) return [];
		const count = each === null ? 1 : figure(opening, `${key}.${each}`);
		return [{ kind, item, stockLength, length: figure(opening, length), count }];
	});

/** Cut lists of the job, guides first, in the order the items come up. Openings that were not computed are not in it. */
export function cutLists(engine: Engine, job: JobTakeoff, mostSteps = usualSteps): CutList[] {
	const found = new Map<
		string,
		{ readonly of: Wanted; readonly kerf: number; readonly pieces: OnePiece[] }
	>();
	for (const opening of job.openings) {
		if (!opening.computed) continue;
		const { mark } = opening;
		const kerf = figure(opening, 'shop.kerf');
		const wanted = wantedBy(opening);
		for (const openingId of opening.openingIds)
			for (const of of wanted) {
				const id = `${of.kind}|${of.item}`;
				const entry = found.get(id) ?? { of, kerf, pieces: [] };
				found.set(id, entry);
				for (let n = 0; n < of.count; n++)
					entry.pieces.push({ length: of.length, mark, openingId, name: openingId });
			}
	}
	return [...found.values()]
		.sort((a, b) => cutKinds.indexOf(a.of.kind) - cutKinds.indexOf(b.of.kind))
		.map(({ of, kerf, pieces }) => {
			const title = titleOf(engine, of);
			return { title, ...listOf(of, kerf, pieces, job, mostSteps) };
		});
}

interface OnePiece {
	readonly name: string;
	readonly length: number;
	readonly mark: string;
	readonly openingId: string;
}

function titleOf({ book }: Engine, { kind, item }: Wanted): string {
	const rows = { guide: book.guides, barrel: book.barrels, bottomBar: book.curtains }[kind];
	const title = rows.find(({ key }) => key === item)?.title ?? item;
	return kind === 'bottomBar' ? `Bottom bar, ${title.toLowerCase()}` : title;
}

function listOf(
	{ kind, item, stockLength }: Wanted,
	kerf: number,
	pieces: readonly OnePiece[],
	{ measures }: JobTakeoff,
	mostSteps: number
): Omit<CutList, 'title'> {
	const plan = planCuts(pieces, stockLength, kerf, mostSteps);
	const show = (nm: number): string => lengthText(nm, measures);
	const { bars } = plan;
	const total = (lengthOf: (bar: CutBar) => number): number =>
		bars.reduce((sum, bar) => sum + lengthOf(bar), 0);
	const offcut = total((bar) => bar.offcut);
	const cut = total((bar) => bar.kerf);
	const uncut = plan.notCuttable.flatMap(({ piece }) => (piece === null ? pieces : (pieces[piece] ?? [])));
	return {
		kind,
		item,
		stockLength,
		kerf,
		pieces: grouped(pieces),
		patterns: patternsOf(bars, pieces),
		bars: bars.length,
		lowerBound: plan.lowerBound,
		proved: plan.proved,
		firstFitDecreasing: plan.firstFitDecreasing,
		waste: {
			offcut,
			kerf: cut,
			share: bars.length === 0 ? 0 : (offcut + cut) / (bars.length * stockLength)
		},
		notCuttable: grouped(uncut).map((piece) => ({
			...piece,
			...(piece.length > stockLength
				? {
						text: `${piece.mark}: ${show(piece.length)} cannot be cut from stock of ${show(stockLength)}; it is ${show(piece.length - stockLength)} too long.`,
						clears:
							'Longer stock, entered in the shop book, or this length ordered from the maker cut and ready.'
					}
				: {
						text: `${piece.mark}: a length of ${show(piece.length)} cannot be cut.`,
						clears: 'Sizes of the opening that leave a length above zero.'
					})
		}))
	};
}

/** The longest first, then in the order of the marks. */
function grouped(pieces: readonly OnePiece[]): CutPiece[] {
	const found = new Map<string, { length: number; mark: string; openingIds: string[] }>();
	for (const { length, mark, openingId } of pieces) {
		const id = `${String(length)}|${mark}`;
		const entry = found.get(id) ?? { length, mark, openingIds: [] };
		found.set(id, entry);
		entry.openingIds.push(openingId);
	}
	return [...found.values()].sort((a, b) => b.length - a.length);
}

function patternsOf(bars: readonly CutBar[], pieces: readonly OnePiece[]): CutPattern[] {
	const found = new Map<string, Omit<CutPattern, 'bars'> & { bars: string[][] }>();
	for (const { pieces: positions, offcut, kerf } of bars) {
		const on = positions.flatMap((position) => pieces[position] ?? []);
		const lengths = on.map(({ length }) => length);
		const entry = found.get(lengths.join()) ?? { lengths, offcut, kerf, bars: [] };
		found.set(lengths.join(), entry);
		entry.bars.push(on.map(({ openingId }) => openingId));
	}
	return [...found.values()];
}
