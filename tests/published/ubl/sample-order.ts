/** An invented order for the tests. */
import type {
	PurchaseLine,
	PurchaseOrder,
	Supplier
} from '../../../src/lib/delivery/ordering/purchase-order.ts';

export const supplier: Supplier = {
	id: 'northreach',
	name: 'Northreach Shutter Works',
	scopes: ['unit', 'part'],
	leadDays: 28,
	daysBefore: 3,
	handsFrom: 'farSide',
	sizes: 'part',
	concealedDamageDays: 5
};

export const line = (more: Partial<PurchaseLine> = {}): PurchaseLine => ({
	number: 1,
	scope: 'part',
	kind: 'guide',
	partIds: ['P-4K7QD-00M3T', 'P-4K7QD-00M3V'],
	openingIds: ['C-101.1', 'C-101.2'],
	marks: ['C-101'],
	title: 'Guide, left',
	item: 'store-face',
	size: '',
	length: 1_270_000_000,
	width: null,
	hand: 'left',
	finish: 'powder white',
	quantity: '2',
	unit: 'each',
	unitPrice: '64.125',
	needBy: '2027-01-11',
	orderBy: '2026-12-14',
	note: '',
	...more
});

export const order = (lines: readonly PurchaseLine[], more: Partial<PurchaseOrder> = {}): PurchaseOrder => ({
	orderId: 'o-1',
	number: '1042-03',
	revision: 1,
	supplierId: 'northreach',
	supplierName: 'Northreach Shutter Works',
	phase: 'Hall, east',
	release: 1,
	currency: 'USD',
	lines,
	...more
});
