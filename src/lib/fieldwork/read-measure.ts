/**
 * A field measure against the takeoff: what agrees, what stops the work before anything is drilled, what is still to
 * measure, what the measured sizes change, and the shims. It says what was compared; it approves nothing.
 */
import type { Engine } from '../takeoff/engine.ts';
import type { Measures } from '../takeoff/inputs.ts';
import type { OpeningTakeoff, Part } from '../takeoff/result.ts';
import { effectsOf, type Effects } from './effects.ts';
import type { FieldReadings } from './field-measure.ts';
import type { Caution, Finding } from './finding.ts';
import { governingSizes, sides, type GoverningSizes, type Mountings, type Side } from './governing.ts';
import { knotsOf } from './jamb-line.ts';
import type { OrderLineOfPart } from './part-changes.ts';
import { anchorFinding, plumbFinding } from './plumb-findings.ts';
import { headroomFinding, sideRoomFinding, wallFinding } from './room-findings.ts';
import { sayLength } from './sentence.ts';
import { shimPlane, shimStep, shimsOf, standingGuide, type GuideShims } from './shims.ts';
import { heightFinding, sillFinding, skewFinding, widthFinding, type Against } from './size-findings.ts';
import { soundReadings } from './sound-readings.ts';
import { takeoffAgain } from './takeoff-again.ts';
import { changedCells, lengthOf, takenSizes } from './taken-sizes.ts';
import { defaultTolerances, type Tolerances } from './tolerances.ts';

export interface MeasureQuestion {
	readonly engine: Engine;
	/** The row the opening belongs to, as it was taken off. */
	readonly opening: OpeningTakeoff;
	/** Which of the openings of the row was measured. */
	readonly openingId: string;
	readonly readings: FieldReadings;
	/** Units of the sentences and of the shims. */
	readonly measures: Measures;
	readonly tolerances?: Tolerances;
	/** Parts of the opening as they are stored; without them those of the takeoff. */
	readonly parts?: readonly Part[];
	/** Order lines by part id. */
	readonly orderLines?: ReadonlyMap<string, readonly OrderLineOfPart[]>;
}

export interface MeasureVerdict {
	readonly openingId: string;
	/** `stop` where anything is beyond tolerance, else `incomplete` where anything is still to measure. */
	readonly outcome: 'agrees' | 'stop' | 'incomplete';
	/** One sentence: the outcome with what stops it or what is missing. */
	readonly text: string;
	/** Thing by thing, in the order of measuring. */
	readonly findings: readonly Finding[];
	/** What is still to measure, one sentence each. */
	readonly missing: readonly string[];
	readonly cautions: readonly Caution[];
	readonly governing: GoverningSizes;
	readonly effects: Effects;
	/** Null where no guide is worked out or its plumb was not read. */
	readonly shims: Readonly<Record<Side, GuideShims | null>>;
}

const nameOf = { left: 'Left', right: 'Right' } as const;

/** Sizes beyond tolerance change the row; drawn sizes within tolerance stand. */
export function readMeasure(question: MeasureQuestion): MeasureVerdict {
	const { engine, opening, openingId, measures } = question;
	const tolerances = question.tolerances ?? defaultTolerances;
	const say = sayLength(measures);
	const { readings, problems } = soundReadings(question.readings);
	const against: Against = { readings, tolerances, say };
	const mountings: Mountings = {
		left: opening.get('mountingLeft') === 'betweenJambs' ? 'betweenJambs' : 'faceOfWall',
		right: opening.get('mountingRight') === 'betweenJambs' ? 'betweenJambs' : 'faceOfWall'
	};
	const drawn = {
		width: lengthOf(opening, 'openingWidth'),
		height: lengthOf(opening, 'openingHeight')
	};
	const governing = governingSizes(readings, mountings, drawn.height);
	const sizes = takenSizes(opening, governing, tolerances);
	const changes = changedCells(opening, readings, sizes, measures);
	const again = takeoffAgain(engine, opening, changes, sizes, measures);
	const guides = {
		left: standingGuide(again.guide.left, 'left', engine.book),
		right: standingGuide(again.guide.right, 'right', engine.book)
	};
	const shimsAt = (side: Side): GuideShims | null => {
		const guide = guides[side];
		return guide ? shimsOf(guide, knotsOf(readings.plumb[side], guide.plane), shimStep(measures)) : null;
	};
	const shims = { left: shimsAt('left'), right: shimsAt('right') };
	const anchors = sides.map((side) => anchorFinding(side, guides[side], shims[side], against));
	const wallOf = (side: Side): string | null => {
		const wall = opening.get(`substrate${nameOf[side]}`);
		return typeof wall === 'string' && wall !== '' ? wall : null;
	};
	const findings: Finding[] = [
		...problems.map(({ text }): Finding => ({
			thing: 'readings',
			title: 'Readings',
			state: 'stop',
			measured: null,
			drawn: null,
			difference: null,
			tolerance: null,
			text,
			clears: 'The reading taken again, or left empty.'
		})),
		widthFinding(governing, drawn.width, against),
		...sides.map((side) => heightFinding(side, drawn.height, against)),
		skewFinding(against),
		...sides.flatMap((side) =>
			(['inPlane', 'outOfPlane'] as const).map((plane) =>
				plumbFinding(
					side,
					plane,
					shimPlane(mountings[side]),
					guides[side],
					shims[side],
					governing.height ?? drawn.height,
					against
				)
			)
		),
		...anchors.flatMap(({ finding }) => finding ?? []),
		sillFinding(governing.width ?? drawn.width, against),
		headroomFinding(lengthOf(again.whole, 'requiredHeadroom'), lengthOf(opening, 'headroom'), against),
		...sides
			.filter((side) => mountings[side] === 'faceOfWall')
			.map((side) =>
				sideRoomFinding(
					side,
					lengthOf(again.whole, `requiredSideRoom${nameOf[side]}`),
					lengthOf(opening, `sideRoom${nameOf[side]}`),
					against
				)
			),
		...sides.map((side) => wallFinding(side, wallOf(side), against))
	];
	const stops = findings.filter(({ state }) => state === 'stop');
	const missing = findings.filter(({ state }) => state === 'notMeasured');
	return {
		openingId,
		outcome: stops.length > 0 ? 'stop' : missing.length > 0 ? 'incomplete' : 'agrees',
		text: outcomeText(openingId, stops, missing),
		findings,
		missing: missing.map(({ clears }) => clears),
		cautions: [...anchors.flatMap(({ caution }) => caution ?? []), ...siteCautions(opening, against)],
		governing,
		effects: effectsOf(engine, opening, openingId, again, changes, measures, {
			parts: question.parts ?? null,
			orderLines: question.orderLines ?? new Map()
		}),
		shims
	};
}

function outcomeText(openingId: string, stops: readonly Finding[], missing: readonly Finding[]): string {
	const [first] = stops;
	const titles = (list: readonly Finding[]): string =>
		[...new Set(list.map(({ title }) => title.toLowerCase()))].join('; ');
	if (first)
		return `${openingId}: stop before anything is drilled. ${first.text}${stops.length > 1 ? ` Also: ${titles(stops.slice(1))}.` : ''}`;
	if (missing.length > 0) return `${openingId}: still to measure: ${titles(missing)}.`;
	return `${openingId}: everything that was measured is within tolerance of the drawing.`;
}

/** What no tolerance decides. */
function siteCautions(opening: OpeningTakeoff, { readings, tolerances, say }: Against): Caution[] {
	const cautions: Caution[] = [];
	const buildUp = lengthOf(opening, 'floorBuildUp');
	if (buildUp !== null && buildUp > 0)
		cautions.push({
			text: `${say(buildUp)} of floor finish is still to come by the row; heights count from the finished sill.`,
			clears: 'Heights measured from the finished sill, or from a datum with the finish taken off.'
		});
	const { left, right } = readings.heights;
	if (left !== null && right !== null && readings.sillRise !== null) {
		const apart = right + readings.sillRise - left;
		if (Math.abs(apart) > tolerances.level) {
			const lower = apart > 0 ? 'left' : 'right';
			cautions.push({
				text: `By its own height the ${lower} guide ends ${say(Math.abs(apart))} lower than the other: brackets are set level from one datum, never from each head.`,
				clears: `Both brackets set at the level of the higher, and the ${lower} guide’s end closed up to its bracket.`
			});
		}
	}
	return cautions;
}
