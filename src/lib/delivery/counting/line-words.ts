/** A line of a packing list as somebody looks for it in a crate. */
import { formatLength, type LengthStyle } from '../../quantity/length.ts';
import type { PackingLine } from '../line.ts';

export interface LineWords {
	readonly what: string;
	readonly mark: string | null;
	/** `length 4'-2"`, `width 7'-10 1/2"`, `size 3.5`, `left hand`, `mill`: what tells it from its neighbours. */
	readonly tells: readonly string[];
	/** `3 each`; null where the list gives no quantity. */
	readonly listed: string | null;
}

export function lineWords(line: PackingLine, style: LengthStyle): LineWords {
	const { description, mark, length, width, size, hand, finish, quantity, unit } = line;
	return {
		what: description.trim() === '' ? 'No words on this line' : description,
		mark,
		tells: [
			...(hand === null ? [] : [`${hand} hand`]),
			...(length === null ? [] : [`length ${formatLength(length, style)}`]),
			...(width === null ? [] : [`width ${formatLength(width, style)}`]),
			...(size === null ? [] : [`size ${size}`]),
			...(finish === null ? [] : [finish])
		],
		listed: quantity === null ? null : `${quantity} ${unit ?? 'pieces'}`
	};
}
