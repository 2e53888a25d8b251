/** Words of headings in one spelling, and the units they name. Common practice, no source. */

/** One word for every way of writing it. */
const sameWord: ReadonlyMap<string, string> = new Map(
	Object.entries({
		width: 'w wd wdth wth wide',
		height: 'h ht hgt hght high',
		left: 'l lh lhs',
		right: 'r rh rhs',
		opening: 'op opg opng opn',
		number: 'no num nr nos numbers',
		quantity: 'qty qnty quant qtys quantities oty',
		mounting: 'mount mounted mtg mtd mntg',
		guide: 'guides gd track tracks',
		finish: 'fin finishes',
		design: 'des',
		drawing: 'dwg drg drawings',
		distance: 'dist',
		pressure: 'press',
		operation: 'operated operator',
		remark: 'remarks rmks rem',
		note: 'notes',
		comment: 'comments',
		mark: 'marks mk',
		room: 'rm rooms',
		fixing: 'fixings',
		control: 'controls',
		curtain: 'curtains',
		hood: 'hoods',
		wall: 'walls',
		description: 'desc descr',
		length: 'lg len lth',
		thickness: 'thk thick',
		windlock: 'windlocks',
		size: 'sizes',
		rough: 'ro',
		shipped: 'ship shp shpd shipd shipping',
		balance: 'bal',
		backordered: 'bkord bkordered',
		line: 'ln lines',
		ordered: 'ord ordd',
		shipment: 'shpt shipt',
		reference: 'ref',
		elevation: 'elev el',
		interior: 'int',
		exterior: 'ext',
		required: 'reqd req'
	}).flatMap(([word, others]) => others.split(' ').map((other) => [other, word] as const))
);

/** Words that add nothing to a heading. */
const smallWords = new Set('of the to at a an is per in on for by be or and x'.split(' '));
/** Words that people add to any size; leaving them out changes nothing. */
const sizeWords = new Set('clear finished dimension dimensions dim dims net size'.split(' '));
/** Words over several columns that change the meaning of none. */
const plainGroups = new Set('opening openings door doors general grille grilles shutter shutters'.split(' '));

const unitWords =
	'mm|cm|m|in|in\\.|inch|inches|ft|feet|psf|psi|ksi|kpa|mpa|pa|n\\/mm2|n\\/mm²|plf|lb\\/ft|lb\\/in|n\\/m|kn\\/m|kg\\/m|v|volts';
const unitAtEnd = new RegExp(
	`(?:[([]\\s*(?:in )?(${unitWords})\\s*[)\\]]|[,;]\\s*(?:in )?(${unitWords})|\\s(?:in )?(mm|cm)|\\sin (${unitWords}))\\s*$`,
	'iu'
);
/** `(ft-in)` says only how it is written. */
const manner = /[([]\s*(?:ft|feet)\s*[-–&/]\s*(?:in|inches)\.?\s*[)\]]\s*$/iu;

const plainUnits: ReadonlyMap<string, string> = new Map([
	['in.', 'in'],
	['inch', 'in'],
	['inches', 'in'],
	['feet', 'ft'],
	['volts', 'V'],
	['v', 'V'],
	['kpa', 'kPa'],
	['pa', 'Pa'],
	['mpa', 'MPa'],
	['n/mm2', 'MPa'],
	['n/mm²', 'MPa'],
	['plf', 'lb/ft'],
	['n/m', 'N/m'],
	['kn/m', 'kN/m']
]);

/** The unit that a heading names in brackets or after a comma: `Width (mm)`, `Feed, m`, `f'c [psi]`. */
export function unitInHeading(heading: string): string | null {
	const found: readonly (string | undefined)[] = unitAtEnd.exec(heading)?.slice(1) ?? [];
	const word = found.find((unit) => unit !== undefined)?.toLowerCase();
	return word === undefined ? null : (plainUnits.get(word) ?? word);
}

/** The telling words of a heading, each in one spelling, sorted. */
export function headingWords(heading: string): string[] {
	const words = heading
		.replace(manner, '')
		.replace(unitAtEnd, '')
		.replace(/([a-z])([A-Z])/gu, '$1 $2')
		.normalize('NFKD')
		.replace(/\p{M}/gu, '')
		.toLowerCase()
		.replace(/#/gu, ' number ')
		// Alone, `Nos` is how many there are.
		.replace(/^\W*nos\W*$/u, 'number off')
		// Initials are one word: `R.O.`, `A.F.F.`, `L.H.`
		.replace(/\b[a-z](?:\.[a-z])+\b\.?/gu, (initials) => initials.replaceAll('.', ''))
		.replace(/\b([lr])\/h\b/gu, '$1h')
		.replace(/\bu\/m\b/gu, 'um')
		// A count in a box is no box.
		.replace(/(?:\bper |\/)(box|carton|ctn|pack|case|bag)\b/gu, ' per$1 ')
		.replace(/['’′]/gu, '')
		.split(/[^a-z0-9]+/u)
		.filter((word) => word !== '' && !smallWords.has(word))
		.map((word) => sameWord.get(word) ?? word);
	return words.sort();
}

export const withoutSizeWords = (words: readonly string[]): string[] =>
	words.filter((word) => !sizeWords.has(word));

/** Whether words over several columns change the meaning of none. */
export const isPlainGroup = (words: readonly string[]): boolean =>
	words.every((word) => plainGroups.has(word));

const longestGroup = 30;

/** Whether a text can stand over several columns: short, without figures, and of the words of headings. */
export function canBeGroup(text: string, vocabulary: ReadonlySet<string>): boolean {
	if (text === '' || text.length > longestGroup || /[\d:]/u.test(text.replace(unitAtEnd, ''))) return false;
	return headingWords(text).some(
		(word) => vocabulary.has(word) || plainGroups.has(word) || sizeWords.has(word)
	);
}

/** A heading without the unit at its end, in small letters. */
export const withoutUnit = (heading: string): string =>
	heading.replace(manner, '').replace(unitAtEnd, '').trim().toLowerCase();
