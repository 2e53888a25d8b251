/** What is still to come, grouped as a person ticks it: parts that may stand in for one another, of one mark. */
import { Decimal } from 'decimal.js';
import type { DeliveryPart } from '../../changes/deliveries.ts';

export interface PartGroup {
	/** The first of them stands for all. */
	readonly part: DeliveryPart;
	readonly partIds: readonly string[];
	/** Decimal text in the unit of the part. */
	readonly toCome: string;
}

/** Groups in the order of the material list. @param all also those of which nothing is to come */
export function partGroups(parts: readonly DeliveryPart[], all: boolean): PartGroup[] {
	const groups = Map.groupBy(parts, ({ alike }) => alike);
	return [...groups.values()].flatMap((group) => {
		const open = all ? group : group.filter(({ toCome }) => toCome !== '0');
		const [part] = open;
		if (!part) return [];
		const toCome = open.reduce((sum, one) => sum.plus(one.toCome), new Decimal(0));
		return [{ part, partIds: open.map(({ partId }) => partId), toCome: toCome.toFixed() }];
	});
}

/** Whether all words of a text stand in what a group is called. */
export function groupMatches({ part }: PartGroup, text: string): boolean {
	const words = text.toLowerCase().split(/\s+/u).filter(Boolean);
	const said = `${part.mark} ${part.title} ${part.measures} ${part.orderLine ?? ''}`.toLowerCase();
	return words.every((word) => said.includes(word));
}

/** What is wrong with a quantity as typed; null where it is one above 0. */
export const quantityProblem = (text: string): string | null =>
	/^\d{1,9}(?:\.\d{1,6})?$/u.test(text.trim()) && Number(text) > 0
		? null
		: 'A quantity is a number above 0, such as 4.';
