/** A packing list on its way in: read, looked at, put right, taken in. The file is sent again with what was chosen. */
import { invalidateAll } from '$app/navigation';
import type { DeliveryPreview, DeliveryTaken } from '../../changes/deliveries.ts';
import type { PackingMapping } from '../../exchange/packing-list.ts';
import { counted } from '../../quantity/counted.ts';
import { sendForm } from '../call.ts';
import type { Notices } from '../notices.svelte.ts';

type ColumnField = NonNullable<PackingMapping['columns']>[string];

export class Taking {
	file: File | null = $state.raw(null);
	preview: DeliveryPreview | null = $state.raw(null);
	busy = $state(false);
	/** Why nothing was taken in. */
	trouble = $state('');
	mapping: PackingMapping = $state.raw({});
	/** '' as long as nothing was chosen; `none` for nobody on the list. */
	supplier = $state('');
	ours = $state(false);
	anotherTruck = $state(false);
	readonly #job: string;
	readonly #notices: Notices;
	/** Answers of earlier readings are passed over. */
	#reading = 0;

	constructor(job: string, notices: Notices) {
		this.#job = job;
		this.#notices = notices;
	}

	async choose(file: File): Promise<void> {
		this.cancel();
		this.file = file;
		await this.read();
	}

	cancel(): void {
		this.file = null;
		this.preview = null;
		this.trouble = '';
		this.mapping = {};
		this.supplier = '';
		this.ours = false;
		this.anotherTruck = false;
		this.#reading++;
	}

	async remap(change: Partial<PackingMapping>): Promise<void> {
		this.mapping = { ...this.mapping, ...change };
		await this.read();
	}

	assign(column: number, field: ColumnField): Promise<void> {
		return this.remap({ columns: { ...this.mapping.columns, [column]: field } });
	}

	/** Reads the file as it is meant now. Nothing is stored. */
	async read(): Promise<void> {
		const { file } = this;
		if (!file) return;
		const reading = ++this.#reading;
		this.busy = true;
		const answer = await sendForm<DeliveryPreview>(
			`/api/jobs/${this.#job}/deliveries/preview`,
			this.#form(file)
		);
		if (reading !== this.#reading) return;
		this.busy = false;
		if (!answer.ok) {
			this.#refused(answer.message, answer.body.place);
			return;
		}
		this.trouble = '';
		this.preview = answer.value;
		if (this.supplier === '' && answer.value.supplierId !== null) this.supplier = answer.value.supplierId;
	}

	async takeIn(): Promise<void> {
		const { file } = this;
		if (!file) return;
		this.busy = true;
		const answer = await sendForm<DeliveryTaken>(`/api/jobs/${this.#job}/deliveries`, this.#form(file));
		this.busy = false;
		if (!answer.ok) {
			this.#refused(answer.message, answer.body.place);
			// Somebody may have taken in the same list meanwhile.
			if (answer.status === 409) await this.#readQuietly();
			return;
		}
		const { lines } = answer.value;
		this.cancel();
		await invalidateAll();
		this.#notices.done(`${file.name} is taken in and compared: ${counted(lines, 'line')}.`);
	}

	async #readQuietly(): Promise<void> {
		const { trouble } = this;
		await this.read();
		this.trouble = trouble;
	}

	#refused(message: string, place: unknown): void {
		this.trouble = typeof place === 'string' && place !== '' ? `${place}: ${message}` : message;
	}

	#form(file: File): FormData {
		const form = new FormData();
		form.set('file', file);
		if (Object.keys(this.mapping).length > 0) form.set('mapping', JSON.stringify(this.mapping));
		if (this.supplier !== '') form.set('supplierId', this.supplier);
		if (this.ours) form.set('ours', 'yes');
		if (this.anotherTruck) form.set('anotherTruck', 'yes');
		return form;
	}
}
