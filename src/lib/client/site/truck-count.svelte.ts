/** One truck while it is counted: what the office has of it and what is on this phone, as one. */
import type { CountSheet } from '../../changes/site.ts';
import { conditions, type SentCount, type SiteCount } from '../../delivery/count.ts';
import type { Amounts } from '../../delivery/counting/count-amounts.ts';
import {
	countedThings,
	keyOfCount,
	keyOfLine,
	uncountedLines
} from '../../delivery/counting/counted-lines.ts';
import { truckCrates } from '../../delivery/counting/truck-crates.ts';
import type { PackingLine } from '../../delivery/line.ts';
import { opaqueId } from '../opaque-id.ts';
import type { CountDraft, KeptPicture } from './kept-on-phone.ts';
import { momentAfter } from './phone-moment.ts';
import type { MadeOnSite, SiteOutbox } from './site-outbox.svelte.ts';

const none: Amounts = { whole: '0', damaged: '0', wrong: '0' };

export class TruckCount {
	readonly #sheet: () => CountSheet;
	readonly #job: () => string;
	readonly #outbox: SiteOutbox;

	constructor(job: () => string, sheet: () => CountSheet, outbox: SiteOutbox) {
		this.#job = job;
		this.#sheet = sheet;
		this.#outbox = outbox;
	}

	get sheet(): CountSheet {
		return this.#sheet();
	}

	/** Counts that the office is not known to have. */
	readonly #local = $derived.by((): readonly SiteCount[] =>
		this.#outbox.countsOf(this.#job(), this.#sheet().deliveryId).map((count) => ({ ...count, by: 'You' }))
	);

	/** All of them, as the office has them and as they are on this phone. */
	readonly counts = $derived.by((): readonly SiteCount[] => {
		const known = this.#sheet().counts.map(({ countId }) => countId);
		return [...this.#sheet().counts, ...this.#local.filter(({ countId }) => !known.includes(countId))];
	});

	readonly #things = $derived.by(() => countedThings(this.counts));

	readonly crates = $derived.by(() => truckCrates(this.#sheet().lines, this.counts));

	readonly uncounted = $derived.by(() => uncountedLines(this.#sheet().lines, this.#things));

	readonly toCount = $derived.by(() => this.crates.reduce((sum, crate) => sum + crate.toCount, 0));

	/** Ids of counts that have not arrived. */
	readonly onPhone = $derived.by((): readonly string[] =>
		this.#outbox.waiting.flatMap((one) => (one.kind === 'count' ? [one.count.countId] : []))
	);

	readonly arrived = $derived.by((): readonly string[] => this.#sheet().photos);

	/** Pictures that wait on this phone. */
	readonly here = $derived.by((): readonly KeptPicture[] =>
		this.#outbox.waiting.flatMap((one) => (one.kind === 'photo' ? [one.picture] : []))
	);

	readonly isFinished = $derived.by(
		() => this.#outbox.finishedHere(this.#job(), this.#sheet().deliveryId) ?? this.#sheet().finished !== null
	);

	/** What a form about a line starts with: what was counted of it, or what the list says. */
	startOf(line: PackingLine | null, crate: string | null, description = ''): CountDraft {
		const key = line ? keyOfLine(line.line) : keyOfCount({ line: null, crate, description });
		const latest = this.#things.get(key)?.latest;
		const listed = line?.quantity ?? null;
		return {
			description,
			amounts: latest?.amounts ?? { ...none, whole: listed === null ? '0' : String(listed) },
			note: latest?.note ?? '',
			photoIds: latest?.photoIds ?? [],
			pictures: []
		};
	}

	/** Keeps one count. */
	keep(line: PackingLine | null, crate: string | null, made: CountDraft): Promise<void> {
		const photos = made.pictures.map(({ photoId }) => photoId);
		return this.#add(
			[
				{
					line: line?.line ?? null,
					crate: line ? line.crate : crate,
					...made,
					photoIds: [...made.photoIds, ...photos]
				}
			],
			made.pictures
		);
	}

	/** These lines are there as listed, and whole. */
	allHere(lines: readonly PackingLine[]): Promise<void> {
		return this.#add(
			lines.flatMap(({ line, crate, quantity }) =>
				quantity === null ? [] : [{ line, crate, amounts: { ...none, whole: String(quantity) } }]
			)
		);
	}

	/** Nothing of these lines came. */
	noneHere(lines: readonly PackingLine[]): Promise<void> {
		return this.#add(lines.map(({ line, crate }) => ({ line, crate, amounts: none })));
	}

	finish(finished: boolean): Promise<void> {
		const { deliveryId } = this.#sheet();
		const at = momentAfter();
		return this.#outbox.add([{ kind: 'finish', job: this.#job(), deliveryId, finished, at }]);
	}

	#add(
		made: readonly (Pick<SentCount, 'line' | 'crate' | 'amounts'> &
			Partial<Pick<SentCount, 'description' | 'note' | 'photoIds'>>)[],
		pictures: readonly KeptPicture[] = []
	): Promise<void> {
		const { deliveryId } = this.#sheet();
		const job = this.#job();
		const counts = made.map(
			({ line, crate, amounts, description = '', note = '', photoIds = [] }): SentCount => {
				const [whole, damaged, wrong] = conditions.map((condition) => amounts[condition]);
				return {
					countId: opaqueId(),
					deliveryId,
					line,
					crate,
					description: line === null ? description : '',
					amounts: { whole: whole ?? '0', damaged: damaged ?? '0', wrong: wrong ?? '0' },
					note,
					photoIds: [...photoIds],
					countedAt: momentAfter(
						this.#things.get(line === null ? keyOfCount({ line, crate, description }) : keyOfLine(line))
							?.latest.countedAt
					)
				};
			}
		);
		return this.#outbox.add([
			...counts.map((count): MadeOnSite => ({ kind: 'count', job, deliveryId, count })),
			...pictures.map((picture): MadeOnSite => ({ kind: 'photo', job, deliveryId, picture }))
		]);
	}
}
