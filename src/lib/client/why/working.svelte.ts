/** The working that is open: a number, and the numbers it came from, one behind the other. */
import type { Explanation } from '../../rulebook/rule-book.ts';

/** Finds the working of a quantity; null where there is none. May have to ask the server. */
export type Explain = (id: string) => Explanation | null | Promise<Explanation | null>;

export class Working {
	/** Ids from the number clicked first to the one shown. */
	trail: readonly string[] = $state.raw([]);
	/** What the numbers belong to, in words: `C-101`. */
	subject = $state('');
	explanation: Explanation | null = $state.raw(null);
	failed = $state(false);
	#explain: Explain = () => null;
	#asked = 0;

	/** Opens the working of a number of something. */
	open(subject: string, id: string, explain: Explain): void {
		this.subject = subject;
		this.#explain = explain;
		this.trail = [id];
		this.refresh();
	}

	/** Opens the working of a number inside the working that is open. */
	follow(id: string): void {
		this.trail = [...this.trail, id];
		this.refresh();
	}

	back(): void {
		if (this.trail.length > 1) this.trail = this.trail.slice(0, -1);
		this.refresh();
	}

	close(): void {
		this.trail = [];
		this.explanation = null;
	}

	/** Works it out again: the numbers may have changed. */
	refresh(): void {
		const id = this.trail.at(-1);
		const asked = ++this.#asked;
		if (id === undefined) return;
		const found = this.#explain(id);
		if (found instanceof Promise) {
			void found.then((explanation) => {
				if (asked === this.#asked) this.#show(explanation);
			});
		} else {
			this.#show(found);
		}
	}

	#show(explanation: Explanation | null): void {
		this.explanation = explanation;
		this.failed = explanation === null;
	}
}
