/** Sentences that tell a person what just happened; they go by themselves unless something went wrong. */
import { createContext } from 'svelte';

export interface Notice {
	readonly id: number;
	readonly kind: 'done' | 'trouble';
	readonly text: string;
}

export class Notices {
	list: readonly Notice[] = $state.raw([]);
	#next = 1;

	done(text: string): void {
		const id = this.#add('done', text);
		setTimeout(() => this.dismiss(id), 6000);
	}

	trouble(text: string): void {
		this.#add('trouble', text);
	}

	dismiss(id: number): void {
		this.list = this.list.filter((notice) => notice.id !== id);
	}

	#add(kind: Notice['kind'], text: string): number {
		const id = this.#next++;
		this.list = [...this.list.filter((notice) => notice.text !== text), { id, kind, text }];
		return id;
	}
}

export const [useNotices, provideNotices] = createContext<Notices>();
