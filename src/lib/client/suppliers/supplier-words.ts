/** A supplier in words. */
import type { LineScope, Supplier } from '../../delivery/ordering/purchase-order.ts';

export const scopeWords: Readonly<Record<LineScope, string>> = {
	unit: 'Complete units',
	part: 'Parts',
	stock: 'Shop items'
};

export const handWords: Readonly<Record<Supplier['handsFrom'], string>> = {
	coilSide: 'the coil side, as we do',
	farSide: 'the far side: theirs are the other way round'
};

export const sizeWords: Readonly<Record<Supplier['sizes'], string>> = {
	part: 'the part itself',
	opening: 'the opening',
	overall: 'the opening with its guides'
};

const days = (count: number): string => (count === 1 ? '1 day' : `${count} days`);

export function supplierSentences(supplier: Supplier): string[] {
	const { scopes, leadDays, daysBefore, handsFrom, sizes, concealedDamageDays } = supplier;
	return [
		scopes.length === 0
			? 'Nothing is bought of them now.'
			: `Bought there: ${scopes.map((scope) => scopeWords[scope].toLowerCase()).join(', ')}.`,
		`${days(leadDays)} from the order to the truck; wanted on site ${days(daysBefore)} before the work starts.`,
		`Left and right are seen from ${handWords[handsFrom]}. Sizes measure ${sizeWords[sizes]}.`,
		concealedDamageDays === null
			? 'Nobody wrote down how long concealed damage can be told; look at the carrier’s terms.'
			: `Concealed damage is to be told within ${days(concealedDamageDays)} by what was written down; the carrier’s terms decide.`
	];
}
