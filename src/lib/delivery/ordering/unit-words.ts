/** Units as suppliers write them in an answer, against the unit of the order. */
import { Decimal } from 'decimal.js';
import type { Part } from '../../takeoff/result.ts';

type Unit = Part['unit'];

/** Words in small letters without dots. Common practice, no source; `c62`, `h87`, `npr` and `fot` are codes of UN/ECE Recommendation 20. */
const words: Readonly<Record<Unit, string>> = {
	each: 'each ea e pc pcs pce pieces piece no nos number unit units c62 h87',
	pair: 'pair pairs pr prs npr',
	set: 'set sets st',
	length: 'length lengths lg lgth lgths bar bars',
	tube: 'tube tubes tu cartridge cartridges',
	ft: 'ft feet foot lf lin fot'
};

const byWord: ReadonlyMap<string, Unit> = new Map(
	(Object.entries(words) as [Unit, string][]).flatMap(([unit, list]) =>
		list.split(' ').map((word) => [word, unit] as const)
	)
);

/** The unit a word means; null for one it does not know. */
const unitOf = (written: string): Unit | null =>
	byWord.get(
		written
			.normalize('NFKC')
			.toLowerCase()
			.replace(/[^a-z0-9]+/gu, '')
	) ?? null;

export interface AnsweredUnit {
	/** Units of the order in one unit of the answer; null where they do not convert. */
	readonly factor: Decimal | null;
	/** It counts in something else than the order: somebody has to look, even where it converts. */
	readonly differs: boolean;
}

const same: AnsweredUnit = { factor: new Decimal(1), differs: false };

/**
 * @param written null where the answer says none: then it counts as the order does
 * @param handed whether the line is of one hand: a pair may then be one of each hand and is never converted
 */
export function answeredUnit(written: string | null, ordered: Unit, handed: boolean): AnsweredUnit {
	if (written === null || written.trim() === '') return same;
	const said = unitOf(written);
	if (said === ordered) return same;
	if (said === 'each' && (ordered === 'length' || ordered === 'tube')) return same;
	if (said === 'length' && ordered === 'each') return same;
	if (said === 'pair' && ordered === 'each' && !handed) return { factor: new Decimal(2), differs: true };
	if (said === 'each' && ordered === 'pair') return { factor: new Decimal('0.5'), differs: true };
	return { factor: null, differs: true };
}
