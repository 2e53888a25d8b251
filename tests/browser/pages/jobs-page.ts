import type { Locator, Page } from 'playwright';

/** The list of jobs. */
export class JobsPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	async open(): Promise<void> {
		await this.page.goto('/');
		await this.page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
		await hydrated(this.page);
	}

	job(name: string): Locator {
		return this.page.getByRole('link', { name, exact: true });
	}

	/** Makes a job by keyboard and waits for its empty sheet. */
	async make(name: string, measures: 'imperial' | 'metric' = 'imperial'): Promise<void> {
		await this.page.getByRole('button', { name: 'Make a job' }).focus();
		await this.page.keyboard.press('Enter');
		await this.page.getByLabel('Name of the job').waitFor();
		await this.page.keyboard.type(name);
		if (measures === 'metric') await this.page.getByLabel('Millimetres').check();
		await this.page.keyboard.press('Enter');
		await this.page.waitForURL(/\/openings$/u);
	}

	async rename(from: string, to: string): Promise<void> {
		await this.page.getByRole('button', { name: `Rename ${from}`, exact: true }).click();
		await this.#answer(to, 'Rename');
		await this.job(to).waitFor();
	}

	async copy(name: string, copyName: string): Promise<void> {
		await this.page.getByRole('button', { name: `Copy ${name}`, exact: true }).click();
		await this.#answer(copyName, 'Make the copy');
		await this.job(copyName).waitFor();
	}

	async delete(name: string): Promise<void> {
		await this.page.getByRole('button', { name: `Delete ${name}`, exact: true }).click();
		await this.page.getByRole('button', { name: `Put back ${name}`, exact: true }).waitFor();
	}

	async putBack(name: string): Promise<void> {
		await this.page.getByRole('button', { name: `Put back ${name}`, exact: true }).click();
		await this.job(name).waitFor();
	}

	async #answer(name: string, button: string): Promise<void> {
		await this.page.getByLabel('Name of the job').fill(name);
		await this.page.getByRole('dialog').getByRole('button', { name: button, exact: true }).click();
		await this.page.getByRole('dialog').waitFor({ state: 'hidden' });
	}
}

/** Waits until the page's own script has taken over what the server sent. */
async function hydrated(page: Page): Promise<void> {
	await page.waitForLoadState('networkidle');
}
