/** The engineering of a whole job: one row a mark, or an opening that differs. */
import type { Check, OpeningTakeoff } from '../../takeoff/result.ts';
import { checksAbout, heldBy, operatedBy, type Place, type Section, type Side } from './sections.ts';

/** What is used most on one side, and what would give way first there. */
interface WorstUse {
	readonly place: Place;
	readonly use: string;
	readonly mode: string;
	/** Null where either of both is not known: then nobody knows which is worst. */
	readonly value: number | null;
}

export interface HoldingRow {
	readonly opening: OpeningTakeoff;
	readonly left: WorstUse;
	readonly right: WorstUse;
	readonly stops: readonly Check[];
}

export const openingName = ({ openingId, mark }: OpeningTakeoff): string => openingId ?? mark;

export const stopsAbout = (section: Section, { checks }: OpeningTakeoff): readonly Check[] =>
	checksAbout(section, checks).filter(({ severity }) => severity === 'stop');

function worstUse(opening: OpeningTakeoff, side: Side): WorstUse {
	const uses = (['Guide', 'Bracket'] as const).map((place) => {
		const { use, mode } = heldBy(place, side);
		const value = opening.get(use);
		return { place, use, mode, value: typeof value === 'number' ? value : null };
	});
	const [guide, bracket] = uses;
	if (!guide || !bracket) throw new Error('a side has a guide and a bracket');
	if (guide.value === null) return guide;
	if (bracket.value === null) return bracket;
	return bracket.value > guide.value ? bracket : guide;
}

/** Stops first, then the most used; what is not known stands before what is. */
export function holdingRows(openings: readonly OpeningTakeoff[]): HoldingRow[] {
	const worst = ({ left, right }: HoldingRow): number =>
		Math.max(left.value ?? Infinity, right.value ?? Infinity);
	return openings
		.filter(({ computed }) => computed)
		.map((opening) => ({
			opening,
			left: worstUse(opening, 'Left'),
			right: worstUse(opening, 'Right'),
			stops: stopsAbout('holding', opening)
		}))
		.sort((a, b) => {
			const byStops = Number(b.stops.length > 0) - Number(a.stops.length > 0);
			const [one, other] = [worst(a), worst(b)];
			return byStops !== 0 || one === other ? byStops : other > one ? 1 : -1;
		});
}

/** Openings that a section is about, those with stops first. */
export function rowsOf(
	section: Exclude<Section, 'holding'>,
	openings: readonly OpeningTakeoff[]
): OpeningTakeoff[] {
	const wanted = { drive: 'motor', springs: 'hand', lifting: null }[section];
	return openings
		.filter(
			(opening) => opening.computed && (wanted === null || operatedBy((id) => opening.get(id)) === wanted)
		)
		.map((opening) => ({ opening, held: stopsAbout(section, opening).length > 0 }))
		.sort((a, b) => Number(b.held) - Number(a.held))
		.map(({ opening }) => opening);
}
