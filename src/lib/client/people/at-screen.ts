/** Who is at the screen and what they may do: pages offer nothing else. The server checks each of it again. */
import { createContext } from 'svelte';
import type { Access, Signed } from '../../changes/people.ts';
import type { May } from '../../changes/roles.ts';

interface Standing {
	readonly access: Access;
	/** Null before signing in. */
	readonly person: Signed | null;
	readonly may: May;
}

/** Read anew whenever the pages load; whatever reads it in a derived value or effect is done again then. */
export class AtScreen implements Standing {
	readonly #now: () => Standing;

	constructor(now: () => Standing) {
		this.#now = now;
	}

	get access(): Access {
		return this.#now().access;
	}

	get person(): Signed | null {
		return this.#now().person;
	}

	get may(): May {
		return this.#now().may;
	}
}

export const [useAtScreen, provideAtScreen] = createContext<AtScreen>();
