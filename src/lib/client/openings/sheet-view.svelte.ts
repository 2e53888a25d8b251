/**
 * How this person looks at the sheet of a job, remembered on the server for the next time and for other browsers. What the
 * server does not have yet is kept in this browser tab, and without storage in memory: looking at the sheet never waits.
 */
import { sheetViewSchema, usualView, type SheetView } from '../../changes/sheet-view.ts';
import { send } from '../call.ts';

/** So long after the last change it is sent: a column that is being dragged wider sends once. */
const quietTime = 400;
const firstPause = 500;
const longestPause = 15_000;
const storagePrefix = 'coilwright.view.';
/** Where the choice of columns was kept before views were. */
const oldChoiceKey = 'coilwright.columns';

/** What an earlier page of this tab left unsent; null where there is nothing. */
function unsentView(key: string): SheetView | null {
	try {
		const read = sheetViewSchema.safeParse(JSON.parse(sessionStorage.getItem(key) ?? 'null'));
		return read.success ? read.data : null;
	} catch {
		return null;
	}
}

/** Takes over, once, the columns a person chose when only this browser kept them; null where there are none. */
function oldChoice(): SheetView | null {
	try {
		const kept: unknown = JSON.parse(localStorage.getItem(oldChoiceKey) ?? 'null');
		localStorage.removeItem(oldChoiceKey);
		const read = sheetViewSchema.shape.choice.safeParse(kept);
		return read.success && Object.keys(read.data).length > 0 ? { ...usualView, choice: read.data } : null;
	} catch {
		return null;
	}
}

export class SheetViewState {
	current: SheetView = $state.raw(usualView);
	/** Whether the server has the view as it is now. */
	remembered = $state(true);
	/** Why the server will not keep it, in words; it then lasts as long as this browser tab. */
	trouble: string | null = $state(null);

	readonly #path: string;
	readonly #storageKey: string;
	#timer: ReturnType<typeof setTimeout> | null = null;
	#pause = firstPause;
	#sending = false;
	#open = false;

	/** @param last how the person last left the sheet, as the server has it. */
	constructor(job: string, last: SheetView | null) {
		this.#path = `/api/jobs/${job}/view`;
		this.#storageKey = storagePrefix + job;
		const waiting = unsentView(this.#storageKey) ?? (last === null ? oldChoice() : null);
		this.current = waiting ?? last ?? usualView;
		if (waiting) this.#keep();
	}

	/** Begins to send, in the browser only. @returns what sends the rest and ends it, for when the sheet is left. */
	open(): () => void {
		this.#open = true;
		const hidden = (): void => {
			if (document.visibilityState === 'hidden') this.#flush();
		};
		document.addEventListener('visibilitychange', hidden);
		if (!this.remembered) this.#sendAfter(0);
		return () => {
			document.removeEventListener('visibilitychange', hidden);
			this.#open = false;
			this.#flush();
		};
	}

	/** Changes some of it. */
	change(patch: Partial<SheetView>): void {
		this.use({ ...this.current, ...patch });
	}

	/** Shows another view. */
	use(view: SheetView): void {
		if (JSON.stringify(view) === JSON.stringify(this.current)) return;
		this.current = view;
		this.#keep();
		if (this.#open) this.#sendAfter(quietTime);
	}

	#keep(): void {
		this.remembered = false;
		this.#pause = firstPause;
		try {
			sessionStorage.setItem(this.#storageKey, JSON.stringify(this.current));
		} catch {
			// No storage or no room in it: the view is kept in memory until the server has it.
		}
	}

	#forget(stored: SheetView): void {
		try {
			if (sessionStorage.getItem(this.#storageKey) === JSON.stringify(stored))
				sessionStorage.removeItem(this.#storageKey);
		} catch {
			// No storage: there is nothing to forget.
		}
	}

	#sendAfter(pause: number): void {
		if (this.#timer) clearTimeout(this.#timer);
		this.#timer = setTimeout(() => void this.#send(), pause);
	}

	/** Sends at once what waits for its time. */
	#flush(): void {
		if (this.#timer) void this.#send();
	}

	async #send(): Promise<void> {
		if (this.#timer) clearTimeout(this.#timer);
		this.#timer = null;
		// What comes while one is on its way goes after it, so that the last one is the last to arrive.
		if (this.#sending) return;
		this.#sending = true;
		const view = this.current;
		const answer = await send('PUT', this.#path, view);
		this.#sending = false;
		const changed = view !== this.current;
		if (answer.ok) {
			this.#pause = firstPause;
			this.trouble = null;
			this.#forget(view);
			if (changed) await this.#send();
			else this.remembered = true;
		} else if (answer.status === 0 || answer.status === 429 || answer.status >= 500) {
			// Once the sheet is left, the tab keeps it for the next time the sheet is opened.
			if (!this.#open) return;
			this.#sendAfter(this.#pause);
			this.#pause = Math.min(this.#pause * 2, longestPause);
		} else if (changed) {
			await this.#send();
		} else {
			this.trouble = answer.message;
		}
	}
}
