/** What the pages about packing lists are answered. No price is in any of it. */
import type { ComparedLine, ListQuestion } from '../delivery/comparison.ts';
import type { FinishedCount } from '../delivery/count.ts';
import type { DeliveryAnswers } from '../delivery/delivery-answers.ts';
import type { PackingFacts, PackingLine } from '../delivery/line.ts';
import type { Part } from '../takeoff/result.ts';
import type { DeliverySummary } from './answer.ts';

/** A packing list in the list of them. */
export interface DeliveryListing extends DeliverySummary {
	/** Of whom; null where nobody said. */
	readonly supplierId: string | null;
	/** What it says of itself; null for lists taken in before that was read. */
	readonly facts: PackingFacts | null;
	readonly answers: DeliveryAnswers;
	/** What only a person can say of the whole list; null where nothing is open, and for one that is taken out. */
	readonly question: ListQuestion | null;
	/** A sentence each. */
	readonly notes: readonly string[];
	/** Lines that only a person can explain. */
	readonly asked: number;
	readonly counted: FinishedCount | null;
}

/** A part of the material list as a person chooses it. */
export interface DeliveryPart extends Pick<
	Part,
	'partId' | 'openingId' | 'mark' | 'kind' | 'item' | 'title' | 'hand' | 'unit' | 'supply'
> {
	/** Its sizes in words; may be empty. */
	readonly measures: string;
	/** Decimal text in `unit`. */
	readonly ordered: string;
	/** Not here yet, 0 or more. */
	readonly toCome: string;
	/** Parts with the same text may stand in for one another. */
	readonly alike: string;
	/** `1042-01, line 14`; null where it is on no order that went out. */
	readonly orderLine: string | null;
}

/** The page `deliveries`. */
export interface DeliveriesAnswer {
	/** The first received first; also those taken out. */
	readonly deliveries: readonly DeliveryListing[];
	/** Null when no packing list is in. */
	readonly comparison: {
		readonly lines: readonly ComparedLine[];
	} | null;
	/** The material list, in the order the openings are wanted. */
	readonly parts: readonly DeliveryPart[];
	readonly suppliers: readonly { readonly id: string; readonly name: string }[];
}

/** Cells that could not be read (they count as not said), and what was taken for granted. */
interface DeliveryQuestion {
	readonly place: string;
	readonly text: string;
	readonly reason: string;
}

/** A column of a file, and what it was taken for. */
interface DeliveryColumn {
	/** From 0. */
	readonly index: number;
	readonly letter: string;
	readonly heading: string;
	readonly field: string | null;
	readonly unit: string | null;
	readonly how: string;
}

/** `POST /api/jobs/:job/deliveries/preview`: what a file would be taken for. Nothing is stored. */
export interface DeliveryPreview {
	/** Empty for a document, which has no columns to choose. */
	readonly columns: readonly DeliveryColumn[];
	readonly sheet: string;
	readonly sheets: readonly string[];
	/** Row of the headings, from 1; 0 for a document. */
	readonly headerRow: number;
	readonly lines: readonly PackingLine[];
	readonly facts: PackingFacts;
	readonly missing: { readonly crates: readonly string[]; readonly pages: readonly number[] };
	readonly skipped: readonly { readonly line: number; readonly why: string }[];
	readonly questions: readonly DeliveryQuestion[];
	/** As chosen, else by the order it names; null where that says nothing. */
	readonly supplierId: string | null;
	/** The same list that came before. */
	readonly same: { readonly name: string; readonly receivedAt: string; readonly removed: boolean } | null;
	/** Why it may be of another job, or may have come before. */
	readonly question: ListQuestion | null;
	/** Lines whose meaning is plain, and lines that will be asked about. */
	readonly plain: number;
	readonly asked: number;
}

/** What became of a packing list that was taken in. */
export interface DeliveryTaken {
	readonly id: string;
	readonly lines: number;
	readonly questions: readonly DeliveryQuestion[];
	/** Lines of the file that hold no part. */
	readonly skipped: readonly { readonly line: number; readonly why: string }[];
}

/** What a supplier calls something, remembered with a decision. */
export interface RememberedWord {
	readonly supplierId: string;
	readonly aliasId: string;
	readonly phrase: string;
}

/** `PUT /api/jobs/:job/deliveries/:delivery/lines/:line` */
export interface LineDecided {
	/** When; null where a decision was taken back. It is what the next change of the line has to have seen. */
	readonly at: string | null;
	/** Null where nothing new was remembered. */
	readonly remembered: RememberedWord | null;
}
