import type { Locator, Page } from 'playwright';

/** What to see of the sheet: columns, rows, and both under a name. */
export class ViewPanels {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	/** Opens a panel from the tools above the sheet. */
	async open(tool: 'Columns' | 'Views'): Promise<void> {
		const tools = this.page.getByRole('group', { name: 'Openings', exact: true });
		await tools.getByRole('button', { name: tool, exact: true }).click();
		await this.dialog.waitFor();
	}

	async close(): Promise<void> {
		await this.dialog.getByRole('button', { name: 'Close' }).click();
		await this.dialog.waitFor({ state: 'hidden' });
	}

	get dialog(): Locator {
		return this.page.getByRole('dialog');
	}

	/** Finds a column by words and shows or hides it. */
	async turnColumn(words: string, title: string, on: boolean): Promise<void> {
		await this.dialog.getByRole('searchbox').fill(words);
		await this.dialog
			.getByRole('checkbox', { name: new RegExp(`^${title}\\b`, 'u') })
			.first()
			.setChecked(on);
	}

	/** The columns shown, as the panel lists them. */
	get shownColumns(): Locator {
		return this.dialog.getByRole('listbox', { name: 'Shown, from the left' });
	}

	async save(name: string): Promise<void> {
		await this.dialog.getByRole('textbox', { name: /^Save the sheet/u }).fill(name);
		await this.dialog.getByRole('button', { name: 'Save view' }).click();
	}

	/** A view that was saved under a name. */
	saved(name: string): Locator {
		return this.dialog
			.getByRole('list', { name: 'Your views' })
			.getByRole('listitem')
			.filter({ hasText: name });
	}

	/** Shows the sheet in a view, saved or to begin with. */
	async use(name: string): Promise<void> {
		await this.dialog.getByRole('button', { name: `Use ${name}`, exact: true }).click();
		await this.dialog.waitFor({ state: 'hidden' });
	}

	/** The rows that are shown. */
	get rows(): Locator {
		return this.page.getByRole('search', { name: 'Rows of the sheet' });
	}

	async rowsBy(checks: 'All' | 'Stops' | 'Cautions' | 'Not read'): Promise<void> {
		await this.rows.getByRole('button', { name: checks, exact: true }).click();
	}

	/** How many rows are shown, in the program’s words. */
	rowCount(): Promise<string> {
		return this.rows.getByRole('status').innerText();
	}
}
