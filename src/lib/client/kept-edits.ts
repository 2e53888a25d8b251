/**
 * Edits of one person kept in this browser until the server has them, so that they outlive the page. Every page has a
 * box of its own for them and holds the lock of that box while it is open; a page that opens takes over what is left in
 * boxes that nobody holds.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Edit } from '../changes/message.ts';
import { opaqueId } from './opaque-id.ts';

interface KeptEdit {
	readonly person: string;
	/** One page's. */
	readonly box: string;
	/** Their order in the box. */
	readonly number: number;
	readonly job: string;
	readonly edit: Edit;
	/** When it was kept, ms since 1970. */
	readonly at: number;
}

interface Schema extends DBSchema {
	edits: { key: [string, string, number]; value: KeptEdit };
}

export interface TakenUp {
	readonly job: string;
	readonly edit: Edit;
}

/** Where there are no locks (plain http), a box is taken to be left when nothing was put in for so long, ms. */
const leftAfter = 60_000;

const lockOf = (box: string): string => `coilwright.outbox.${box}`;
const locks = (): LockManager | null => ('locks' in navigator ? navigator.locks : null);

function openStore(): Promise<IDBPDatabase<Schema>> {
	return openDB<Schema>('coilwright', 1, {
		upgrade(db) {
			db.createObjectStore('edits', { keyPath: ['person', 'box', 'number'] });
		}
	});
}

export class KeptEdits {
	readonly #person: string;
	readonly #box = opaqueId();
	/** By id of the edit. */
	readonly #kept = new Map<string, KeptEdit>();
	/** Numbers for edits of this page, and for those of earlier pages, which come before. */
	#next = 1;
	#earlier = -1_000_000;
	/** What is written is written in order; null without a store: then edits are kept in memory only. */
	#opened: Promise<IDBPDatabase<Schema> | null> | null = null;

	constructor(person: string) {
		this.#person = person;
	}

	keep(job: string, edit: Edit): void {
		this.#put({ person: this.#person, box: this.#box, number: this.#next++, job, edit, at: Date.now() });
	}

	/** Another edit stands in the place of one. */
	replace(id: string, by: Edit): void {
		const kept = this.#kept.get(id);
		this.#kept.delete(id);
		if (kept) this.#put({ ...kept, edit: by });
	}

	forget(id: string): void {
		const kept = this.#kept.get(id);
		this.#kept.delete(id);
		if (kept) this.#write((store) => store.delete('edits', [kept.person, kept.box, kept.number]));
	}

	/**
	 * Takes over what pages that are closed have left, the earliest first. In the browser only.
	 * @param place whether it comes before what this page has itself.
	 */
	async takeUp(place: 'first' | 'last'): Promise<TakenUp[]> {
		const store = await this.#store;
		if (!store) return [];
		try {
			return await this.#takeUp(store, place);
		} catch {
			// The store can't be read: there is nothing to take over.
			return [];
		}
	}

	async #takeUp(store: IDBPDatabase<Schema>, place: 'first' | 'last'): Promise<TakenUp[]> {
		const mine = IDBKeyRange.bound([this.#person], [this.#person, []]);
		const all = (await store.getAll('edits', mine)).filter(({ box }) => box !== this.#box);
		const boxes = new Map<string, KeptEdit[]>();
		for (const kept of all) boxes.set(kept.box, [...(boxes.get(kept.box) ?? []), kept]);
		const earliest = ([, edits]: [string, KeptEdit[]]): number => Math.min(...edits.map(({ at }) => at));
		const taken: KeptEdit[] = [];
		for (const [box, edits] of [...boxes].sort((a, b) => earliest(a) - earliest(b)))
			await this.#whenLeft(box, edits, async () => {
				// Once more: it was not held when it was looked at first.
				const range = IDBKeyRange.bound([this.#person, box], [this.#person, box, []]);
				const moving = store.transaction('edits', 'readwrite');
				const moved = (await moving.store.getAll(range)).map((kept) => ({
					...kept,
					box: this.#box,
					number: place === 'first' ? this.#earlier++ : this.#next++
				}));
				await moving.store.delete(range);
				for (const kept of moved) await moving.store.put(kept);
				await moving.done;
				for (const kept of moved) this.#kept.set(kept.edit.id, kept);
				taken.push(...moved);
			});
		return taken.map(({ job, edit }) => ({ job, edit }));
	}

	get #store(): Promise<IDBPDatabase<Schema> | null> {
		this.#opened ??= this.#hold()
			.then(openStore)
			.catch(() => null);
		return this.#opened;
	}

	/** Holds the lock of its own box for as long as the page is open. */
	#hold(): Promise<void> {
		const manager = locks();
		if (!manager) return Promise.resolve();
		return new Promise((resolve) => {
			void manager.request(lockOf(this.#box), () => {
				resolve();
				return new Promise<never>(() => undefined);
			});
		});
	}

	async #whenLeft(box: string, edits: readonly KeptEdit[], take: () => Promise<void>): Promise<void> {
		const manager = locks();
		if (manager) {
			await manager.request(lockOf(box), { ifAvailable: true }, (lock) => (lock ? take() : undefined));
			return;
		}
		const last = Math.max(...edits.map(({ at }) => at));
		if (Date.now() - last > leftAfter) await take();
	}

	#put(kept: KeptEdit): void {
		this.#kept.set(kept.edit.id, kept);
		this.#write((store) => store.put('edits', kept));
	}

	#write(work: (store: IDBPDatabase<Schema>) => Promise<unknown>): void {
		this.#opened = this.#store.then(async (store) => {
			if (!store) return null;
			try {
				await work(store);
			} catch {
				// No room: the edit is in memory, and leaving the page asks first.
			}
			return store;
		});
	}
}
