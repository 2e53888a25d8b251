/** Decisions about lines as they are sent, and the way back. */
import { invalidateAll } from '$app/navigation';
import type { LineDecided } from '../../changes/deliveries.ts';
import type { ComparedLine } from '../../delivery/comparison.ts';
import type { LineDecision } from '../../delivery/line-decision.ts';
import type { PackingLine } from '../../delivery/line.ts';
import { send, type Answer } from '../call.ts';
import type { Notices } from '../notices.svelte.ts';

/** A correction goes as it is typed. */
export type SentDecision =
	| Exclude<LineDecision, { kind: 'reads' }>
	| { readonly kind: 'reads'; readonly typed: Readonly<Partial<Record<keyof PackingLine, string>>> };

interface Made {
	readonly deliveryId: string;
	readonly line: number;
	readonly what: string;
	readonly decided: LineDecided;
}

export class Deciding {
	busy = $state(false);
	/** What is being written, if anything is. */
	#under: Promise<unknown> = Promise.resolve();
	/** Those made on this page, the last one last. */
	#made: readonly Made[] = $state.raw([]);
	readonly #job: string;
	readonly #notices: Notices;

	constructor(job: string, notices: Notices) {
		this.#job = job;
		this.#notices = notices;
	}

	get last(): string | null {
		return this.#made.at(-1)?.what ?? null;
	}

	/**
	 * While one decision is being written no other is taken: the next line is not seen yet.
	 * @param what was decided, in words. @returns why it was refused; null when it is done.
	 */
	decide(
		line: ComparedLine,
		decision: SentDecision | null,
		how: { readonly what: string; readonly remember?: boolean }
	): Promise<string | null> {
		if (this.busy) return Promise.resolve(null);
		const written = this.#decide(line, decision, how);
		this.#under = written;
		return written;
	}

	async #decide(
		line: ComparedLine,
		decision: SentDecision | null,
		{ what, remember = false }: { readonly what: string; readonly remember?: boolean }
	): Promise<string | null> {
		const { deliveryId, line: number } = line;
		if (deliveryId === null || number === null) return null;
		this.busy = true;
		const body = { decision, seen: line.decision?.at ?? null, remember };
		const answer = await this.#send(deliveryId, number, body);
		if (answer.ok) {
			const decided = answer.value;
			this.#made =
				decision === null
					? this.#made.filter((one) => one.deliveryId !== deliveryId || one.line !== number)
					: [...this.#made, { deliveryId, line: number, what, decided }];
			const word = decided.remembered;
			this.#notices.done(
				word === null ? `${what}.` : `${what}. “${word.phrase}” is remembered for this supplier.`
			);
		} else this.#notices.trouble(answer.message);
		if (answer.ok || answer.status === 409) await invalidateAll();
		this.busy = false;
		return answer.ok ? null : answer.message;
	}

	/** Takes back the last decision made on this page, and the word that was remembered with it: also one being written now. */
	takeBackLast(): Promise<void> {
		const taken = this.#under.then(() => this.#takeBackLast());
		this.#under = taken;
		return taken;
	}

	async #takeBackLast(): Promise<void> {
		const last = this.#made.at(-1);
		if (!last) {
			this.#notices.done('Nothing was decided here yet. Older decisions are taken back line by line.');
			return;
		}
		this.busy = true;
		const { deliveryId, line, decided, what } = last;
		const body = { decision: null, seen: decided.at, remember: false };
		const answer = await this.#send(deliveryId, line, body);
		this.#made = this.#made.slice(0, -1);
		if (answer.ok && decided.remembered !== null) {
			const { supplierId, aliasId } = decided.remembered;
			const forgotten = await send('PATCH', `/api/suppliers/${supplierId}/words/${aliasId}`, {
				withdrawn: true
			});
			if (!forgotten.ok)
				this.#notices.trouble(
					`The word is still remembered: ${forgotten.message} It can be forgotten under Suppliers.`
				);
		}
		if (answer.ok) this.#notices.done(`Taken back: ${what}.`);
		else this.#notices.trouble(answer.message);
		await invalidateAll();
		this.busy = false;
	}

	#send(deliveryId: string, line: number, body: unknown): Promise<Answer<LineDecided>> {
		return send<LineDecided>('PUT', `/api/jobs/${this.#job}/deliveries/${deliveryId}/lines/${line}`, body);
	}
}
