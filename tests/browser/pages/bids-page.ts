import type { Locator, Page } from 'playwright';
import { OpeningsPage } from './openings-page.ts';

/** The bids of a job, on its price. */
export class BidsPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	async open(job: string): Promise<void> {
		await new OpeningsPage(this.page).open(job);
		await this.page
			.getByRole('navigation', { name: 'Places' })
			.getByRole('link', { name: 'Price', exact: true })
			.click();
		await this.page.getByRole('heading', { name: 'Bids', exact: true }).waitFor();
	}

	bid(number: number): Locator {
		return this.page.getByRole('row').filter({ has: this.link(number) });
	}

	link(number: number): Locator {
		return this.page.getByRole('link', { name: `Bid ${number}`, exact: true });
	}

	/** Freezes by keyboard, and waits until the bid is listed. */
	async freeze(number: number, title: string): Promise<void> {
		await this.page.getByRole('button', { name: 'Freeze as a bid' }).focus();
		await this.page.keyboard.press('Enter');
		await this.page.getByLabel('Title', { exact: true }).waitFor();
		await this.page.keyboard.type(title);
		await this.page.keyboard.press('Enter');
		await this.link(number).waitFor();
	}

	async read(number: number, title: string): Promise<void> {
		await this.link(number).click();
		await this.page.getByRole('heading', { name: `Bid ${number}: ${title}`, exact: true }).waitFor();
	}

	/** @param second a number, or the job as it is now. */
	async compare(first: number, second: number | 'now'): Promise<void> {
		const form = this.page.getByRole('form', { name: 'Compare bids' });
		await form.getByLabel('Compare', { exact: true }).selectOption(String(first));
		await form.getByLabel('with', { exact: true }).selectOption(String(second));
		await form.getByRole('button', { name: 'Compare' }).click();
		await this.page.getByRole('heading', { name: `Bid ${first} compared with`, level: 1 }).waitFor();
	}
}
