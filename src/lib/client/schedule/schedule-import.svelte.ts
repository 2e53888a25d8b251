/** A schedule on its way into a job: the file, what was decided about it, how it is read, and what it would change. */
import { SvelteMap } from 'svelte/reactivity';
import type { EditResult, JobHeading } from '../../changes/answer.ts';
import type { Conflict } from '../../changes/message.ts';
import type { ComparisonAnswer, ScheduleAnswer } from '../../changes/schedule-answer.ts';
import type { ScheduleMapping } from '../../exchange/schedule.ts';
import { isInputId } from '../../takeoff/inputs.ts';
import { send, sendForm } from '../call.ts';
import { opaqueId } from '../opaque-id.ts';
import {
	changedMeanwhile,
	changesWith,
	seenCells,
	takenChoices,
	type ChangedMeanwhile
} from './seen-changes.ts';

/** Between the last click on a choice and the price of it, ms. */
const patience = 250;

export class ScheduleImport {
	file = $state.raw<File | null>(null);
	preview = $state.raw<ScheduleAnswer | null>(null);
	/** Null while there is nothing to compare with, or a question is open. */
	comparison = $state.raw<ComparisonAnswer | null>(null);
	/** Why nothing goes on. */
	trouble = $state('');
	conflicts = $state.raw<readonly ChangedMeanwhile[]>([]);
	busy = $state<'reading' | 'comparing' | 'storing' | null>(null);

	readonly #job: JobHeading;
	#mapping = $state.raw<ScheduleMapping>({});
	/** By id: taken or left against the usual choice. */
	readonly #choices = new SvelteMap<string, boolean>();
	/** Ids of questions that were open when they were asked, in that order. */
	#blocking = $state.raw<readonly string[]>([]);
	/** Made once for a file, so that bringing it in twice stores it once. */
	#editId = '';
	#turn = 0;
	#waiting: ReturnType<typeof setTimeout> | undefined;
	/** Changes whose own price is to be worked out again. */
	#stale: readonly string[] = [];
	/** Every change was priced alone since the file was last read. */
	#priced = false;

	constructor(job: JobHeading) {
		this.#job = job;
	}

	readonly rows = $derived(this.preview?.rows.filter((row) => row.status === 'opening') ?? []);
	/** Those that hold everything up first; they keep their places when they are answered. */
	readonly questions = $derived.by(() => {
		const questions = this.preview?.questions ?? [];
		const first = this.#blocking.flatMap((id) => questions.find((question) => question.id === id) ?? []);
		return [...first, ...questions.filter((question) => !first.includes(question))];
	});
	readonly openQuestions = $derived(
		this.questions.filter(({ answer }) => answer === null).length +
			(this.comparison?.renames.filter(({ answer }) => answer === null).length ?? 0)
	);
	/** The job has rows that the file is held against. */
	readonly compares = $derived((this.preview?.jobRows ?? 0) > 0);
	/** Ids of the choices that are taken. */
	readonly chosen = $derived(takenChoices(this.comparison?.changes ?? [], (id) => this.#choices.get(id)));
	readonly ready = $derived(
		this.preview !== null &&
			this.busy !== 'reading' &&
			this.busy !== 'storing' &&
			this.preview.problems.length === 0 &&
			this.openQuestions === 0 &&
			(this.compares ? this.comparison !== null && this.chosen.size > 0 : this.rows.length > 0)
	);

	startOver(): void {
		this.#turn++;
		clearTimeout(this.#waiting);
		this.file = null;
		this.preview = null;
		this.comparison = null;
		this.trouble = '';
		this.conflicts = [];
		this.busy = null;
		this.#mapping = {};
		this.#blocking = [];
		this.#choices.clear();
	}

	take(file: File): void {
		this.startOver();
		this.file = file;
		this.#editId = opaqueId();
		void this.#read();
	}

	/** What was decided about another sheet says nothing about this one. */
	chooseSheet(sheet: string): void {
		this.#mapping = { sheet };
		this.#blocking = [];
		void this.#read();
	}

	chooseHeadings(headerRow: number): void {
		if (Number.isInteger(headerRow) && headerRow >= 1) this.#change({ headerRow });
	}

	/** @param field of a column; none with `''`. */
	assign(column: number, field: string): void {
		const input = isInputId(field) ? field : null;
		this.#change({ columns: { ...this.#mapping.columns, [String(column)]: input } });
	}

	answer(question: string, value: string): void {
		this.#change({ answers: { ...this.#mapping.answers, [question]: value } });
	}

	/** Says of marks whether they were renamed. */
	answerRenames(ids: readonly string[], value: 'yes' | 'no'): void {
		const said = Object.fromEntries(ids.map((id) => [id, value]));
		this.#mapping = { ...this.#mapping, answers: { ...this.#mapping.answers, ...said } };
		this.#priced = false;
		void this.#compare();
	}

	/** Reads the file once more, after something went wrong on the way. */
	again(): void {
		void this.#read();
	}

	/** Forgets how files of this kind are read, and reads this one from nothing. */
	async forget(): Promise<void> {
		const key = this.preview?.remembered?.key;
		if (key === undefined) return;
		const answer = await send('DELETE', `/api/jobs/${this.#job.id}/schedule/mappings/${key}`);
		// 404: someone was quicker.
		if (!answer.ok && answer.status !== 404) {
			this.trouble = answer.message;
			return;
		}
		this.#mapping = {};
		await this.#read();
	}

	isTaken(id: string): boolean {
		return this.chosen.has(id);
	}

	/** Takes or leaves what is offered; its price follows a moment later. */
	choose(ids: readonly string[], take: boolean): void {
		for (const id of ids) this.#choices.set(id, take);
		this.#priceAgain(ids);
	}

	#priceAgain(choices: readonly string[]): void {
		this.#stale = [...this.#stale, ...changesWith(this.comparison?.changes ?? [], choices)];
		clearTimeout(this.#waiting);
		this.#waiting = setTimeout(() => void this.#compare(), patience);
	}

	/** Has changes priced alone that are not yet, once nothing else is under way. */
	priceMissing(ids: readonly string[]): void {
		const priced = this.comparison?.costs?.each;
		const missing = priced ? ids.filter((id) => priced[id] === undefined) : [];
		if (missing.length === 0 || this.busy !== null) return;
		this.#stale = [...this.#stale, ...missing];
		void this.#compare();
	}

	/** Stores what is chosen as one edit. Null when it was refused. */
	async bringIn(): Promise<EditResult | null> {
		if (!this.file || !this.ready) return null;
		clearTimeout(this.#waiting);
		const turn = ++this.#turn;
		const { comparison } = this;
		const form = this.#form(this.file);
		form.set('editId', this.#editId);
		form.set('remembered', this.preview?.remembered?.confirmedAt ?? '');
		if (comparison) {
			form.set('chosen', JSON.stringify([...this.chosen]));
			form.set('seen', JSON.stringify(seenCells(comparison.changes, this.chosen)));
		}
		this.busy = 'storing';
		this.trouble = '';
		this.conflicts = [];
		const answer = await sendForm<EditResult>(`/api/jobs/${this.#job.id}/schedule/apply`, form);
		if (turn !== this.#turn) return null;
		this.busy = null;
		if (answer.ok) return answer.value;
		if (answer.status === 409) await this.#read();
		this.trouble = said(answer);
		const { conflicts } = answer.body;
		if (Array.isArray(conflicts))
			this.conflicts = changedMeanwhile(conflicts as Conflict[], comparison?.changes ?? []);
		return null;
	}

	#change(change: ScheduleMapping): void {
		this.#mapping = { ...this.#mapping, ...change };
		void this.#read();
	}

	#form(file: File): FormData {
		const form = new FormData();
		form.set('file', file);
		form.set('mapping', JSON.stringify(this.#mapping));
		return form;
	}

	async #read(): Promise<void> {
		if (!this.file) return;
		clearTimeout(this.#waiting);
		const turn = ++this.#turn;
		this.busy = 'reading';
		this.trouble = '';
		this.conflicts = [];
		const form = this.#form(this.file);
		const answer = await sendForm<ScheduleAnswer>(`/api/jobs/${this.#job.id}/schedule/preview`, form);
		if (turn !== this.#turn) return;
		this.busy = null;
		if (!answer.ok) {
			this.preview = null;
			this.comparison = null;
			this.trouble = said(answer);
			return;
		}
		const preview = answer.value;
		this.preview = preview;
		this.#priced = false;
		const open = preview.questions.filter(({ answer: given }) => given === null).map(({ id }) => id);
		this.#blocking = [...this.#blocking, ...open.filter((id) => !this.#blocking.includes(id))];
		if (preview.jobRows > 0 && preview.problems.length === 0 && open.length === 0) await this.#compare();
		else this.comparison = null;
	}

	/** Holds the file against the job; what was priced alone and not touched since is kept. */
	async #compare(): Promise<void> {
		if (!this.file) return;
		clearTimeout(this.#waiting);
		const turn = ++this.#turn;
		this.busy = 'comparing';
		const form = this.#form(this.file);
		const kept = this.#priced ? this.comparison : null;
		const asked = this.#stale;
		if (kept) {
			form.set('chosen', JSON.stringify([...this.chosen]));
			form.set('priced', JSON.stringify(asked));
		}
		const answer = await sendForm<ComparisonAnswer>(`/api/jobs/${this.#job.id}/schedule/compare`, form);
		if (turn !== this.#turn) return;
		this.busy = null;
		if (!answer.ok) {
			this.comparison = null;
			this.trouble = said(answer);
			return;
		}
		const { costs, chosen } = answer.value;
		// What was touched and is not priced again at once is asked for when it is in sight.
		const before = Object.entries(kept?.costs?.each ?? {}).filter(([id]) => !asked.includes(id));
		const each = { ...Object.fromEntries(before), ...costs?.each };
		this.comparison = { ...answer.value, costs: costs && { ...costs, each } };
		this.#stale = this.#stale.slice(asked.length);
		this.#priced = true;
		// Choices made before hold for the file as it is read now.
		if (chosen.length !== this.chosen.size || chosen.some((id) => !this.chosen.has(id)))
			this.#priceAgain([...this.#choices.keys()]);
	}
}

function said(answer: {
	readonly message: string;
	readonly body: Readonly<Record<string, unknown>>;
}): string {
	const { place } = answer.body;
	return typeof place === 'string' && place !== '' ? `${place}: ${answer.message}` : answer.message;
}
