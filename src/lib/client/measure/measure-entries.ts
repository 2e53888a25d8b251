/** What somebody types about an opening, and how it is understood: each entry as a length, or why not. */
import { exactLength, parseLength } from '../../quantity/length.ts';
import type { FieldReadings, PlumbReading } from '../../fieldwork/field-measure.ts';
import { sides, type Side } from '../../fieldwork/governing.ts';
import { leanWords, readingList, readingsFrom, type ReadingId } from '../../fieldwork/reading-list.ts';
import { sayLength } from '../../fieldwork/sentence.ts';
import { soundReadings } from '../../fieldwork/sound-readings.ts';
import type { Measures } from '../../takeoff/inputs.ts';

export interface PlumbEntry {
	height: string;
	inPlane: string;
	outOfPlane: string;
}

/** As typed; blank was not measured. */
export interface MeasureEntries {
	lengths: Record<ReadingId, string>;
	plumb: Record<Side, PlumbEntry[]>;
	/** Key of the wall. */
	walls: Record<Side, string>;
	note: string;
}

/** Name of an entry: `widthTop`, `left.0.height`. */
type EntryName = ReadingId | `${Side}.${number}.${keyof PlumbEntry}`;

/** Drawn sizes to notice a wrong unit by, nm; null where the row has none. */
export interface DrawnSizes {
	readonly width: number | null;
	readonly height: number | null;
}

export interface EntriesRead {
	readonly readings: FieldReadings;
	/** How each entry was understood. */
	readonly understood: ReadonlyMap<EntryName, string>;
	/** What is wrong with an entry, and what would be right. Such a one counts as not measured. */
	readonly refused: ReadonlyMap<EntryName, string>;
	/** What is wrong with entries together. */
	readonly troubles: readonly string[];
}

type Range = 'size' | 'room' | 'signed';
type Read =
	{ readonly ok: true; readonly nm: number | null } | { readonly ok: false; readonly reason: string };

const units = { mm: 1e6, cm: 1e7, m: 1e9, in: 25_400_000, ft: 304_800_000 } as const;
const unitOf = (measures: Measures): 'in' | 'mm' => (measures === 'metric' ? 'mm' : 'in');

/** Nothing but a figure: it takes the unit of the job. */
const bareFigure = /^\d+(?:[.,]\d+)?$/u;

/** A size that is off by more than half, and in another unit would be about as drawn. */
function otherUnit(text: string, nm: number, drawn: number, measures: Measures): string | null {
	if (!bareFigure.test(text) || Math.abs(nm - drawn) <= drawn / 2) return null;
	const figure = nm / units[unitOf(measures)];
	const found = (['mm', 'cm', 'm', 'in', 'ft'] as const).find(
		(unit) => unit !== unitOf(measures) && Math.abs(figure * units[unit] - drawn) <= drawn / 4
	);
	if (!found) return null;
	const say = sayLength(measures);
	return `${text} is ${say(nm)} in this job, where ${say(drawn)} is drawn; write ${text} ${found} if that is what the tape says.`;
}

/** @param drawn about what it should come to, nm */
export function readEntry(
	typed: string,
	{ title, range }: { readonly title: string; readonly range: Range },
	measures: Measures,
	drawn: number | null = null
): Read {
	const text = typed.trim();
	if (text === '') return { ok: true, nm: null };
	const [, sign = '', rest = ''] = /^([+−–-]?)\s*(.*)$/su.exec(text) ?? [];
	const isLess = sign !== '' && sign !== '+';
	const read = parseLength(rest, unitOf(measures));
	if (!read.ok) return { ok: false, reason: `${read.reason}.` };
	const nm = isLess && read.nm !== 0 ? -read.nm : read.nm;
	const said = `${title} is ${sayLength(measures)(nm)}`;
	if (range === 'size' && nm <= 0) return { ok: false, reason: `${said}; enter more than 0.` };
	if (range === 'room' && nm < 0) return { ok: false, reason: `${said}; enter 0 or more.` };
	const other = drawn === null ? null : otherUnit(rest, nm, drawn, measures);
	return other === null ? { ok: true, nm } : { ok: false, reason: other };
}

const drawnOf = (id: ReadingId, { width, height }: DrawnSizes): number | null => {
	switch (id) {
		case 'widthBottom':
		case 'widthMiddle':
		case 'widthTop':
			return width;
		case 'heightLeft':
		case 'heightRight':
			return height;
		case 'diagonalRising':
		case 'diagonalFalling':
			return width === null || height === null ? null : Math.hypot(width, height);
		case 'sillRise':
		case 'headroom':
		case 'sideRoomLeft':
		case 'sideRoomRight':
			return null;
	}
};

const plumbTitles = {
	height: { title: 'The height', range: 'room' },
	inPlane: { title: 'Plumb in the wall', range: 'signed' },
	outOfPlane: { title: 'Plumb out of the wall', range: 'signed' }
} as const;

export function readEntries(entries: MeasureEntries, measures: Measures, drawn: DrawnSizes): EntriesRead {
	const say = sayLength(measures);
	const understood = new Map<EntryName, string>();
	const refused = new Map<EntryName, string>();
	const take = (name: EntryName, read: Read, words: (nm: number) => string = say): number | null => {
		if (!read.ok) {
			refused.set(name, read.reason);
			return null;
		}
		if (read.nm !== null) understood.set(name, words(read.nm));
		return read.nm;
	};
	const lengths = Object.fromEntries(
		readingList.map((reading) => [
			reading.id,
			take(
				reading.id,
				readEntry(entries.lengths[reading.id], reading, measures, drawnOf(reading.id, drawn)),
				reading.id === 'sillRise' ? (nm) => riseWords(nm, say) : say
			)
		])
	) as Record<ReadingId, number | null>;
	const plumbOf = (side: Side): PlumbReading[] =>
		entries.plumb[side].flatMap((entry, i): PlumbReading[] => {
			const one = (field: keyof PlumbEntry): number | null =>
				take(`${side}.${i}.${field}`, readEntry(entry[field], plumbTitles[field], measures), (nm) =>
					field === 'height' ? say(nm) : leanWords(nm, field, say)
				);
			const [height, inPlane, outOfPlane] = [one('height'), one('inPlane'), one('outOfPlane')];
			if (inPlane === null && outOfPlane === null) return [];
			if (height !== null) return [{ height, inPlane, outOfPlane }];
			if (entry.height.trim() === '')
				refused.set(
					`${side}.${i}.height`,
					'Enter the height above the finished sill at which this was read.'
				);
			return [];
		});
	const wallOf = (side: Side): string | null => (entries.walls[side] === '' ? null : entries.walls[side]);
	const readings = readingsFrom({
		lengths,
		plumb: { left: plumbOf('left'), right: plumbOf('right') },
		walls: { left: wallOf('left'), right: wallOf('right') }
	});
	const troubles = soundReadings(readings).problems.map(({ text }) => text);
	return { readings, understood, refused, troubles };
}

const riseWords = (nm: number, say: (nm: number) => string): string =>
	nm === 0 ? 'level' : `${say(Math.abs(nm))} ${nm > 0 ? 'higher' : 'lower'} at the right`;

const blankLengths = (): Record<ReadingId, string> =>
	Object.fromEntries(readingList.map(({ id }) => [id, ''])) as Record<ReadingId, string>;

/** Nothing measured, with the heights at which the plumb is best read. */
export function blankEntries(
	heights: Readonly<Record<Side, readonly number[]>>,
	measures: Measures
): MeasureEntries {
	const rows = (side: Side): PlumbEntry[] =>
		heights[side].map((nm) => ({ height: textOf(nm, measures), inPlane: '', outOfPlane: '' }));
	return {
		lengths: blankLengths(),
		plumb: { left: rows('left'), right: rows('right') },
		walls: { left: '', right: '' },
		note: ''
	};
}

/** What to put into a field: as a tape says it where that reads as the same length. */
function textOf(nm: number | null, measures: Measures): string {
	if (nm === null) return '';
	const said = sayLength(measures)(nm);
	const read = readEntry(said, { title: '', range: 'signed' }, measures);
	return read.ok && read.nm === nm ? said : exactLength(nm, unitOf(measures));
}

/** A measure as entries, to go on from. Its note is its own. */
export function entriesOf(readings: FieldReadings, measures: Measures): MeasureEntries {
	const rows = (side: Side): PlumbEntry[] =>
		readings.plumb[side].map(({ height, inPlane, outOfPlane }) => ({
			height: textOf(height, measures),
			inPlane: textOf(inPlane, measures),
			outOfPlane: textOf(outOfPlane, measures)
		}));
	return {
		lengths: Object.fromEntries(
			readingList.map(({ id, of }) => [id, textOf(of(readings), measures)])
		) as Record<ReadingId, string>,
		plumb: { left: rows('left'), right: rows('right') },
		walls: { left: readings.leftSubstrate ?? '', right: readings.rightSubstrate ?? '' },
		note: ''
	};
}

/** Whether anything is typed that would be lost. */
export const isTyped = ({ lengths, plumb, walls, note }: MeasureEntries): boolean =>
	Object.values(lengths).some((text) => text.trim() !== '') ||
	sides.some(
		(side) =>
			walls[side] !== '' ||
			plumb[side].some(({ inPlane, outOfPlane }) => inPlane.trim() !== '' || outOfPlane.trim() !== '')
	) ||
	note.trim() !== '';

/** The other sign: a phone’s number keys may have no minus. */
export function otherSign(text: string): string {
	const plain = text.trim();
	if (/^[−–-]/u.test(plain)) return plain.slice(1).trimStart();
	return plain === '' ? '' : `-${plain.replace(/^\+\s*/u, '')}`;
}
