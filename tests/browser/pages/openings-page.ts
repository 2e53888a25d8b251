import type { Locator, Page } from 'playwright';
import type { InputId } from '../../../src/lib/takeoff/inputs.ts';

/** The sheet of openings of one job. */
export class OpeningsPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	/** Waits until the sheet is laid out. */
	async ready(): Promise<void> {
		await this.page.getByRole('grid', { name: 'Openings of the job' }).waitFor();
	}

	async open(job: string): Promise<void> {
		await this.page.goto('/');
		await this.page.getByRole('link', { name: job, exact: true }).click();
		await this.page.waitForURL(/\/openings$/u);
		await this.ready();
	}

	async reload(): Promise<void> {
		await this.page.reload();
		await this.ready();
	}

	/** How far saving is, in the program's words. */
	get saving(): Locator {
		return this.page.locator('header').getByRole('status');
	}

	async saved(): Promise<void> {
		await this.saving.getByText('All saved').waitFor();
	}

	/** Asks for one of the files that go out. */
	async takeOut(what: string): Promise<void> {
		await this.button('Take out').click();
		await this.page.getByRole('menuitem', { name: what }).click();
	}

	/** Ctrl+Enter adds an opening; the focus is then on its mark. */
	async addByKeyboard(): Promise<void> {
		await this.page.keyboard.press('Control+Enter');
		await this.focusedIs('mark');
	}

	/** Waits until the focus stands on a cell of this column. */
	async focusedIs(column: string): Promise<void> {
		await this.page.locator(`.ag-cell-focus[col-id="${column}"]`).waitFor();
	}

	/** Types into the cell that has the focus and goes on to the next. */
	async type(text: string, leave: 'Tab' | 'Enter' = 'Tab'): Promise<void> {
		await this.page.keyboard.type(text);
		await this.page.keyboard.press(leave);
	}

	/** Types a row from the mark on; the focus moves from input to input by Tab. A blank text passes the cell over. */
	async typeRow(cells: readonly (readonly [InputId, string])[]): Promise<void> {
		for (const [column, text] of cells) {
			await this.focusedIs(column);
			if (text === '') await this.page.keyboard.press('Tab');
			else await this.type(text);
		}
	}

	row(at: number): Locator {
		return this.page.locator(`.ag-row[row-index="${String(at)}"]`);
	}

	/** The cell of a column; scrolled to through the keyboard's own way when it is out of sight. */
	async cell(at: number, column: string): Promise<Locator> {
		const cell = this.row(at).locator(`[col-id="${column}"]`);
		for (let step = 0; step < 60 && (await cell.count()) === 0; step++) {
			await this.page.locator('.ag-body-horizontal-scroll-viewport').evaluate((viewport, distance) => {
				viewport.scrollLeft = distance;
			}, step * 240);
			await this.page.evaluate(() => new Promise(requestAnimationFrame));
		}
		return cell;
	}

	/** What stands in a cell. */
	async text(at: number, column: string): Promise<string> {
		return (await (await this.cell(at, column)).innerText()).trim();
	}

	/** What stands in the cells of a column, from the top row shown down. */
	async column(column: string, rows: number): Promise<string[]> {
		const texts: string[] = [];
		for (let at = 0; at < rows; at++) texts.push(await this.text(at, column));
		return texts;
	}

	/** Clicks a cell. */
	async goTo(at: number, column: string): Promise<void> {
		await (await this.cell(at, column)).click();
		await this.focusedIs(column);
	}

	/** Clicks a cell, then another with Shift held. */
	async select(from: readonly [number, string], to: readonly [number, string]): Promise<void> {
		await this.goTo(...from);
		await (await this.cell(...to)).click({ modifiers: ['Shift'] });
	}

	/** Presses the mouse on a cell, a heading or the fill grip, and lets it go on another, `across` of its width. */
	async drag(
		from: Locator,
		to: Locator,
		{ held = null, across = 0.5 }: { held?: 'Control' | null; across?: number } = {}
	): Promise<void> {
		await from.hover();
		await this.page.mouse.down();
		const box = await to.boundingBox();
		if (!box) throw new Error('the cell to drag to is out of sight');
		await this.page.mouse.move(box.x + box.width * across, box.y + box.height / 2, { steps: 5 });
		if (held) await this.page.keyboard.down(held);
		await this.page.mouse.up();
		if (held) await this.page.keyboard.up(held);
	}

	get grip(): Locator {
		return this.page.locator('.fill-grip');
	}

	/** Cells said to be selected, of those in sight. */
	get selectedCells(): Locator {
		return this.page.locator('[role="gridcell"][aria-selected="true"]');
	}

	/** What is said of the selection and the view. */
	get announced(): Locator {
		return this.page.locator('.grid > [role="status"]');
	}

	/** The heading of a column. */
	header(column: string): Locator {
		return this.page.locator(`.ag-header-cell[col-id="${column}"]`);
	}

	/** The heading of a group of columns. */
	group(title: string): Locator {
		return this.page.locator(`.ag-header-group-cell:has([data-fold="${title}"])`).first();
	}

	/** Headings of the columns in sight, from the left. */
	async headings(): Promise<string[]> {
		const cells = await this.page.locator('.ag-header-cell').all();
		const placed = await Promise.all(
			cells.map(async (cell) => ({ left: (await cell.boundingBox())?.x ?? 0, text: await cell.innerText() }))
		);
		return placed.sort((a, b) => a.left - b.left).map(({ text }) => text.trim());
	}

	/** Lets the grid have a paste as the browser would make it. */
	async paste(text: string, html = ''): Promise<void> {
		await this.page.evaluate(
			(forms) => {
				const data = new DataTransfer();
				data.setData('text/plain', forms.text);
				if (forms.html !== '') data.setData('text/html', forms.html);
				document.activeElement?.dispatchEvent(
					new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true })
				);
			},
			{ text, html }
		);
	}

	/** What a copy or a cut puts on the clipboard. */
	async copied(what: 'copy' | 'cut' = 'copy'): Promise<{ text: string; html: string }> {
		return this.page.evaluate((name) => {
			const data = new DataTransfer();
			document.activeElement?.dispatchEvent(
				new ClipboardEvent(name, { clipboardData: data, bubbles: true, cancelable: true })
			);
			return { text: data.getData('text/plain'), html: data.getData('text/html') };
		}, what);
	}

	/** Puts rows into an empty sheet: tab-separated, from the mark on. */
	async fill(rows: readonly string[]): Promise<void> {
		await this.addByKeyboard();
		await this.paste(`${rows.join('\n')}\n`);
		await this.row(rows.length - 1).waitFor();
		await this.saved();
	}

	/** A figure in the panel of the selected opening. */
	async result(title: string): Promise<string> {
		await this.page.getByRole('tab', { name: 'Results' }).click();
		const term = this.page.getByRole('tabpanel').locator('dl > div').filter({ hasText: title }).first();
		return (await term.locator('dd').innerText()).trim();
	}

	/** All figures in the panel of the selected opening, by title. */
	async results(): Promise<Record<string, string>> {
		await this.page.getByRole('tab', { name: 'Results' }).click();
		const rows = await this.page.getByRole('tabpanel').locator('dl > div').allInnerTexts();
		return Object.fromEntries(
			rows.map((row) => {
				const [title = '', figure = ''] = row.split('\n');
				return [title.trim(), figure.trim()];
			})
		);
	}

	/** The note under the cell that is being typed in. */
	get underCell(): Locator {
		return this.page.locator('.under-cell:popover-open');
	}

	/** A tool above the sheet; undo and redo also say what they take back. */
	button(name: string): Locator {
		return this.#tools.getByRole('button', { name: new RegExp(`^${name}\\b`, 'u') });
	}

	/** On a phone most tools stand behind a button. */
	async unfoldTools(): Promise<void> {
		const more = this.#tools.getByRole('button', { name: 'More', exact: true });
		if (await more.isVisible()) await more.click();
	}

	get #tools(): Locator {
		return this.page.getByRole('group', { name: 'Openings', exact: true });
	}
}
