/** From which side a packing list sees left and right. */

export interface Viewpoint {
	readonly from: 'coilSide' | 'farSide';
	/** What was taken for granted; null where the coil is named. */
	readonly assumed: string | null;
}

const hands = /\b(?:left|right|hands?|handing|handed|l\.?h\.?|r\.?h\.?|l\s?\/\s?r)\b/iu;
const seen =
	/\b(?:seen|viewed|looking|looked|facing|standing|determined)\b|\b(?:hand(?:s|ing|ed)?|lh|rh|l\s?\/\s?r)\b.*\bfrom\b/iu;

const sides: readonly (readonly [RegExp, Viewpoint['from'], string | null])[] = [
	[
		/\b(?:far side|opposite (?:the )?(?:coil|side)|away from the coil|not the coil side)\b/iu,
		'farSide',
		null
	],
	[
		/\b(?:coil(?:ed)? side|side of the coil|hood side|facing the coil|looking at the (?:coil|hood))\b/iu,
		'coilSide',
		null
	],
	[
		/\b(?:outside|exterior|street|public side|customers?['’]? side|counter front|front of (?:the )?counter|counter side|weather side|from (?:the )?front)\b/iu,
		'farSide',
		'the side away from the coil'
	],
	[
		/\b(?:inside|interior|room side|behind the counter|back of (?:the )?counter|staff side|secure side)\b/iu,
		'coilSide',
		'the coil side'
	]
];

/** `LH/RH viewed from the coil side`, `Hands as seen from outside`; null for any other text. */
export function viewpointIn(text: string): Viewpoint | null {
	if (!hands.test(text) || !seen.test(text)) return null;
	for (const [pattern, from, means] of sides) {
		const found = pattern.exec(text)?.[0];
		if (found !== undefined)
			return {
				from,
				assumed:
					means === null ? null : `“${found}” is taken for ${means}; say so if the coil is on the other side`
			};
	}
	return null;
}
