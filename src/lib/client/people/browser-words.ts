// What a browser says of itself names others too, for old times' sake: the first that fits is the one.
const browsers: readonly (readonly [RegExp, string])[] = [
	[/\bEdg(?:A|iOS)?\//u, 'Edge'],
	[/\bOPR\//u, 'Opera'],
	[/\b(?:Firefox|FxiOS)\//u, 'Firefox'],
	[/\b(?:Chrome|CriOS|Chromium)\//u, 'Chrome'],
	[/\bVersion\/.*\bSafari\//u, 'Safari']
];
const machines: readonly (readonly [RegExp, string])[] = [
	[/\bAndroid\b/u, 'Android'],
	[/\biPad\b/u, 'iPad'],
	[/\biPhone\b/u, 'iPhone'],
	[/\bWindows\b/u, 'Windows'],
	[/\bMac OS X\b|\bMacintosh\b/u, 'Mac'],
	[/\bCrOS\b/u, 'Chromebook'],
	[/\bLinux\b/u, 'Linux']
];

/** A browser in words, by its `User-Agent` header: `Firefox on Windows`. A guess for the eye, never proof of anything. */
export function browserWords(saidOfItself: string | null): string {
	const of = (list: typeof browsers): string | undefined =>
		list.find(([pattern]) => pattern.test(saidOfItself ?? ''))?.[1];
	const [browser, machine] = [of(browsers), of(machines)];
	if (machine === undefined) return browser ?? 'Unknown browser';
	return `${browser ?? 'A browser'} on ${machine}`;
}
