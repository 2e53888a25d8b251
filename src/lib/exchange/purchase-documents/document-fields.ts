/** Elements of a document read one by one: what can't be read is null and asked, with its place. */
import { Decimal } from 'decimal.js';
import type { Day } from '../../delivery/ordering/purchase-order.ts';
import { Money } from '../../quantity/money.ts';
import { shown } from '../sheet.ts';
import { aggregates, basics } from './names.ts';
import { readUnitCode, type UnitOfMeasure } from './units-of-measure.ts';
import type { XmlElement } from './xml-tree.ts';

/** The same as a question about a packing list in a table. */
export interface DocumentQuestion {
	/** Line of the document (its first is 1); 0 where it is about the whole of it. */
	readonly line: number;
	/** `truck-2.xml, despatch line 3, DeliveredQuantity (line 87 of the file)` */
	readonly place: string;
	/** As it stands there. */
	readonly text: string;
	readonly reason: string;
}

/** `Shipment/TransportHandlingUnit`: aggregates, and a last step that may be a basic one (`ID`). */
type Path = string;

/** Every one of an element's own children of that name, aggregate or basic. */
export const childrenOf = (parent: XmlElement, name: string): readonly XmlElement[] =>
	parent.children.filter(
		(child) => child.name === name && (child.space === aggregates || child.space === basics)
	);

/** All elements a path leads to, in the order of the file. */
export const elementsAt = (parent: XmlElement, path: Path): readonly XmlElement[] =>
	path
		.split('/')
		.reduce<readonly XmlElement[]>(
			(found, step) => found.flatMap((element) => childrenOf(element, step)),
			[parent]
		);

/** Texts a path leads to, without empty ones. */
export const textsAt = (parent: XmlElement, path: Path): readonly string[] =>
	elementsAt(parent, path)
		.map(({ text }) => text)
		.filter((text) => text !== '');

const decimalText = /^[+-]?(?:\d{1,15}(?:\.\d{0,10})?|\.\d{1,10})$/u;

/** A quantity with its unit; the unit is null where none is written or its code is not known (which is asked). */
export interface DocumentQuantity {
	readonly value: Decimal;
	readonly unit: UnitOfMeasure | null;
	/** The code as written; null where there is none. */
	readonly code: string | null;
}

/** One part of a document: its header, or one of its lines. */
export class DocumentPart {
	readonly line: number;
	readonly #place: string;
	readonly #questions: DocumentQuestion[];

	/**
	 * @param place `truck-2.xml, despatch line 3`
	 * @param questions where they are put down
	 */
	constructor(line: number, place: string, questions: DocumentQuestion[]) {
		this.line = line;
		this.#place = place;
		this.#questions = questions;
	}

	ask(element: XmlElement | null, what: string, text: string, reason: string): null {
		const where = element === null ? '' : ` (line ${element.line} of the file)`;
		this.#questions.push({
			line: this.line,
			place: `${this.#place}${what === '' ? '' : `, ${what}`}${where}`,
			text: shown(text),
			reason
		});
		return null;
	}

	/** The one element a path leads to; null where there is none, or several where the standard has one (asked). */
	one(parent: XmlElement, path: Path): XmlElement | null {
		const [first, second] = elementsAt(parent, path);
		if (first === undefined) return null;
		if (second === undefined) return first;
		return this.ask(second, path, second.text, 'it stands here twice; once is right');
	}

	/** The same, asked for by name where it is missing. */
	required(parent: XmlElement, path: Path): XmlElement | null {
		if (elementsAt(parent, path).length > 0) return this.one(parent, path);
		return this.ask(parent, path, '', `${path} is missing; the standard requires it`);
	}

	/** Text of the one element; null where there is none or it is empty. */
	text(parent: XmlElement, path: Path): string | null {
		const text = this.one(parent, path)?.text ?? '';
		return text === '' ? null : text;
	}

	requiredText(parent: XmlElement, path: Path): string | null {
		const element = this.required(parent, path);
		if (element === null) return null;
		return element.text === ''
			? this.ask(element, path, '', `${path} is empty; the standard requires it`)
			: element.text;
	}

	/** A day as `2026-12-01`; a time zone after it is passed over, since the day is the one of its place. */
	day(parent: XmlElement, path: Path): Day | null {
		const element = this.one(parent, path);
		if (element === null || element.text === '') return null;
		const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)(?:Z|[+-]\d\d:\d\d)?$/u.exec(element.text) ?? [];
		if (year !== undefined && month !== undefined && day !== undefined) {
			const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
			const real = date.toISOString().slice(0, 10);
			if (real === `${year}-${month}-${day}`) return real;
		}
		return this.ask(
			element,
			path,
			element.text,
			`“${shown(element.text)}” is no day; write it as 2026-12-01`
		);
	}

	/** A decimal number, 0 or more; null, and asked, for anything else. Exponents and grouping are no decimals in XML. */
	decimal(element: XmlElement, what: string): Decimal | null {
		if (decimalText.test(element.text)) {
			const value = new Money(element.text);
			if (!value.isNegative() || value.isZero()) return value.abs();
			return this.ask(element, what, element.text, `${shown(element.text)} is below 0; write 0 or more`);
		}
		return this.ask(
			element,
			what,
			element.text,
			`“${shown(element.text)}” is not a number; write one such as 4 or 12.5, 0 or more`
		);
	}

	quantity(parent: XmlElement, path: Path): DocumentQuantity | null {
		const element = this.one(parent, path);
		if (element === null) return null;
		const value = this.decimal(element, path);
		return value === null ? null : { value, ...this.unit(element, path) };
	}

	unit(element: XmlElement, what: string): { unit: UnitOfMeasure | null; code: string | null } {
		const code = element.attributes.get('unitCode')?.trim() ?? '';
		if (code === '') return { unit: null, code: null };
		const unit = readUnitCode(code);
		if (unit === null)
			this.ask(
				element,
				what,
				code,
				`the unit code “${shown(code)}” is not known here; say what it counts, or use one of UN/ECE Recommendation 20 such as EA or PR`
			);
		return { unit, code };
	}
}
