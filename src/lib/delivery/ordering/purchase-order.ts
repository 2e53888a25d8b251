/** Purchase orders: what is bought of whom, line by line. Everything in them can be written as JSON. */
import type { Part, PartKind } from '../../takeoff/result.ts';

/** A calendar day, ISO 8601: `2026-12-01`. */
export type Day = string;

/** `unit`: an opening complete, as the maker builds it; `part`: one part of an opening; `stock`: what the shop buys by the box. */
export const lineScopes = ['unit', 'part', 'stock'] as const;
export type LineScope = (typeof lineScopes)[number];

/** Of whom things are bought, and how they name them. Belongs to the company, for all its jobs. */
export interface Supplier {
	readonly id: string;
	readonly name: string;
	/** What is bought of them; a kind has one supplier. */
	readonly scopes: readonly LineScope[];
	/** From the order to the truck, whole days of the calendar, 0 or more. */
	readonly leadDays: number;
	/** Days things are wanted on site before the work starts, 0 or more: to check and to count. */
	readonly daysBefore: number;
	/** The side their left and right are seen from. */
	readonly handsFrom: 'coilSide' | 'farSide';
	/** What their sizes measure: the part itself, the opening, or the opening with its guides. */
	readonly sizes: 'part' | 'opening' | 'overall';
	/** Days after delivery in which concealed damage is to be told, as their carrier's terms say; null where nobody asked. */
	readonly concealedDamageDays: number | null;
}

/** One line of an order: parts that are alike in everything that is ordered. */
export interface PurchaseLine {
	/** From 1; a number stays with its line through all revisions and is never given to another. */
	readonly number: number;
	readonly scope: LineScope;
	/** Null for a unit, and for what only fills up a box. */
	readonly kind: PartKind | null;
	/** Parts of the material list that it covers, in the wanted order. Empty for what only fills up a box. */
	readonly partIds: readonly string[];
	readonly openingIds: readonly string[];
	readonly marks: readonly string[];
	readonly title: string;
	/** Shop-book key of what it is. */
	readonly item: string;
	readonly size: string;
	/** Whole nanometres. */
	readonly length: number | null;
	readonly width: number | null;
	readonly hand: 'left' | 'right' | null;
	readonly finish: string;
	/** Decimal text, in `unit`. */
	readonly quantity: string;
	readonly unit: Part['unit'];
	/** Decimal text with two decimals or more, for one of `unit`; null where nobody knows it yet. */
	readonly unitPrice: string | null;
	/** Wanted on site. Null as long as an opening of it has no start. */
	readonly needBy: Day | null;
	/** Sent no later than. */
	readonly orderBy: Day | null;
	readonly note: string;
}

/** What an order says in one of its revisions. */
export interface PurchaseOrder {
	readonly orderId: string;
	/** As the paper carries it: `1042-03`. */
	readonly number: string;
	/** From 1. */
	readonly revision: number;
	readonly supplierId: string;
	readonly supplierName: string;
	readonly phase: string;
	/** Which part of the phase is sent for together, from 1. */
	readonly release: number;
	/** ISO 4217. */
	readonly currency: string;
	readonly lines: readonly PurchaseLine[];
}

/** An order as it was sent: it only goes out when every opening agrees with its measure, or somebody answers for it. */
export interface Released {
	readonly at: string;
	readonly by: string;
	/** Why it went out although something held it; null where nothing did. */
	readonly reason: string | null;
}

/** A revision with what became of it. */
export interface OrderRevision {
	readonly order: PurchaseOrder;
	readonly madeAt: string;
	readonly madeBy: string;
	readonly released: Released | null;
}

/** When and how an opening is wanted. */
export interface OpeningPlan {
	readonly openingId: string;
	/** First day of work at it. */
	readonly startsOn: Day | null;
	/** From 1. */
	readonly release: number;
	readonly boughtAs: 'parts' | 'unit';
}
