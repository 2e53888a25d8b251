import type { Locator, Page } from 'playwright';
import { OpeningsPage } from './openings-page.ts';

/** What became of a job. */
export class HistoryPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	async open(job: string): Promise<void> {
		await new OpeningsPage(this.page).open(job);
		await this.page
			.getByRole('navigation', { name: 'Places' })
			.getByRole('link', { name: 'History', exact: true })
			.click();
		await this.ready('History');
	}

	async ready(heading: string): Promise<void> {
		await this.page.getByRole('heading', { name: heading, exact: true, level: 1 }).waitFor();
	}

	/** The entries shown, the latest first. */
	get entries(): Locator {
		return this.page.getByRole('article');
	}

	/** Chooses by person or by kind, and waits until the address says so. */
	async choose(label: 'Who' | 'What', option: string): Promise<void> {
		await this.page.getByLabel(label, { exact: true }).selectOption({ label: option });
		await this.page.waitForURL(label === 'Who' ? /[?&]actor=/u : /[?&]kind=/u);
	}

	/** Copies the job as it stood after the change, and waits for the sheet of the copy. */
	async bringBack(change: number, name: string): Promise<void> {
		await this.page
			.getByRole('button', { name: `Copy as it stood then, after change ${change}`, exact: true })
			.click();
		await this.makeCopy(name);
	}

	async makeCopy(name: string): Promise<void> {
		await this.page.getByLabel('Name of the copy').fill(name);
		await this.page.getByRole('button', { name: 'Make the copy' }).click();
		await this.page.locator('header').getByText(name, { exact: true }).waitFor();
		await new OpeningsPage(this.page).ready();
	}
}
