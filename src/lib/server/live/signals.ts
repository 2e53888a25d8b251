/**
 * Short messages between all servers of a database, so that each tells the people it serves what happened. They are for
 * sight only: one that is lost costs nothing but time, since what is stored is asked for again and again.
 */
import type { PersonThere } from '../../changes/live.ts';

interface JobChanged {
	readonly kind: 'changed';
	readonly companyId: string;
	readonly jobId: string;
	readonly revision: number;
}

/** Where a person is. `place` null: they have gone. */
interface Present extends PersonThere {
	readonly kind: 'present';
	readonly companyId: string;
	readonly jobId: string;
}

/** A server has begun to follow a job: those who know of people there tell it. */
interface WhoIsThere {
	readonly kind: 'who';
	readonly companyId: string;
	readonly jobId: string;
}

export type Signal = JobChanged | Present | WhoIsThere;

/** `missed`: signals of others may have been lost; each listener looks for itself. Only told on the server it happened to. */
export type Heard = Signal | { readonly kind: 'missed' };

export interface Signals {
	/** Tells every server, this one included. Never throws, and waits for nobody. */
	send(signal: Signal): void;
	/** @returns stops listening. */
	listen(listener: (heard: Heard) => void): () => void;
	close(): Promise<void>;
}

/** Those of one process, for a database that no other process serves. */
export function signalsOfOneProcess(): Signals {
	const listeners = new Set<(heard: Heard) => void>();
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
