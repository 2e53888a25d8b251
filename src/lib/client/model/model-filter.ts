/** Which openings of a model are shown. */
import type { ModelKind, ModelOpening } from '../../exchange/building-model/model.ts';

export interface ModelFilter {
	/** Words that all have to be somewhere in it, whatever their capitals. */
	readonly text: string;
	readonly kind: ModelKind | '';
	/** Empty for all; {@link without} for those that have none. */
	readonly storey: string;
	readonly type: string;
}

export const everything: ModelFilter = { text: '', kind: '', storey: '', type: '' };

/** Stands for an empty name in a list to choose from. */
export const without = '\u0000';

const isOne = (name: string, wanted: string): boolean =>
	wanted === '' || name === (wanted === without ? '' : wanted);

export function filtered(openings: readonly ModelOpening[], filter: ModelFilter): ModelOpening[] {
	const words = filter.text.toLowerCase().split(/\s+/u);
	return openings.filter((opening) => {
		const { tag, name, type, storey, space, globalId, kind, notes } = opening;
		const text = [tag, name, type, storey, space, globalId, ...notes].join(' ').toLowerCase();
		return (
			words.every((word) => text.includes(word)) &&
			(filter.kind === '' || kind === filter.kind) &&
			isOne(storey, filter.storey) &&
			isOne(type, filter.type)
		);
	});
}

/** The different names there are, in order, with {@link without} last where some have none. */
export function namesOf(openings: readonly ModelOpening[], of: 'storey' | 'type'): string[] {
	const names = new Set(openings.map((opening) => opening[of] || without));
	return [...names].sort((a, b) =>
		a === without ? 1 : b === without ? -1 : a.localeCompare(b, 'en', { numeric: true })
	);
}
