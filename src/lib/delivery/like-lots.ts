/** What a line may mean whose words say too little: lots that its measures, hand and count speak for. */
import type { Chooser } from './choose.ts';
import type { Proposal } from './comparison.ts';
import { confidences } from './confidence.ts';
import { isMeasured, type Claims } from './differ.ts';
import { kindTitles } from './kind-titles.ts';
import { proposeLots } from './matched.ts';
import type { LotsByKind } from './wanted.ts';

/** The likeliest first; only lots that a measure speaks for, and of the kinds the words name where they name any. */
export function likeLots(claims: Claims, byKind: LotsByKind, where: string, chooser: Chooser): Proposal[] {
	const { kinds } = claims.description.words;
	const fitting = [...byKind]
		.filter(([kind]) => kinds.length === 0 || kinds.includes(kind))
		.flatMap(([, lots]) => lots.map((lot) => chooser.verdictOf(claims, lot)))
		.filter((verdict) => verdict.differing.length === 0 && verdict.assumed === null && isMeasured(verdict))
		.map((verdict) => ({
			verdict,
			agreeing: verdict.agreeing.length + (verdict.lot.ordered.eq(claims.line.quantity ?? NaN) ? 1 : 0)
		}))
		.sort((a, b) => b.agreeing - a.agreeing);
	const best = fitting.filter(({ agreeing }) => agreeing === fitting[0]?.agreeing).length;
	return fitting.flatMap(({ verdict: { lot, agreeing }, agreeing: score }, at) =>
		proposeLots(
			[lot],
			`${where}: ${agreeing.join(', ')} would fit the ${kindTitles[lot.kind]}`,
			best === 1 && at === 0 && score > 1 ? confidences.likely : confidences.oneOfSeveral
		)
	);
}
