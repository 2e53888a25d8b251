/**
 * Counts, photos and half-made counts of people on site, kept in this browser until the office has them. Each carries the
 * person whose it is: nobody sends what somebody else has counted.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { SentMeasure } from '../../changes/measures.ts';
import type { SentCount } from '../../delivery/count.ts';

interface KeptOf {
	readonly person: string;
	readonly job: string;
	/** What the office said when it would not take it; null as long as it may be sent. */
	readonly refused: string | null;
}

interface KeptFor extends KeptOf {
	readonly deliveryId: string;
}

/** A picture as it is sent. Bytes, not a file: not every browser keeps files. */
export interface KeptPicture {
	readonly photoId: string;
	readonly bytes: ArrayBuffer;
	/** Media type. */
	readonly type: string;
}

export type ToKeep =
	| (KeptFor & { readonly kind: 'count'; readonly count: SentCount })
	/** Says that the truck is counted, or opens its count again. */
	| (KeptFor & { readonly kind: 'finish'; readonly finished: boolean; readonly at: string })
	| (KeptFor & { readonly kind: 'photo'; readonly picture: KeptPicture })
	/** `openingId`: what the opening was called when it was measured. */
	| (KeptOf & { readonly kind: 'measure'; readonly openingId: string; readonly measure: SentMeasure });

/** `number`: the order in which they were made; below 0 where there is no store. */
export type Kept = ToKeep & { readonly number: number };

/** A count that somebody has begun: it outlives a page that the phone puts away while the camera is open. */
export interface CountDraft {
	readonly description: string;
	readonly amounts: Readonly<Record<'whole' | 'damaged' | 'wrong', string>>;
	readonly note: string;
	/** Photos of an earlier count that still belong to it. */
	readonly photoIds: readonly string[];
	readonly pictures: readonly KeptPicture[];
}

interface Schema extends DBSchema {
	waiting: { key: number; value: ToKeep & { readonly number?: number } };
	drafts: { key: string; value: CountDraft };
}

const openStore = (): Promise<IDBPDatabase<Schema>> =>
	openDB<Schema>('coilwright-site', 1, {
		upgrade(db) {
			db.createObjectStore('waiting', { keyPath: 'number', autoIncrement: true });
			db.createObjectStore('drafts');
		}
	});

const isKept = (one: ToKeep & { readonly number?: number }): one is Kept => one.number !== undefined;

export class KeptOnPhone {
	#opened: Promise<IDBPDatabase<Schema> | null> | null = null;
	/** What no store took: it lasts as long as the page. */
	#inMemory: readonly Kept[] = [];
	#nextInMemory = -1_000_000;

	/** Everything that waits, of everybody, in the order in which it was made. */
	async all(): Promise<Kept[]> {
		const store = await this.#store;
		const stored = store ? (await store.getAll('waiting')).filter(isKept) : [];
		return [...this.#inMemory, ...stored];
	}

	/**
	 * Keeps all of them, or none.
	 * @returns whether they outlive the page; `memory` where this browser keeps nothing, or has no room left.
	 */
	async keep(items: readonly ToKeep[]): Promise<'phone' | 'memory'> {
		const store = await this.#store;
		if (store)
			try {
				const writing = store.transaction('waiting', 'readwrite', { durability: 'strict' });
				await Promise.all([...items.map((item) => writing.store.add(item)), writing.done]);
				return 'phone';
			} catch {
				// No room: what was counted stays with the page, which says so.
			}
		this.#inMemory = [...this.#inMemory, ...items.map((item) => ({ ...item, number: this.#nextInMemory++ }))];
		return 'memory';
	}

	async forget(numbers: readonly number[]): Promise<void> {
		this.#inMemory = this.#inMemory.filter(({ number }) => !numbers.includes(number));
		const store = await this.#store;
		if (!store) return;
		const writing = store.transaction('waiting', 'readwrite');
		await Promise.all([...numbers.map((number) => writing.store.delete(number)), writing.done]);
	}

	/** The office would not take it; null: it may be sent again. */
	async setRefused(kept: Kept, refused: string | null): Promise<void> {
		this.#inMemory = this.#inMemory.map((one) => (one.number === kept.number ? { ...one, refused } : one));
		const store = await this.#store;
		if (store && kept.number >= 0) await store.put('waiting', { ...kept, refused });
	}

	async draft(key: string): Promise<CountDraft | null> {
		const store = await this.#store;
		return (await store?.get('drafts', key)) ?? null;
	}

	/** Null: there is none any more. Without a store it is with the page only. */
	async setDraft(key: string, draft: CountDraft | null): Promise<void> {
		const store = await this.#store;
		try {
			if (draft) await store?.put('drafts', draft, key);
			else await store?.delete('drafts', key);
		} catch {
			// No room for what is not finished: it is on the screen.
		}
	}

	get #store(): Promise<IDBPDatabase<Schema> | null> {
		this.#opened ??= openStore().catch(() => null);
		return this.#opened;
	}
}

/** Draft of one person about one line or thing of a truck. */
export const draftKey = (...parts: readonly string[]): string => JSON.stringify(parts);
