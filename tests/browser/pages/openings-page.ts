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
