/**
 * Short messages between all servers of a database, so that each tells the people it serves what happened. They are for
 * sight only: one that is lost costs nothing but time, since what is stored is asked for again and again.
 */

export interface JobChanged {
	readonly kind: 'changed';
	readonly companyId: string;
	readonly jobId: string;
	readonly revision: number;
}

/** Where a person is. `place` null: they have gone. */
export interface Whereabouts {
	readonly kind: 'present';
	readonly companyId: string;
	readonly jobId: string;
	/** One page of one person. */
	readonly tabId: string;
	readonly personId: string;
	readonly name: string;
	readonly place: string | null;
	/** The cell they are at, where they are at one. */
	readonly row: string | null;
	readonly field: string | null;
	/** They are typing in it. */
	readonly editing: boolean;
}

/** A server has begun to follow a job: those who know of people there tell it. */
export interface WhoIsThere {
	readonly kind: 'who';
	readonly companyId: string;
	readonly jobId: string;
}

export type Signal = JobChanged | Whereabouts | WhoIsThere;

export interface Signals {
	/** Tells every server, this one included. Never throws, and waits for nobody. */
	send(signal: Signal): void;
	/** @returns stops listening. */
	listen(listener: (signal: Signal) => void): () => void;
	close(): Promise<void>;
}

/** Those of one process, for a database that no other process serves. */
export function signalsOfOneProcess(): Signals {
	const listeners = new Set<(signal: Signal) => void>();
	return {
		send(signal) {
			queueMicrotask(() => {
				for (const listener of listeners) listener(signal);
			});
		},
		listen(listener) {
			listeners.add(listener);
			return () => {
				listeners.delete(listener);
			};
		},
		close() {
			listeners.clear();
			return Promise.resolve();
		}
	};
}
