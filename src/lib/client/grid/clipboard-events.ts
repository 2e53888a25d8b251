/** The clipboard of the grid: by the browser's own events for its keys and menu, and from buttons. */
import type { CellCommands } from './cell-commands.ts';
import type { GridHooks } from './grid-hooks.ts';
import { onlyLooking } from './only-looking.ts';

export interface ClipboardHost {
	readonly container: HTMLElement;
	readonly hooks: GridHooks;
	readonly cells: CellCommands;
	announce(text: string): void;
}

export class ClipboardEvents {
	readonly #host: ClipboardHost;

	constructor(host: ClipboardHost) {
		this.#host = host;
		document.addEventListener('copy', this.#onCopy);
		document.addEventListener('cut', this.#onCut);
		document.addEventListener('paste', this.#onPaste);
	}

	destroy(): void {
		document.removeEventListener('copy', this.#onCopy);
		document.removeEventListener('cut', this.#onCut);
		document.removeEventListener('paste', this.#onPaste);
	}

	/** The event is for the grid when the focus is in it, wherever the browser sends it. */
	#isOurs(event: ClipboardEvent): boolean {
		const { activeElement } = document;
		return (
			event.clipboardData !== null &&
			!event.defaultPrevented &&
			!(activeElement instanceof HTMLInputElement) &&
			this.#host.container.contains(activeElement)
		);
	}

	readonly #onCopy = (event: ClipboardEvent): void => this.#take(event, 'copy');
	readonly #onCut = (event: ClipboardEvent): void => this.#take(event, 'cut');

	#take(event: ClipboardEvent, what: 'copy' | 'cut'): void {
		if (what === 'cut' && this.#isOurs(event) && !this.#host.hooks.mayEdit) {
			this.#host.hooks.say(onlyLooking);
			return;
		}
		const copied = this.#isOurs(event) ? this.#host.cells.copied() : null;
		if (!copied) return;
		event.clipboardData?.setData('text/plain', copied.text);
		event.clipboardData?.setData('text/html', copied.html);
		event.preventDefault();
		this.#taken(what);
	}

	#taken(what: 'copy' | 'cut'): void {
		const { cells } = this.#host;
		this.#host.announce(cells.copyWords(what === 'cut' ? 'Cut' : 'Copied'));
		if (what === 'cut') cells.clear('Cut');
	}

	readonly #onPaste = (event: ClipboardEvent): void => {
		if (!this.#isOurs(event) || !event.clipboardData) return;
		event.preventDefault();
		if (!this.#host.hooks.mayEdit) {
			this.#host.hooks.say(onlyLooking);
			return;
		}
		this.#host.cells.paste({
			text: event.clipboardData.getData('text/plain'),
			html: event.clipboardData.getData('text/html')
		});
	};

	/** From a button: the browser may ask first, or keep the clipboard to itself. */
	async write(what: 'copy' | 'cut'): Promise<void> {
		const copied = this.#host.cells.copied();
		if (!copied) return;
		try {
			const blob = (text: string, type: string): Blob => new Blob([text], { type });
			await navigator.clipboard.write([
				new ClipboardItem({
					'text/plain': blob(copied.text, 'text/plain'),
					'text/html': blob(copied.html, 'text/html')
				})
			]);
		} catch {
			this.#host.hooks.refuse(
				`The browser keeps the clipboard to its keys here: press Ctrl+${what === 'cut' ? 'X' : 'C'} in the sheet.`
			);
			return;
		}
		this.#taken(what);
	}

	async read(): Promise<void> {
		try {
			const [item] = await navigator.clipboard.read();
			const read = async (type: string): Promise<string> =>
				item?.types.includes(type) ? (await item.getType(type)).text() : '';
			this.#host.cells.paste({ text: await read('text/plain'), html: await read('text/html') });
		} catch {
			this.#host.hooks.refuse('The browser keeps the clipboard to its keys here: press Ctrl+V in the sheet.');
		}
	}
}
