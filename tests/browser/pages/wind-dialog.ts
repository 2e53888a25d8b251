import type { Locator, Page } from 'playwright';

/** The wind aid of the selected opening. */
export class WindDialog {
	readonly page: Page;
	readonly dialog: Locator;

	constructor(page: Page) {
		this.page = page;
		this.dialog = page.getByRole('dialog', { name: /^Wind pressure on/u });
	}

	/** Selects a mark in the sheet. @returns its place there. */
	async select(mark: string): Promise<number> {
		const cell = this.page.locator('.ag-cell[col-id="mark"]').getByText(mark, { exact: true });
		// Rows far out of sight are not in the page.
		const rows = this.page.locator('.ag-body-vertical-scroll-viewport');
		for (let step = 0; step < 40 && (await cell.count()) === 0; step++) {
			await rows.evaluate((viewport, distance) => {
				viewport.scrollTop = distance;
			}, step * 160);
			await this.page.evaluate(() => new Promise(requestAnimationFrame));
		}
		await cell.click();
		await this.page.getByRole('heading', { name: mark, exact: true }).waitFor();
		return Number(await this.page.locator('.ag-row').filter({ has: cell }).first().getAttribute('row-index'));
	}

	/** Opens the wind pressure of a mark. @returns its place in the sheet. */
	async open(mark: string): Promise<number> {
		const row = await this.select(mark);
		await this.opener.click();
		await this.dialog.waitFor();
		return row;
	}

	/** What opens it, beside the drawing. */
	get opener(): Locator {
		return this.page.getByRole('button', { name: 'Wind pressure …' });
	}

	async close(): Promise<void> {
		await this.dialog.getByRole('button', { name: 'Close' }).click();
		await this.dialog.waitFor({ state: 'hidden' });
	}

	field(label: string): Locator {
		return this.dialog.getByLabel(label);
	}

	/** A place in open country with a roof at 20 ft, and this opening at a corner. */
	async fill(speed: string): Promise<void> {
		await this.field('Basic wind speed').fill(speed);
		await this.field('Exposure').selectOption('C');
		await this.field('Mean roof height').fill('20');
		await this.field('Enclosure').selectOption('enclosed');
		await this.field('5: at a corner').check();
	}

	/** A figure of the result. */
	async figure(title: string): Promise<string> {
		const term = this.dialog.locator('dl > div').filter({ hasText: title });
		return (await term.locator('dd').innerText()).trim();
	}

	get confirmed(): Locator {
		return this.field('The engineer has confirmed this figure');
	}

	get engineer(): Locator {
		return this.field('Engineer’s name or reference');
	}

	get takeOver(): Locator {
		return this.dialog.getByRole('button', { name: 'Take over as design pressure' });
	}

	/** A reason why something was not taken. */
	alert(text: string): Locator {
		return this.dialog.getByRole('alert').filter({ hasText: text });
	}
}
