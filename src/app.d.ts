declare global {
	namespace App {
		interface Locals {
			/** Who acts: the person at this machine, the person who signed in, or `nobody` on the pages before that. */
			actor: import('$lib/server/identity/actor.ts').Actor;
			/** The same person as they stand now, for answers that go on for long; null when they may not any more. */
			recheck(): Promise<import('$lib/server/identity/actor.ts').Actor | null>;
			/** What every page shows of them. */
			shown: {
				readonly access: import('$lib/changes/people.ts').Access;
				readonly person: import('$lib/changes/people.ts').Signed | null;
				readonly may: import('$lib/changes/roles.ts').May;
			};
			/** The request, as far as accounts have to know. */
			visit: import('$lib/server/operations/visit.ts').Visit;
		}
	}
}

export {};
