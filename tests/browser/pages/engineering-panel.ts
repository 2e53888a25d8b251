import type { Locator, Page } from 'playwright';

/** The engineering of the selected opening, beside the sheet. */
export class EngineeringPanel {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	/** Selects a mark in the sheet and shows its engineering. */
	async open(mark: string): Promise<void> {
		await this.page.locator('.ag-cell[col-id="mark"]').getByText(mark, { exact: true }).click();
		await this.tab('Engineering').click();
		await this.holding.waitFor();
	}

	tab(name: string): Locator {
		return this.page.getByRole('tab', { name });
	}

	get holding(): Locator {
		return this.page.getByRole('table', { name: /^What holds guides and brackets/u });
	}

	/** A figure of the table: `Left guide`, in the row `Used, of 1`. */
	held(row: string, place: string): Locator {
		return this.holding
			.getByRole('row', { name: new RegExp(`^${row}`, 'u') })
			.getByRole('button', { name: new RegExp(`^${place}: `, 'u') });
	}

	/** A drawing or plot by its name. */
	figure(name: string): Locator {
		return this.page.getByRole('figure', { name });
	}

	/** The title of the working that is open. */
	get working(): Locator {
		return this.page.getByRole('tabpanel').getByRole('heading', { level: 3 });
	}
}
