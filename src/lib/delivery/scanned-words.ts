/** Words of the trade whose letters a scan took for others. */

/** Words that are put right where a scan spoiled letters of them. */
const scannedWords: readonly string[] = [
	...[
		'anchor',
		'barrel',
		'bottom',
		'bracket',
		'chain',
		'control',
		'counter',
		'crank',
		'curtain',
		'grille',
		'guide'
	],
	...[
		'hand',
		'heavy',
		'hood',
		'left',
		'light',
		'motor',
		'operator',
		'piece',
		'pipe',
		'right',
		'service',
		'slat'
	],
	...['spring', 'support', 'switch', 'tube', 'wedge']
];
/** Letters and figures that scans confuse become one. */
const asScanned = (word: string): string =>
	word.replace(/[1i|]/gu, 'l').replace(/0/gu, 'o').replace(/5/gu, 's').replace(/[cg6]/gu, 'c');
const byScan = new Map(scannedWords.map((word) => [asScanned(word), word]));

/** `Gu1de, 1eft` with its letters put right; `6.62S` with its figure. Words that mean something as they stand are kept. */
export function unscanned(text: string): string {
	return text
		.replace(/(?<=\d\.\d{1,3})s(?![\p{L}\d])/gu, '5')
		.replace(/[\p{L}\d|]{4,}/gu, (word) =>
			/\p{L}/u.test(word) && !scannedWords.includes(word) ? (byScan.get(asScanned(word)) ?? word) : word
		);
}
