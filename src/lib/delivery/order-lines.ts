/** Lines of our own orders, as packing lists name them: `14`, `L14`, `PO line 14`, `1042-01/14`. */
import type { Part } from '../takeoff/result.ts';
import type { Likeness } from './likeness.ts';
import { either } from './matched.ts';
import type { PurchaseLine } from './ordering/purchase-order.ts';
import { lookalike, orderKey, plainMark } from './spelling.ts';
import { Lots, type LotsByKind, type OrderedPart, type Place, type Wanted } from './wanted.ts';

/** An order as it went out last. */
export interface SentOrder {
	readonly orderNumber: string;
	readonly lines: readonly PurchaseLine[];
	/** From 1. */
	readonly revision: number;
}

export class OrderLine {
	/** `line 14 of order 1042-01` */
	readonly name: string;
	/** One; more where a packing list names several in one line. */
	readonly purchases: readonly PurchaseLine[];
	/** In the wanted order. */
	readonly parts: readonly OrderedPart[];
	readonly #likeness: (part: Part) => Likeness;
	readonly #lots = new Map<string, LotsByKind>();

	constructor(
		name: string,
		purchases: readonly PurchaseLine[],
		parts: readonly OrderedPart[],
		likeness: (part: Part) => Likeness
	) {
		this.name = name;
		this.purchases = purchases;
		this.parts = parts;
		this.#likeness = likeness;
	}

	/** `Guide, left for C-101` */
	get title(): string {
		const titles = [...new Set(this.purchases.map(({ title }) => title))];
		const marks = [...new Set(this.purchases.flatMap((one) => one.marks))];
		return `${either(titles, 'and')}${marks.length === 0 ? '' : ` for ${either(marks, 'and')}`}`;
	}

	with(other: OrderLine): OrderLine {
		const parts = [...new Set([...this.parts, ...other.parts])].sort((a, b) => a.at - b.at);
		return new OrderLine(
			`${this.name} and ${other.name}`,
			[...this.purchases, ...other.purchases],
			parts,
			this.#likeness
		);
	}

	has({ at }: OrderedPart): boolean {
		return this.parts.some((one) => one.at === at);
	}

	/** What of it is for some marks or openings; all of it for null. */
	lotsAt(places: readonly Place[] | null): LotsByKind {
		const key = places === null ? '' : JSON.stringify(places.map(({ reach, name }) => [reach, name]));
		const kept = this.#lots.get(key);
		if (kept) return kept;
		const [first, ...others] = places ?? [];
		const lots = new Lots(first && others.length === 0 ? first.reach : 'orderLine', this.#likeness);
		for (const one of this.parts) {
			const { mark, openingId } = one.part;
			const isIn =
				places === null ||
				places.some(({ reach, name, mark: its }) => (reach === 'mark' ? mark === its : openingId === name));
			if (isIn) lots.add(one);
		}
		const found = lots.byKind();
		this.#lots.set(key, found);
		return found;
	}
}

export interface FoundLines {
	readonly lines: readonly OrderLine[];
	/** Its number was read for another, or there is none such. */
	readonly note: string | null;
}

/** Numbers that a text may mean; more than one only where an `l` may be a 1. */
function numbersIn(text: string): { readonly order: string; readonly numbers: readonly number[] } | null {
	const read = /^(?:(.*?)[\s/:#.-]+)?(?:lines?|ln|l|pos|items?|no)?\.?\s*#?\s*([\dOIl|]{1,6})$/iu.exec(text);
	if (!read) return null;
	const digits = lookalike((read[2] ?? '').toUpperCase());
	const numbers = [Number(digits)];
	// `l4` is line 4, or 14 where a scan made a letter of the 1.
	if (/^l\d/u.test(text)) numbers.push(Number(lookalike(text.toUpperCase())));
	const order = (read[1] ?? '').replace(/\b(?:line|ln|item|pos|position)\b\.?/giu, ' ');
	return /^\d+$/u.test(digits) ? { order: orderKey(order), numbers: [...new Set(numbers)] } : null;
}

export class OrderLines {
	readonly #byOrder = new Map<string, Map<number, OrderLine>>();

	/** Parts that a line names by an older id are those that took their place. */
	constructor(orders: readonly SentOrder[], wanted: Wanted, likeness: (part: Part) => Likeness) {
		for (const { orderNumber, lines } of orders) {
			const byNumber = new Map<number, OrderLine>();
			this.#byOrder.set(orderKey(orderNumber), byNumber);
			for (const line of lines) {
				const parts = new Set(
					line.partIds.flatMap((id) => wanted.byId.get(id) ?? wanted.bySuperseded.get(plainMark(id)) ?? [])
				);
				const inOrder = [...parts].sort((a, b) => a.at - b.at);
				byNumber.set(
					line.number,
					new OrderLine(`line ${line.number} of order ${orderNumber}`, [line], inOrder, likeness)
				);
			}
		}
	}

	get isEmpty(): boolean {
		return this.#byOrder.size === 0;
	}

	/**
	 * @param written as it stands on the line
	 * @param orderNumber the order its list names, or null; an order that the line itself names goes before it
	 */
	find(written: string, orderNumber: string | null): FoundLines {
		const several = written.split(/\s*(?:[,;&+]|\band\b)\s*/iu).filter((text) => text !== '');
		const found = several.map((text) => this.#findOne(text, orderNumber));
		const [first, ...others] = found;
		if (!first || others.length === 0) return first ?? { lines: [], note: null };
		const lines: OrderLine[] = [];
		for (const { lines: ones, note } of found) {
			const [line, ...more] = ones;
			if (!line || more.length > 0)
				return { lines: [], note: note ?? `order lines ${written} are not all clear` };
			lines.push(line);
		}
		return { lines: [lines.reduce((all, line) => all.with(line))], note: null };
	}

	#findOne(text: string, orderNumber: string | null): FoundLines {
		const none = (note: string): FoundLines => ({ lines: [], note });
		const read = numbersIn(text);
		if (!read) return none(`“${text}” is no line of an order`);
		const own = read.order === '' ? (orderNumber === null ? null : orderKey(orderNumber)) : read.order;
		const orders =
			own === null ? [...this.#byOrder.values()] : [this.#byOrder.get(own) ?? new Map<number, OrderLine>()];
		const lines = read.numbers.flatMap((number) => orders.flatMap((order) => order.get(number) ?? []));
		if (lines.length === 0) return none(`our order has no line ${text}`);
		const plainly = /(\d+)$/u.exec(text)?.[1];
		const misread = plainly === undefined || Number(plainly) !== read.numbers[0];
		return { lines, note: misread ? `order line ${text} read as ${read.numbers[0] ?? ''}` : null };
	}
}
