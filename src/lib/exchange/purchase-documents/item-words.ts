/** Words by which items of a document name what they say. */

export type ItemProperty =
	'mark' | 'opening' | 'size' | 'length' | 'width' | 'hand' | 'finish' | 'part' | 'crate' | 'ordered';

/**
 * Names an AdditionalItemProperty may have; the standard leaves them to those who write. Ours, and what is usual beside
 * them (*common practice, no source*).
 */
export const propertyNames: Readonly<Record<string, ItemProperty>> = {
	mark: 'mark',
	'type mark': 'mark',
	'opening mark': 'mark',
	'door mark': 'mark',
	tag: 'mark',
	opening: 'opening',
	'opening number': 'opening',
	size: 'size',
	'nominal size': 'size',
	length: 'length',
	'cut length': 'length',
	width: 'width',
	hand: 'hand',
	handing: 'hand',
	side: 'hand',
	finish: 'finish',
	colour: 'finish',
	color: 'finish',
	part: 'part',
	'part id': 'part',
	'part number': 'part',
	'your part': 'part',
	crate: 'crate',
	package: 'crate',
	ordered: 'ordered',
	'quantity ordered': 'ordered',
	'ordered quantity': 'ordered'
};

export const hands: Readonly<Record<string, 'left' | 'right'>> = {
	left: 'left',
	l: 'left',
	lh: 'left',
	'left hand': 'left',
	right: 'right',
	r: 'right',
	rh: 'right',
	'right hand': 'right'
};

/** AttributeID of a Dimension, by word or by the code of UN/EDIFACT 6313 (LN length, WD width; *from memory*). */
export const dimensionNames: Readonly<Record<string, 'length' | 'width'>> = {
	length: 'length',
	ln: 'length',
	width: 'width',
	wd: 'width'
};

/** `TypeMark`, `type-mark` → `type mark` */
export const plainName = (text: string): string =>
	text
		.replace(/([a-z])([A-Z])/gu, '$1 $2')
		.toLowerCase()
		.replace(/[^a-z]+/gu, ' ')
		.trim();
