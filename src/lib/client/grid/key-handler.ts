/** Keys pressed in the grid while nothing is typed; what they mean stands in `keys.ts`. */
import { isInputId } from '../../takeoff/inputs.ts';
import type { CellText } from './cell-text.ts';
import type { GridDisplay } from './grid-display.ts';
import type { GridFocus } from './grid-focus.ts';
import type { GridHeaders } from './grid-headers.ts';
import { commandFor, motionFor, type CommandId, type Motion } from './keys.ts';
import { motionEnd, type Spot } from './range.ts';
import type { Selection } from './selection.ts';

export interface KeyHost {
	readonly container: HTMLElement;
	readonly text: CellText;
	readonly selection: Selection;
	readonly focus: GridFocus;
	readonly display: GridDisplay;
	readonly headers: GridHeaders;
	run(command: CommandId): void;
	/** @returns whether the cell has something to open: checks or a working. */
	open(spot: Spot): boolean;
}

export class KeyHandler {
	readonly #host: KeyHost;

	constructor(host: KeyHost) {
		this.#host = host;
		host.container.addEventListener('keydown', this.#down, true);
	}

	destroy(): void {
		this.#host.container.removeEventListener('keydown', this.#down, true);
	}

	readonly #down = (event: KeyboardEvent): void => {
		if (event.target instanceof HTMLInputElement || !(event.target instanceof Element)) return;
		this.#host.focus.adopt();
		const header = event.target.closest('[role="columnheader"]');
		const done = header ? this.#inHeader(event, header) : this.#inCell(event);
		if (!done) return;
		event.preventDefault();
		event.stopPropagation();
	};

	#inHeader(event: KeyboardEvent, header: Element): boolean {
		if (event.key === 'Enter' || event.key === ' ') return this.#host.headers.press(header, event.shiftKey);
		return this.#command(event);
	}

	/** @returns whether the key was one of ours. */
	#inCell(event: KeyboardEvent): boolean {
		const { selection, focus } = this.#host;
		const { active, isMany } = selection;
		const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
		if (active && plain && event.key === 'Enter') {
			if (!event.shiftKey && !isMany && this.#host.open(active)) return true;
			return focus.go(active, event.shiftKey ? 'up' : 'down');
		}
		if (active && plain && event.key === 'Tab') return focus.go(active, event.shiftKey ? 'left' : 'right');
		if (event.key === '?' && active && isInputId(active.column)) return false;
		if (this.#command(event)) return true;
		const motion = motionFor(event);
		// One cell or window further, and from there to the headers: the grid's own.
		if (!active || !motion || (!motion.extend && (motion.reach === 'cell' || motion.reach === 'window')))
			return false;
		this.#move(active, motion);
		return true;
	}

	#command(event: KeyboardEvent): boolean {
		const id = commandFor(event);
		// The clipboard has events of its own.
		if (id === null || id === 'copy' || id === 'cut' || id === 'paste') return false;
		this.#host.run(id);
		return true;
	}

	#move(active: Spot, motion: Motion): void {
		const { selection, text, focus, display } = this.#host;
		const { range, area } = selection;
		const from = selection.placeOf(motion.extend ? (range?.head ?? active) : active);
		const sight = display.api.getVerticalPixelRange();
		const end = motionEnd(
			from,
			motion,
			{ row: area.rows.length, column: area.columns.length },
			Math.floor((sight.bottom - sight.top) / display.rowHeight),
			(place) => {
				const spot = selection.spotAt(place);
				return spot !== null && text.isFilled(spot.row, spot.column);
			}
		);
		const spot = selection.spotAt(end);
		if (!spot) return;
		if (motion.extend) {
			selection.extendTo(spot);
			focus.reveal(spot);
		} else {
			focus.moveTo(spot);
		}
	}
}
