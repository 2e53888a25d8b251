/** What the words of a line can mean among some lots. */
import { canMean, type Description, type DescriptionReader } from './description.ts';
import { kindTitles } from './kind-titles.ts';
import { either, noMatch, proposeLots, type NoMatch } from './matched.ts';
import type { Lot, LotsByKind } from './wanted.ts';
import { phrasesIn } from './words.ts';

export interface Candidates {
	readonly lots: readonly Lot[];
	/** Those of them whose own title stands in the words. */
	readonly echoes: ReadonlySet<Lot>;
}

export class CandidateFinder {
	readonly #describe: DescriptionReader;
	readonly #known = new Map<LotsByKind, Map<Description, Candidates | NoMatch>>();

	constructor(describe: DescriptionReader) {
		this.#describe = describe;
	}

	find(byKind: LotsByKind, description: Description, where: string): Candidates | NoMatch {
		const here = this.#known.get(byKind) ?? new Map<Description, Candidates | NoMatch>();
		this.#known.set(byKind, here);
		const kept = here.get(description) ?? this.#find(byKind, description, where);
		here.set(description, kept);
		return kept;
	}

	/** Lots whose own title stands in the words, where no other word says another kind. */
	#echoes(byKind: LotsByKind, { phrase, words, alias }: Description): Set<Lot> {
		if (alias || words.belongs) return new Set();
		const lots = [...byKind.values()].flat();
		const titles = phrasesIn(
			phrase,
			lots.map(({ likeness }) => likeness.title)
		);
		return new Set(
			lots.filter(({ kind, likeness: { title } }) => {
				if (!titles.includes(title)) return false;
				const { kinds } = this.#describe(phrase.replaceAll(title, ' ')).words;
				return kinds.length === 0 || kinds.includes(kind);
			})
		);
	}

	#find(byKind: LotsByKind, description: Description, where: string): Candidates | NoMatch {
		const { words } = description;
		const echoes = this.#echoes(byKind, description);
		const kinds = [...new Set(echoes.size > 0 ? [...echoes].map(({ kind }) => kind) : words.kinds)];
		const lots = kinds.flatMap((kind) => byKind.get(kind) ?? []);
		if (echoes.size === 0 && words.mixed) {
			const reason = `its words say ${words.found.join(' and ')}; one line can’t be both`;
			return noMatch(reason, proposeLots(lots, reason));
		}
		if (kinds.length === 0) return noMatch('no word of it says what it is');
		const able = lots.filter((lot) => canMean(lot, description));
		if (able.length === 0)
			return noMatch(`${where} has no such ${either(kinds.map((kind) => kindTitles[kind]))} on order`);
		return { lots: able, echoes };
	}
}
