/** Something wrong with a rule book, found while it is loaded. */
export interface RuleProblem {
	/** Id of the rule, table, scope, constant or function it is about. */
	readonly rule: string;
	/** What is wrong with it and, where it can be said, what would be right. */
	readonly problem: string;
}

/** Letters changed, added or left out between two words (Levenshtein's distance). */
function distance(a: string, b: string): number {
	let row = Array.from({ length: b.length + 1 }, (_, j) => j);
	for (let i = 1; i <= a.length; i++) {
		const next = [i];
		for (let j = 1; j <= b.length; j++) {
			const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
			next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
		}
		row = next;
	}
	return row[b.length] ?? 0;
}

/** ` (did you mean …?)` with the nearest of the known names, or nothing when none is near. */
export function nearestName(name: string, known: Iterable<string>): string {
	let best = '';
	let least = Math.max(2, Math.floor(name.length / 3)) + 1;
	for (const candidate of known) {
		const d = distance(name.toLowerCase(), candidate.toLowerCase());
		if (d < least) [best, least] = [candidate, d];
	}
	return best === '' ? '' : ` (did you mean ${best}?)`;
}
