/** What the file can't tell, and what a person has answered. */
import type { Choice, Question } from './preview.ts';

interface Asking {
	readonly id: string;
	readonly text: string;
	readonly lines: readonly number[];
	readonly choices: readonly Choice[];
	/** What holds before an answer; null when nothing can go in without one. */
	readonly usual?: string | null;
}

export class Questions {
	readonly #answers: ReadonlyMap<string, string>;
	readonly #asked: Question[] = [];

	constructor(answers: Readonly<Record<string, string>> = {}) {
		this.#answers = new Map(Object.entries(answers));
	}

	get asked(): readonly Question[] {
		return this.#asked;
	}

	/** An answer whether asked or not; null when there is none. */
	given(id: string): string | null {
		return this.#answers.get(id) ?? null;
	}

	/** Asks, and gives what holds: the answer where it is one of the choices, else what is usual. */
	ask({ id, text, lines, choices, usual = null }: Asking): string | null {
		const given = this.given(id);
		const answer = choices.some(({ value }) => value === given) ? given : usual;
		this.#asked.push({ id, text, lines: Array.from(new Set(lines)), choices, answer });
		return answer;
	}
}
