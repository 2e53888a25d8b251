/** Suppliers and orders for tests. Invented. */
import type { PurchaseLine, PurchaseOrder, Supplier } from './purchase-order.ts';

export const northreach: Supplier = {
	id: 'northreach',
	name: 'Northreach Shutter Works',
	scopes: ['unit', 'part'],
	leadDays: 42,
	daysBefore: 5,
	handsFrom: 'coilSide',
	sizes: 'part',
	concealedDamageDays: 15
};

export const dunlin: Supplier = {
	...northreach,
	id: 'dunlin',
	name: 'Dunlin Fixings & Seals',
	scopes: ['stock'],
	leadDays: 7,
	daysBefore: 2,
	concealedDamageDays: null
};

export const inch = 25_400_000;

/** Line of a left guide, unless said otherwise. */
export const line = (more: Partial<PurchaseLine> & Pick<PurchaseLine, 'number'>): PurchaseLine => ({
	scope: 'part',
	kind: 'guide',
	partIds: ['P-1', 'P-2'],
	openingIds: ['C-101.1', 'C-101.2'],
	marks: ['C-101'],
	title: 'Guide, left',
	item: 'counter-face',
	size: '',
	length: 50 * inch,
	width: null,
	hand: 'left',
	finish: 'powder-graphite',
	quantity: '2',
	unit: 'each',
	unitPrice: '26.48',
	needBy: '2026-12-10',
	orderBy: '2026-10-29',
	note: '',
	...more
});

export const order = (lines: readonly PurchaseLine[], more: Partial<PurchaseOrder> = {}): PurchaseOrder => ({
	orderId: 'order-3',
	number: '1042-03',
	revision: 1,
	supplierId: northreach.id,
	supplierName: northreach.name,
	phase: '',
	release: 1,
	currency: 'USD',
	lines,
	...more
});
