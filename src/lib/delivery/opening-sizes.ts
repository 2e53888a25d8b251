/** Lists that give the size of the opening where the part has a size of its own. */
import type { PackingFacts } from './line.ts';
import { plainMark } from './spelling.ts';

/** Sizes of the openings of a mark, whole nanometres; null where nobody knows. */
export interface PlaceSizes {
	/** A mark; or one opening of it that differs. */
	readonly name: string;
	readonly openingWidth: number | null;
	readonly openingHeight: number | null;
	/** With the guides. */
	readonly overallWidth: number | null;
}

/** What the sizes of a list measure: as it says itself, or as its supplier usually does. */
export interface SizeMeaning {
	readonly meaning: NonNullable<PackingFacts['sizes']>;
	/** The list itself, or a person, says so. */
	readonly said: boolean;
}

/** Figures of an opening that a line may give instead of its part’s. */
interface OpeningFigures {
	readonly opening: readonly number[];
	readonly overall: readonly number[];
}

export class OpeningSizes {
	readonly #places: ReadonlyMap<string, OpeningFigures>;

	constructor(places: readonly PlaceSizes[]) {
		const known = (...figures: (number | null)[]): number[] => figures.flatMap((figure) => figure ?? []);
		this.#places = new Map(
			places.map(({ name, openingWidth, openingHeight, overallWidth }) => [
				plainMark(name),
				{ opening: known(openingWidth, openingHeight), overall: known(overallWidth, openingHeight) }
			])
		);
	}

	/** Of one opening, else of its mark. */
	of(mark: string, openingId: string): OpeningFigures | undefined {
		return this.#places.get(plainMark(openingId)) ?? this.#places.get(plainMark(mark));
	}
}
