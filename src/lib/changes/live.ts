/** What the server tells the pages that are open, as JSON: what others did to the job, and where they are in it. */
import { z } from 'zod';
import type { Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { HistoryKind } from './history.ts';

/** One thing somebody did. */
interface Deed {
	/** Revision of the job that it made. */
	readonly revision: number;
	readonly personId: string;
	/** As they were called then. */
	readonly name: string;
	readonly kind: HistoryKind;
	readonly title: string;
}

/** Event `changed`: what became of a job after one revision, up to another. */
export interface JobNews {
	/** It tells of everything after this revision … */
	readonly after: number;
	/** … up to this one. */
	readonly revision: number;
	/** Every row that was changed or added, as it is stored: at this revision or a later one. */
	readonly rows: readonly OpeningRow[];
	/** Ids of all rows in order, when rows were added, removed or moved; else null. */
	readonly order: readonly string[] | null;
	readonly removed: readonly string[];
	/** The job's own fields, when something of them was changed; else null. */
	readonly job: { readonly name: string; readonly measures: Measures; readonly deleted: boolean } | null;
	/** The earliest first. */
	readonly by: readonly Deed[];
}

/** Somebody who has a page of the job open. */
export interface PersonThere {
	readonly tabId: string;
	readonly personId: string;
	readonly name: string;
	/** The page they look at; null: they have gone. */
	readonly place: string | null;
	/** The cell they are at, where they are at one. */
	readonly row: string | null;
	readonly field: string | null;
	/** They are typing in it. */
	readonly editing: boolean;
}

/** Event `people`: those who are there, or those of whom something changed. */
export interface PeopleNews {
	readonly all: boolean;
	readonly people: readonly PersonThere[];
}

/** `signedOut`: the session has ended. `notAllowed`: the person may not open jobs any more. `deleted`: the job. */
export type EndReason = 'signedOut' | 'notAllowed' | 'deleted';

/**
 * Event `ended`: nothing more is told here. Event `reload` has no data: too much was missed to be told. Event `roles`,
 * again and again: the roles of the person at the page, `Role[]`.
 */
export interface FeedEnded {
	readonly reason: EndReason;
}

const opaque = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/u);

export const tabSchema = opaque;

/** Where a page says that its person is. Who it is the server knows better. */
export const whereaboutsSchema = z.strictObject({
	tab: opaque,
	place: opaque.nullable(),
	row: opaque.nullable(),
	field: opaque.nullable(),
	editing: z.boolean()
});

export type Whereabouts = z.infer<typeof whereaboutsSchema>;
