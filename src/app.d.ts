declare global {
	namespace App {
		interface Locals {
			/** Who acts. On one machine: the person at it. */
			actor: import('$lib/server/identity/actor.ts').Actor;
		}
	}
}

export {};
