/** What is said of a whole packing list: its question, what of it is missing, what it contradicts. */
import type { ComparedList, DeliveryList, ListQuestion } from './comparison.ts';
import { either } from './matched.ts';
import type { SentOrder } from './order-lines.ts';
import { orderKey } from './spelling.ts';

/** More than any truck has; a larger number is a misreading. */
const most = 200;

const sameOrder = (a: DeliveryList, b: DeliveryList): boolean =>
	orderKey(a.facts?.orderNumber ?? '') === orderKey(b.facts?.orderNumber ?? '') &&
	(a.supplierId ?? null) === (b.supplierId ?? null);

const numberOf = (text: string): number | null => {
	const found = /\d+/u.exec(text);
	return found ? Number(found[0]) : null;
};

/** Numbers from 1 to all that are not among those named. */
function missingOf(all: number | null, named: readonly (number | null)[]): string[] {
	if (all === null || all < 1 || all > most || named.length === 0 || named.includes(null)) return [];
	return Array.from({ length: all }, (_, index) => index + 1)
		.filter((number) => !named.includes(number))
		.map(String);
}

/** Crates count over all lists of the order that speak of as many crates; pages of one list only. */
export function missingIn(
	list: DeliveryList,
	lists: readonly DeliveryList[]
): Pick<ComparedList, 'missingCrates' | 'missingPages'> {
	const { facts } = list;
	if (!facts) return { missingCrates: [], missingPages: [] };
	const { all } = facts.crates;
	const crates = lists
		.filter((other) => other.facts?.crates.all === all && (other === list || sameOrder(other, list)))
		.flatMap((other) => other.facts?.crates.named ?? []);
	const number = facts.listNumber;
	const pages = lists
		.filter(
			(other) =>
				other === list || (number !== null && other.facts?.listNumber === number && sameOrder(other, list))
		)
		.flatMap((other) => other.facts?.pages.named ?? []);
	return {
		missingCrates: missingOf(all, crates.map(numberOf)),
		missingPages: missingOf(facts.pages.all, pages)
	};
}

const named = (word: string, numbers: readonly string[]): string =>
	`${word}${numbers.length > 1 ? 's' : ''} ${either(numbers, 'and')}`;

/** `crate 5 and page 2 of Truck 1`; null where nothing is missing. */
export function missingText({
	name,
	missingCrates,
	missingPages
}: Pick<ComparedList, 'name' | 'missingCrates' | 'missingPages'>): string | null {
	const missing = [
		...(missingCrates.length === 0 ? [] : [named('crate', missingCrates)]),
		...(missingPages.length === 0 ? [] : [named('page', missingPages)])
	];
	return missing.length === 0 ? null : `${missing.join(' and ')} of ${name}`;
}

export function comparedList(
	list: DeliveryList,
	lists: readonly DeliveryList[],
	question: ListQuestion | null,
	orders: readonly SentOrder[]
): ComparedList {
	const missing = missingIn(list, lists);
	const notes: string[] = [];
	const { facts } = list;
	const text = missingText({ name: list.name, ...missing });
	if (text !== null) notes.push(`${text.charAt(0).toUpperCase()}${text.slice(1)}: on no list that was read.`);
	const order = orders.find(
		({ orderNumber }) => orderKey(orderNumber) === orderKey(facts?.orderNumber ?? '')
	);
	const revision = facts?.orderRevision ?? null;
	if (order && revision !== null && revision !== order.revision)
		notes.push(
			`It answers revision ${revision} of order ${order.orderNumber}; revision ${order.revision} is the last that was sent.`
		);
	return { deliveryId: list.deliveryId, name: list.name, question, ...missing, notes };
}
