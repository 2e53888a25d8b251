/** Plumb of the jambs, and whether the anchors pass the shims it takes. */
import { notMeasured, type Caution, type Finding } from './finding.ts';
import type { Side } from './governing.ts';
import { knotsOf, rangeOf, type Knot, type Plane } from './jamb-line.ts';
import type { GuideShims, StandingGuide } from './shims.ts';
import type { Against } from './size-findings.ts';

const planeWords = { inPlane: 'in the wall', outOfPlane: 'out of the wall' } as const;

/** What is missing for the line of a jamb to be known along its guide; empty where nothing is. */
function gapsOf(
	knots: readonly Knot[],
	reach: { readonly from: number; readonly to: number },
	{ tolerances, say }: Against
): string[] {
	const [first, last] = [knots.at(0), knots.at(-1)];
	if (!first || !last || knots.length < 2) return ['at two heights or more'];
	const far = tolerances.plumbReach;
	return [
		...(first.height - reach.from > far ? [`at ${say(reach.from + far)} or lower`] : []),
		...(reach.to - last.height > far ? [`at ${say(reach.to - far)} or higher`] : [])
	];
}

/**
 * Plumb of one jamb in one plane. In the plane that the guide is shimmed in, the thickest shim is held against what shims
 * may be; in the other, the lean along the guide: beside a guide on the face of the wall as skew, the depth of a jamb
 * that a guide stands in as shims.
 *
 * @param bearing the plane the guide is shimmed in
 * @param shims of this guide, null where the takeoff has no guide or nothing was read
 * @param height drawn or measured height, for an opening whose guides are not known
 */
export function plumbFinding(
	side: Side,
	plane: Plane,
	bearing: Plane,
	guide: StandingGuide | null,
	shims: GuideShims | null,
	height: number | null,
	against: Against
): Finding {
	const { readings, tolerances, say } = against;
	const at = side === 'left' ? 'Left' : 'Right';
	const thing = plane === 'inPlane' ? (`plumbIn${at}` as const) : (`plumbOut${at}` as const);
	const title = `Plumb ${planeWords[plane]}, ${side}`;
	const knots = knotsOf(readings.plumb[side], plane);
	const top = guide?.length ?? height;
	const range = top === null ? null : rangeOf(knots, 0, top);
	if (top === null || range === null)
		return notMeasured(
			thing,
			title,
			`Plumb of the ${side} jamb ${planeWords[plane]} is not measured.`,
			'Read it at several heights from sill to head.',
			0
		);
	const lean = range.most - range.least;
	const thickest = plane === bearing ? (shims?.thickest ?? null) : null;
	const measured = thickest?.exact ?? lean;
	const allowed = plane === 'inPlane' && bearing === 'outOfPlane' ? tolerances.skew : tolerances.shim;
	const gaps = gapsOf(knots, { from: guide?.anchors.at(0) ?? 0, to: guide?.anchors.at(-1) ?? top }, against);
	const beyond = measured > allowed;
	const text = thickest
		? thickest.exact === 0
			? `The ${side} guide needs no shims ${planeWords[plane]}; ${say(allowed)} is allowed`
			: `Thickest shims of the ${side} guide are ${say(thickest.exact)}, at ${say(thickest.height)}; ${say(allowed)} is allowed`
		: `The ${side} jamb is ${say(lean)} out of plumb ${planeWords[plane]}; ${say(allowed)} is allowed`;
	const state = beyond ? 'stop' : gaps.length > 0 ? 'notMeasured' : 'within';
	return {
		thing,
		title,
		state,
		measured,
		drawn: 0,
		difference: measured,
		tolerance: allowed,
		text: gaps.length === 0 ? `${text}.` : `${text}; still to be read ${gaps.join(' and ')}.`,
		clears:
			state === 'stop'
				? `The ${side} jamb made plumb to ${say(allowed)}, or the designer’s word on how the guide is packed.`
				: state === 'notMeasured'
					? `Read the plumb of the ${side} jamb ${gaps.join(' and ')}.`
					: ''
	};
}

/** Whether the anchors that are bought pass the thickest shims; nothing where there are no shims or no anchor. */
export function anchorFinding(
	side: Side,
	guide: StandingGuide | null,
	shims: GuideShims | null,
	{ say }: Pick<Against, 'say'>
): { readonly finding: Finding | null; readonly caution: Caution | null } {
	const anchor = guide?.anchor ?? null;
	const thickest = shims?.thickest ?? null;
	if (!anchor || !thickest) return { finding: null, caution: null };
	const { made } = thickest;
	const { length, mostShim, allowance, through, embedded } = anchor;
	const lacks = made - mostShim;
	const common = {
		thing: side === 'left' ? ('anchorLeft' as const) : ('anchorRight' as const),
		title: `Anchors, ${side} guide`,
		measured: made,
		drawn: mostShim,
		difference: lacks,
		tolerance: 0
	};
	if (lacks > 0) {
		const needed = length + lacks;
		const longer = anchor.lengths.filter((one) => one >= needed);
		const left = embedded
			? `it would stand ${say(through - lacks)} in the wall, ${say(through)} is needed`
			: `it would fall ${say(lacks)} short`;
		const replacement =
			longer.length > 0
				? `The anchor of ${say(Math.min(...longer))} there`
				: `An anchor of ${say(needed)} or longer there; the shop book has none`;
		return {
			finding: {
				...common,
				state: 'stop',
				text: `Anchor ${String(thickest.anchor)} of the ${side} guide has ${say(made)} of shims at ${say(thickest.height)}; the anchor of ${say(length)} passes ${say(Math.max(0, mostShim))}: ${left}.`,
				clears: `${replacement}, or less to shim.`
			},
			caution: null
		};
	}
	return {
		finding: {
			...common,
			state: 'within',
			text: `The anchor of ${say(length)} passes ${say(mostShim)} of shims; the thickest of the ${side} guide are ${say(made)}.`,
			clears: ''
		},
		caution:
			made > allowance
				? {
						text: `Shims of the ${side} guide reach ${say(made)}, more than the ${say(allowance)} the shop reckons with; the anchor of ${say(length)} still passes them.`,
						clears: `A longer anchor, or a ${side} wall made plumb.`
					}
				: null
	};
}
