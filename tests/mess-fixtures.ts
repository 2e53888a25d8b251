/** The invented order and packing lists of `fixtures/deliveries/messes` and `messes-blind`, with the reading expected of each line. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Attribute } from '../src/lib/delivery/comparison.ts';
import type { LineState, PackingFacts } from '../src/lib/delivery/line.ts';
import type { Alias } from '../src/lib/delivery/line-decision.ts';
import type { PurchaseLine, PurchaseOrder, Supplier } from '../src/lib/delivery/ordering/purchase-order.ts';
import type { Part, PartKind } from '../src/lib/takeoff/result.ts';

type Side = 'left' | 'right';

/** What a line means, in lines of the order. */
interface ExpectedMeaning {
	/** For an asked line: all that are possible. Null where nobody knows. */
	readonly orderLines: readonly number[] | null;
	/** The marks of these lines that are meant. */
	readonly marks: readonly string[] | null;
	readonly kind: PartKind | null;
	readonly side: Side | null;
	/** From the coil side, as ordered. */
	readonly hand: Side | null;
	/** Decimal text, in the unit of the order. */
	readonly quantity: string | null;
}

export interface ExpectedLine {
	/** Row or line from 1; in XML the position of the DespatchLine. */
	readonly line: number;
	readonly crate: string | null;
	readonly outcome: 'sure' | 'asked' | 'notOurs';
	readonly meaning: ExpectedMeaning;
	/** Decimal text, pieces. Whole, over, damaged and wrong add up to the quantity. Null unless sure. */
	readonly amounts: Readonly<Record<'whole' | 'over' | 'damaged' | 'wrong' | 'backordered', string>> | null;
	readonly differences: readonly Attribute[];
	/** After all sure lines of this list and of those before it. Null for an asked line. */
	readonly state: LineState | null;
	readonly why: string;
}

type GivenAlias = Pick<Alias, 'phrase' | 'kind' | 'item' | 'hand'>;

interface ExpectedList {
	readonly about: string;
	readonly list: PackingFacts;
	/** What is known of the supplier beforehand; null where nobody asked. */
	readonly supplier: {
		readonly handsFrom: Supplier['handsFrom'] | null;
		readonly sizes: Supplier['sizes'] | null;
	};
	readonly aliases: readonly GivenAlias[];
	/** Names of the lists that came on earlier trucks, in their order. */
	readonly after: readonly string[];
	/** Words that are explained while the list is worked through. */
	readonly teaches?: readonly GivenAlias[];
	/** One question that is asked about the whole list. */
	readonly wholeList?: 'handsFrom' | 'sameTruck' | 'otherJob';
	readonly lines: readonly ExpectedLine[];
	readonly skipped: readonly { readonly line: number; readonly why: string }[];
}

export interface MessList {
	/** File name: `scan.txt`. */
	readonly name: string;
	readonly bytes: Uint8Array;
	readonly expected: ExpectedList;
}

/** Sizes of an opening, whole nanometres; overall is over the guides. */
interface MessOpening {
	readonly openingId: string;
	readonly mark: string;
	readonly width: number;
	readonly height: number;
	readonly overallWidth: number;
}

interface MessOrder {
	readonly jobName: string;
	readonly order: PurchaseOrder;
	/** Opening by opening in the wanted order. */
	readonly parts: readonly Part[];
	/** Parts of revision 1 that others took the place of; their ids stand in `supersedes` of those. */
	readonly retired: readonly Part[];
	readonly openings: readonly MessOpening[];
}

/** `order.json`; lengths in inches. */
interface OrderFile {
	readonly number: string;
	readonly revision: number;
	readonly jobName: string;
	readonly currency: string;
	readonly phase: string;
	readonly release: number;
	readonly supplier: { readonly supplierId: string; readonly name: string };
	readonly marks: readonly {
		readonly mark: string;
		readonly openingIds: readonly string[];
		readonly openingWidthInches: number;
		readonly openingHeightInches: number;
		readonly overallWidthInches: number;
	}[];
	readonly lines: readonly OrderFileLine[];
	readonly superseded: readonly {
		readonly partId: string;
		readonly by: string;
		readonly lengthInches: number;
	}[];
}

interface OrderFileLine
	extends
		Pick<
			PurchaseLine,
			'number' | 'scope' | 'marks' | 'openingIds' | 'partIds' | 'title' | 'quantity' | 'unit'
		>,
		Pick<Part, 'kind' | 'item' | 'side' | 'hand' | 'size' | 'finish' | 'supply' | 'task'> {
	readonly lengthInches: number | null;
	readonly widthInches: number | null;
	readonly quantityPerOpening: number;
}

/** `messes` was seen while the reader and the matcher were made, `messes-blind` was not. */
type MessFolder = 'messes' | 'messes-blind';

const fileOf = (folder: MessFolder, name: string): string =>
	path.join(import.meta.dirname, '../fixtures/deliveries', folder, name);

const readJson = (folder: MessFolder, name: string): unknown =>
	JSON.parse(readFileSync(fileOf(folder, name), 'utf8'));

/** Whole nanometres; the sizes of the order are quarters of an inch. */
const nanometres = (inches: number): number => inches * 25_400_000;

const orNull = (inches: number | null): number | null => (inches === null ? null : nanometres(inches));

const keyOf = ({ kind, item, length, width, size, hand, finish }: Omit<Part, 'interchangeKey'>): string =>
	[kind, item, length ?? '', width ?? '', size, hand ?? '', finish].join('|');

const withKey = (part: Omit<Part, 'interchangeKey'>): Part => ({ ...part, interchangeKey: keyOf(part) });

function partsOfLine(line: OrderFileLine, supersedes: ReadonlyMap<string, string>): Part[] {
	const { kind, title, side, item, size, hand, finish, unit, supply, task } = line;
	return line.partIds.map((partId, at) => {
		const openingId = line.openingIds[at] ?? '';
		return withKey({
			partId,
			openingId,
			mark: openingId.slice(0, openingId.lastIndexOf('.')),
			kind,
			title,
			side,
			item,
			length: orNull(line.lengthInches),
			width: orNull(line.widthInches),
			size,
			hand,
			finish,
			quantity: String(line.quantityPerOpening),
			unit,
			supply,
			task,
			supersedes: supersedes.get(partId) ?? null
		});
	});
}

const purchaseLine = (line: OrderFileLine): PurchaseLine => ({
	number: line.number,
	scope: line.scope,
	kind: line.kind,
	partIds: line.partIds,
	openingIds: line.openingIds,
	marks: line.marks,
	title: line.title,
	item: line.item,
	size: line.size,
	length: orNull(line.lengthInches),
	width: orNull(line.widthInches),
	hand: line.hand,
	finish: line.finish,
	quantity: line.quantity,
	unit: line.unit,
	unitPrice: null,
	needBy: null,
	orderBy: null,
	note: ''
});

/** The order all lists answer. */
export function messOrder(): MessOrder {
	const file = readJson('messes', 'order.json') as OrderFile;
	const byPart = new Map(file.superseded.map(({ partId, by }) => [by, partId]));
	const all = file.lines.flatMap((line) => partsOfLine(line, byPart));
	const openings = file.marks.flatMap((mark) =>
		mark.openingIds.map((openingId) => ({
			openingId,
			mark: mark.mark,
			width: nanometres(mark.openingWidthInches),
			height: nanometres(mark.openingHeightInches),
			overallWidth: nanometres(mark.overallWidthInches)
		}))
	);
	const retired = file.superseded.flatMap(({ partId, by, lengthInches }) =>
		all
			.filter((part) => part.partId === by)
			.map((part) => withKey({ ...part, partId, length: nanometres(lengthInches), supersedes: null }))
	);
	return {
		jobName: file.jobName,
		order: {
			orderId: `order-${file.number}`,
			number: file.number,
			revision: file.revision,
			supplierId: file.supplier.supplierId,
			supplierName: file.supplier.name,
			phase: file.phase,
			release: file.release,
			currency: file.currency,
			lines: file.lines.map(purchaseLine)
		},
		parts: openings.flatMap(({ openingId }) => all.filter((part) => part.openingId === openingId)),
		retired,
		openings
	};
}

/** Every list of a folder with its expected reading, by name. */
export const messLists = (folder: MessFolder = 'messes'): MessList[] =>
	readdirSync(fileOf(folder, ''))
		.filter((name) => /\.(?:csv|txt|xlsx|xml)$/u.test(name))
		.toSorted()
		.map((name) => ({
			name,
			bytes: new Uint8Array(readFileSync(fileOf(folder, name))),
			expected: readJson(folder, name.replace(/\.[a-z]+$/u, '.expected.json')) as ExpectedList
		}));
