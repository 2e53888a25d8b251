/** Crates as a despatch names them, and which lines are in which. */
import type { PackingFacts } from '../../delivery/line.ts';
import { childrenOf, elementsAt, textsAt } from './document-fields.ts';
import type { XmlElement } from './xml-tree.ts';

interface CrateName {
	readonly name: string;
	/** Of how many, where it says so: `CRATE 3 OF 7`. */
	readonly all: number | null;
}

const kinds = String.raw`(?:crate|box|case|carton|ctn|bundle|package|pallet)`;
const counted = new RegExp(String.raw`^(?:${kinds}\s*)?#?\s*(\d{1,4})\s*(?:of|\/)\s*(\d{1,4})$`, 'iu');
const worded = new RegExp(String.raw`^${kinds}\s*(?:no\.?\s*)?#?\s*(\S{1,20})$`, 'iu');

/** `CRATE 3 OF 7` is crate 3 of 7, `Crate B` is B; anything else is the name itself. */
function readCrateName(text: string): CrateName {
	const [, number, all] = counted.exec(text) ?? [];
	if (number !== undefined && all !== undefined) return { name: number, all: Number(all) };
	return { name: worded.exec(text)?.[1] ?? text, all: null };
}

/** What is painted on a handling unit, else its own number, else the numbers of the packages in it. */
function namesOf(unit: XmlElement): readonly string[] {
	const marks = textsAt(unit, 'ShippingMarks');
	if (marks.length > 0) return marks;
	const ids = textsAt(unit, 'ID');
	return ids.length > 0 ? ids : [...textsAt(unit, 'ActualPackage/ID'), ...textsAt(unit, 'Package/ID')];
}

export class Crates {
	/** By the ID of a line: crates that name it as theirs. */
	readonly #byLine = new Map<string, CrateName[]>();
	readonly #found: CrateName[] = [];
	readonly #declared: number | null;

	constructor(root: XmlElement) {
		for (const unit of elementsAt(root, 'Shipment/TransportHandlingUnit')) {
			const names = namesOf(unit).map(readCrateName);
			this.#found.push(...names);
			for (const line of textsAt(unit, 'HandlingUnitDespatchLine/ID'))
				this.#byLine.set(line, [...(this.#byLine.get(line) ?? []), ...names]);
		}
		const [total] = textsAt(root, 'Shipment/TotalTransportHandlingUnitQuantity');
		this.#declared = total !== undefined && /^\d{1,4}$/u.test(total) ? Number(total) : null;
	}

	/** Crates of a line, several joined by a comma; null where nothing says. */
	of(line: XmlElement, property: string | null): string | null {
		const own = [
			...childrenOf(line, 'Shipment')
				.flatMap((shipment) => childrenOf(shipment, 'TransportHandlingUnit'))
				.flatMap(namesOf),
			...(property === null ? [] : [property])
		].map(readCrateName);
		const id = textsAt(line, 'ID')[0];
		const all = own.length > 0 || id === undefined ? own : (this.#byLine.get(id) ?? []);
		this.#found.push(...own);
		return [...new Set(all.map(({ name }) => name))].join(', ') || null;
	}

	facts(): PackingFacts['crates'] {
		const counts = [...new Set(this.#found.flatMap(({ all }) => all ?? []))];
		const counted = counts.length === 1 ? (counts[0] ?? null) : null;
		return { all: this.#declared ?? counted, named: [...new Set(this.#found.map(({ name }) => name))] };
	}
}
