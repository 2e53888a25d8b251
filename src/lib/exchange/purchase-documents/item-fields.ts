/** What an Item of a document says of itself: words, mark, sizes, hand, finish. */
import { Decimal } from 'decimal.js';
import { parseLength } from '../../quantity/length.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { shown } from '../sheet.ts';
import { viewpointInNote } from '../table-notes.ts';
import { childrenOf, elementsAt, textsAt, type DocumentPart } from './document-fields.ts';
import { dimensionNames, hands, plainName, propertyNames, type ItemProperty } from './item-words.ts';
import type { XmlElement } from './xml-tree.ts';

/** Longest length that is read: 1 km. */
const longest = 1e12;
/** Text for people is rounded to the sixteenth; that much it may be off its figure. */
const sixteenth = 1_587_500;

export interface ItemFields {
	/** Name and description, joined. */
	readonly description: string;
	/** Several are joined by a comma. */
	readonly mark: string | null;
	/** Null where it names none or several. */
	readonly partId: string | null;
	/** Whole nanometres. */
	readonly length: number | null;
	readonly width: number | null;
	readonly size: string | null;
	readonly hand: 'left' | 'right' | null;
	/** The side its hand is seen from, where it says so. */
	readonly handsFrom: 'coilSide' | 'farSide' | null;
	readonly finish: string | null;
	readonly crate: string | null;
	readonly ordered: Decimal | null;
}

class ItemReader {
	readonly #item: XmlElement;
	readonly #part: DocumentPart;
	readonly #measures: Measures;
	readonly #properties = new Map<ItemProperty, XmlElement[]>();

	constructor(item: XmlElement, part: DocumentPart, measures: Measures) {
		this.#item = item;
		this.#part = part;
		this.#measures = measures;
		for (const property of childrenOf(item, 'AdditionalItemProperty')) {
			const name = propertyNames[plainName(part.requiredText(property, 'Name') ?? '')];
			if (name !== undefined) this.#properties.set(name, [...(this.#properties.get(name) ?? []), property]);
		}
	}

	read(): ItemFields {
		const marks = this.#texts('mark');
		const parts = this.#texts('part');
		return {
			description: this.#description(),
			mark: marks.length > 0 ? marks.join(', ') : this.#texts('opening').join(', ') || null,
			partId: parts.length === 1 ? (parts[0] ?? null) : null,
			length: this.#length('length'),
			width: this.#length('width'),
			size: this.#single('size'),
			hand: this.#hand(),
			handsFrom: this.#handsFrom(),
			finish: this.#single('finish'),
			crate: this.#single('crate'),
			ordered: this.#ordered()
		};
	}

	#description(): string {
		const name = textsAt(this.#item, 'Name').join(', ');
		const description = textsAt(this.#item, 'Description').join(', ');
		if (name === '' || description.toLowerCase().includes(name.toLowerCase())) return description;
		return description === '' || name.toLowerCase().includes(description.toLowerCase())
			? name
			: `${name}: ${description}`;
	}

	/** Different values of a property, in the order of the file. */
	#texts(name: ItemProperty): readonly string[] {
		return [...new Set((this.#properties.get(name) ?? []).flatMap((property) => textsAt(property, 'Value')))];
	}

	#single(name: ItemProperty): string | null {
		const [first, second] = this.#texts(name);
		if (second === undefined) return first ?? null;
		return this.#ask(name, `${first ?? ''}, ${second}`, `two different values for ${name}; one is right`);
	}

	#ask(name: ItemProperty, text: string, reason: string): null {
		return this.#part.ask(this.#properties.get(name)?.[0] ?? this.#item, `property ${name}`, text, reason);
	}

	#hand(): 'left' | 'right' | null {
		const text = this.#single('hand');
		if (text === null) return null;
		return (
			hands[plainName(text)] ?? this.#ask('hand', text, `“${shown(text)}” is no hand; write left or right`)
		);
	}

	#handsFrom(): 'coilSide' | 'farSide' | null {
		const said = (this.#properties.get('hand') ?? [])
			.flatMap((property) => [...textsAt(property, 'ValueQualifier'), ...textsAt(property, 'Name')])
			.map((text) => viewpointInNote(`hand ${text}`))
			.filter((side) => side !== null);
		return said[0] ?? null;
	}

	#ordered(): Decimal | null {
		const property = this.#properties.get('ordered')?.[0];
		if (property === undefined) return null;
		const written = this.#part.one(property, 'ValueQuantity') ?? this.#part.one(property, 'Value');
		return written === null ? null : this.#part.decimal(written, 'property ordered');
	}

	/** One length; every place that gives it has to agree, to the sixteenth that people round to. */
	#length(name: 'length' | 'width'): number | null {
		const figures = [...this.#quantities(name), ...this.#dimensions(name)];
		const texts = (this.#properties.get(name) ?? []).flatMap((property) => childrenOf(property, 'Value'));
		const read = [
			...figures.map((element) => this.#measured(element, name)),
			// A text beside a figure is for people: it is read to compare, and alone where there is no figure.
			...texts.filter(({ text }) => text !== '').map((element) => this.#written(element, name))
		].filter((nm) => nm !== null);
		const [first] = read;
		if (first === undefined) return null;
		if (read.every((nm) => Math.abs(nm - first) <= sixteenth)) return first;
		return this.#ask(
			name,
			texts[0]?.text ?? '',
			`its ${name} is given in two ways that differ by more than 1/16"`
		);
	}

	#quantities(name: 'length' | 'width'): readonly XmlElement[] {
		return (this.#properties.get(name) ?? []).flatMap((property) => childrenOf(property, 'ValueQuantity'));
	}

	#dimensions(name: 'length' | 'width'): readonly XmlElement[] {
		const dimensions = [
			...childrenOf(this.#item, 'Dimension'),
			...['BuyersItemIdentification', 'SellersItemIdentification', 'ManufacturersItemIdentification'].flatMap(
				(identification) => elementsAt(this.#item, `${identification}/MeasurementDimension`)
			)
		];
		return dimensions
			.filter((dimension) => dimensionNames[plainName(textsAt(dimension, 'AttributeID')[0] ?? '')] === name)
			.flatMap((dimension) => childrenOf(dimension, 'Measure'));
	}

	#measured(element: XmlElement, name: string): number | null {
		const what = `${name}, ${element.name}`;
		const value = this.#part.decimal(element, what);
		const { unit, code } = this.#part.unit(element, what);
		if (value === null || (unit === null && code !== null)) return null;
		const nm = unit?.nm ?? null;
		if (unit === null || nm === null)
			return this.#part.ask(
				element,
				what,
				element.text,
				unit === null
					? `nothing says what unit ${shown(element.text)} is in; give its unitCode, INH or MMT`
					: `a ${name} in ${unit.word} is no length; its unitCode is INH or MMT`
			);
		// At most half a nanometre off, where the writer gave more decimals than a length has.
		return this.#inRange(
			value.times(nm).toDecimalPlaces(0, Decimal.ROUND_HALF_EVEN).toNumber(),
			element,
			what
		);
	}

	#written(element: XmlElement, name: string): number | null {
		const what = `property ${name}`;
		if (/^[\d.,]+(?:[ -]\d+\/\d+)?$/u.test(element.text)) {
			// A bare figure repeats the ValueQuantity beside it; alone it has no unit.
			if (this.#quantities(name === 'length' ? 'length' : 'width').length > 0) return null;
			return this.#part.ask(
				element,
				what,
				element.text,
				`nothing says what unit ${shown(element.text)} is in; write it with its unit, such as 110 in or 2794 mm`
			);
		}
		const read = parseLength(element.text, this.#measures === 'imperial' ? 'in' : 'mm');
		return read.ok
			? this.#inRange(read.nm, element, what)
			: this.#part.ask(element, what, element.text, read.reason);
	}

	#inRange(nm: number, element: XmlElement, what: string): number | null {
		if (nm > 0 && nm <= longest) return nm;
		return this.#part.ask(element, what, element.text, 'a length is more than 0 and at most 1 km');
	}
}

/**
 * Reads an Item. A property that is not one of the known names is passed over; sizes are taken from
 * AdditionalItemProperty (ValueQuantity before Value), Dimension and MeasurementDimension.
 *
 * @param measures of the job: what a comma in a written length means
 */
export function readItem(item: XmlElement, part: DocumentPart, measures: Measures): ItemFields {
	return new ItemReader(item, part, measures).read();
}
