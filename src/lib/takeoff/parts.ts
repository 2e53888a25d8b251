/** The material list: what has to be there to hang one opening. */
import type { TechnicalBook } from '../shopbook/schema.ts';
import { none } from '../shopbook/tables.ts';
import { anchorSize, anchorStockOf } from './anchors.ts';
import type { Engine, JobTakeoff } from './engine.ts';
import type { OpeningTakeoff, Part, PartKind, TaskGroup } from './result.ts';

/** Digits and letters that are not taken for one another when read aloud or from a smudged label. */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

const bits64 = 0xffffffffffffffffn;

/**
 * FNV-1a over the text, 64 bits, then stirred (multiply and fold, twice): texts that differ in one digit give ids that
 * do not look alike.
 */
function hash(text: string): bigint {
	let value = 0xcbf29ce484222325n;
	for (const unit of new TextEncoder().encode(text)) {
		value ^= BigInt(unit);
		value = (value * 0x100000001b3n) & bits64;
	}
	for (const odd of [0xff51afd7ed558ccdn, 0xc4ceb9fe1a85ec53n]) {
		value ^= value >> 33n;
		value = (value * odd) & bits64;
	}
	return value ^ (value >> 33n);
}

/**
 * The id of a part: opaque, the same whenever the same slot of the same revision is asked for. A changed part takes the
 * next revision and so a new id; an id never comes to mean another part.
 *
 * @param slot opening, kind, side and (for loose kinds) item
 * @param revision 1 for the first part in the slot
 */
export function partIdFor(slot: string, revision: number): string {
	let rest = hash(`${slot}#${String(revision)}`);
	let code = '';
	for (let i = 0; i < 10; i++) {
		code += alphabet[Number(rest & 31n)] ?? '';
		rest >>= 5n;
	}
	return `P-${code.slice(0, 5)}-${code.slice(5)}`;
}

/** Where a part belongs: what stays the same when its size changes. */
export const slotOf = (part: Pick<Part, 'openingId' | 'kind' | 'side' | 'item'>): string =>
	[
		part.openingId,
		part.kind,
		part.side ?? '',
		part.kind === 'consumable' || part.kind === 'control' ? part.item : ''
	].join('|');

interface Piece {
	readonly kind: PartKind;
	readonly title: string;
	readonly side?: 'left' | 'right';
	readonly item: string;
	/** What it comes fitted with: a barrel with other springs in it is another barrel. */
	readonly fitted?: string;
	readonly length?: number | null;
	readonly width?: number | null;
	readonly size?: string;
	readonly hand?: 'left' | 'right';
	readonly finish?: string;
	readonly quantity?: number;
	readonly unit?: Part['unit'];
	readonly supply?: Part['supply'];
	readonly task: TaskGroup;
}

const sides = ['left', 'right'] as const;

const upper = (side: 'left' | 'right') => (side === 'left' ? 'Left' : 'Right');

/** What the material list says of an anchor. */
function anchorWords(book: TechnicalBook, key: string): { title: string; size: string } {
	const stock = anchorStockOf(book, key);
	return stock ? { title: stock.anchor.anchor, size: anchorSize(stock) } : { title: 'Anchor', size: '' };
}

/** Parts of one opening of this row; the same for every opening it stands for. */
function pieces(engine: Engine, opening: OpeningTakeoff): Piece[] {
	const number = (id: string): number => {
		const value = opening.get(id);
		return typeof value === 'number' ? value : 0;
	};
	const length = (id: string): number => Math.round(number(id));
	const key = (id: string): string => {
		const value = opening.get(id);
		return typeof value === 'string' ? value : '';
	};
	const { book } = engine;
	const finishCell = opening.cell('finish');
	const finish = typeof finishCell === 'string' ? finishCell : '';
	const driveAt = key('driveAt') === 'right' ? 'right' : 'left';
	const curtainTitle = book.curtains.find((row) => row.key === key('curtain'))?.title ?? 'Curtain';
	const list: Piece[] = [
		{
			kind: 'curtain',
			title: `Curtain, ${curtainTitle.toLowerCase()}`,
			item: key('curtain'),
			width: length('curtainWidth'),
			length: length('curtainLength'),
			finish,
			task: 'coil'
		},
		{
			kind: 'bottomBar',
			title: 'Bottom bar',
			item: key('curtain'),
			length: length('bottomBarLength'),
			finish,
			task: 'coil'
		},
		{
			kind: 'barrel',
			title: key('springSet') === '' ? 'Barrel' : 'Barrel with its springs',
			item: key('barrel'),
			fitted: key('springSet'),
			size: key('barrel'),
			length: length('bracketDistance'),
			task: 'coil'
		}
	];
	for (const side of sides) {
		list.push(
			{
				kind: 'guide',
				title: `Guide, ${side}`,
				side,
				hand: side,
				item: key(`guide${upper(side)}`),
				length: length('guideLength'),
				finish,
				task: 'guides'
			},
			{
				kind: 'bracket',
				title: `Bracket, ${side}${side === driveAt ? ', drive side' : ''}`,
				side,
				hand: side,
				item: key('bracket'),
				size: key('bracket'),
				task: 'brackets'
			}
		);
		const anchor = anchorWords(book, key(`anchorStock${upper(side)}`));
		list.push({
			kind: 'anchor',
			title: `${anchor.title}, ${side} wall`,
			side,
			item: key(`anchorStock${upper(side)}`),
			size: anchor.size,
			quantity: number(`anchors${upper(side)}`),
			supply: 'stock',
			task: 'guides'
		});
	}
	if (key('operation') === 'tubeMotor')
		list.push({
			kind: 'drive',
			title: 'Tube motor',
			item: key('drive'),
			size: key('drive'),
			hand: driveAt,
			task: 'coil'
		});
	else if (key('operation') !== 'pushUp')
		list.push({
			kind: 'operator',
			title: `Operator, ${key('operation')}`,
			item: key('operation'),
			hand: driveAt,
			task: 'coil'
		});
	if (number('hoodPieces') > 0) {
		list.push({
			kind: 'hoodPiece',
			title: 'Hood piece',
			item: key('hood'),
			size: key('bracket'),
			length: length('hoodPieceLength'),
			quantity: number('hoodPieces'),
			finish,
			task: 'hood'
		});
		for (const side of sides)
			list.push({
				kind: 'endCap',
				title: `End cap, ${side}`,
				side,
				hand: side,
				item: key('hood'),
				size: key('bracket'),
				finish,
				task: 'hood'
			});
	}
	if (number('hoodSupports') > 0) {
		const anchor = anchorWords(book, key('anchorStockHead'));
		list.push(
			{
				kind: 'hoodSupport',
				title: 'Hood support',
				item: key('hood'),
				size: key('bracket'),
				quantity: number('hoodSupports'),
				task: 'hood'
			},
			{
				kind: 'anchor',
				title: `${anchor.title}, over the head`,
				item: key('anchorStockHead'),
				size: anchor.size,
				quantity: number('hoodSupportAnchors'),
				supply: 'stock',
				task: 'hood'
			}
		);
	}
	const controls = book.controls.find((row) => row.key === key('controls'));
	for (const part of controls?.parts ?? [])
		list.push({
			kind: 'control',
			title: part.title,
			item: part.title,
			quantity: Number(part.quantity),
			supply: controls?.suppliedBy === 'maker' ? 'maker' : 'stock',
			task: 'power'
		});
	for (const consumable of book.consumables) {
		const quantity = number(consumable.key);
		if (quantity > 0)
			list.push({
				kind: 'consumable',
				title: consumable.title,
				item: consumable.key,
				quantity,
				unit: consumable.unit,
				supply: 'stock',
				task: 'guides'
			});
	}
	return list;
}

/** Parts of every opening the row stands for, mark by mark in order. Empty where nothing could be computed. */
export function partsOf(engine: Engine, opening: OpeningTakeoff): Part[] {
	if (!opening.computed) return [];
	const list = pieces(engine, opening).filter((piece) => piece.item !== '' && piece.item !== none);
	return opening.openingIds.flatMap((openingId) =>
		list.map((piece): Part => {
			const side = piece.side ?? null;
			const part = {
				openingId,
				mark: opening.mark,
				kind: piece.kind,
				title: piece.title,
				side,
				item: piece.item,
				length: piece.length ?? null,
				width: piece.width ?? null,
				size: piece.size ?? '',
				hand: piece.hand ?? null,
				finish: piece.finish ?? '',
				quantity: quantityText(piece.quantity ?? 1),
				unit: piece.unit ?? ('each' as const),
				supply: piece.supply ?? ('maker' as const),
				task: piece.task,
				supersedes: null
			};
			return {
				...part,
				partId: partIdFor(slotOf(part), 1),
				interchangeKey: interchangeKeyOf(part, piece.fitted)
			};
		})
	);
}

/** Parts that agree in this may stand in for one another. */
const interchangeKeyOf = (
	part: Pick<Part, 'kind' | 'item' | 'length' | 'width' | 'size' | 'hand' | 'finish'>,
	fitted = ''
): string =>
	[
		part.kind,
		part.item,
		part.length ?? '',
		part.width ?? '',
		part.size,
		part.hand ?? '',
		part.finish,
		...(fitted === '' ? [] : [fitted])
	].join('|');

/** Whole numbers as they are, others to two decimals. */
const quantityText = (quantity: number): string =>
	Number.isInteger(quantity) ? String(quantity) : quantity.toFixed(2);

const openingNumber = ({ openingId }: Part): number =>
	Number(openingId.slice(openingId.lastIndexOf('.') + 1));

/** Marks in the order they first come up, their openings by number: also those with rows of their own. */
export function byOpening(parts: readonly Part[]): Part[] {
	const marks = new Map<string, number>();
	for (const { mark } of parts) if (!marks.has(mark)) marks.set(mark, marks.size);
	const place = ({ mark }: Part): number => marks.get(mark) ?? 0;
	return parts.toSorted((a, b) => place(a) - place(b) || openingNumber(a) - openingNumber(b));
}

/** The whole material list of a job, mark by mark. */
export const materialList = (engine: Engine, job: JobTakeoff): Part[] =>
	byOpening(job.openings.flatMap((opening) => partsOf(engine, opening)));
