import type { Locator, Page } from 'playwright';
import { OpeningsPage } from './openings-page.ts';

/** What a job buys: its plan, what is to be ordered, its orders, and one of them. */
export class OrdersPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	async open(job: string): Promise<void> {
		await new OpeningsPage(this.page).open(job);
		await this.place();
	}

	/** From any page of the job. */
	async place(): Promise<void> {
		await this.page
			.getByRole('navigation', { name: 'Places' })
			.getByRole('link', { name: 'Orders', exact: true })
			.click();
		await this.page.getByRole('heading', { name: 'Orders', exact: true, level: 1 }).waitFor();
	}

	openItems(): Locator {
		return this.page.getByRole('region', { name: 'What is still open' }).locator('tbody tr');
	}

	/** A proposal by its heading: supplier, phase, release. */
	proposal(name: string | RegExp): Locator {
		return this.page.getByRole('region', { name });
	}

	/** Sets the start of a whole phase by keyboard. */
	async planPhase(phase: string, day: string): Promise<void> {
		const all = this.page.getByRole('checkbox', { name: new RegExp(`^Choose all .*: Phase ${phase}$`, 'u') });
		await all.focus();
		await this.page.keyboard.press('Space');
		await this.page.getByLabel('Work starts on').fill(day);
		await this.button(/^Set for \d+ openings$/u).focus();
		await this.page.keyboard.press('Enter');
		const row = this.page
			.getByRole('region', { name: 'Plan by phase' })
			.getByRole('row')
			.filter({ hasText: `Phase ${phase}` });
		await row.getByText(day, { exact: true }).waitFor();
	}

	/** Writes a proposal as an order, the first one without a name. @returns its number. */
	async write(name = ''): Promise<string> {
		const buttons = this.page.getByRole('button', { name: `Write this order: ${name}` });
		await (name === '' ? buttons.first() : buttons).click();
		const heading = this.page.getByRole('heading', { name: /^Order [0-9A-Z]{5}-\d\d/u, level: 1 });
		await heading.waitFor();
		return /[0-9A-Z]{5}-\d\d/u.exec(await heading.innerText())?.[0] ?? '';
	}

	button(name: string | RegExp): Locator {
		return this.page.getByRole('button', { name });
	}

	line(number: number): Locator {
		return this.page
			.getByRole('region', { name: 'Lines of the order' })
			.getByRole('row')
			.filter({ has: this.page.locator('td:first-child', { hasText: new RegExp(`^${number}$`, 'u') }) });
	}

	async changeLine(
		number: number,
		fields: { readonly price?: string; readonly note?: string }
	): Promise<void> {
		await this.page.getByRole('button', { name: `Change line ${number}`, exact: true }).click();
		if (fields.price !== undefined) await this.page.getByLabel(/^Price of one/u).fill(fields.price);
		if (fields.note !== undefined) await this.page.getByLabel('Note to the supplier').fill(fields.note);
		await this.page.keyboard.press('Enter');
	}

	async release(reason: string): Promise<void> {
		await this.page.getByLabel('Goes out all the same, because').fill(reason);
		await this.button('Release it anyway').click();
		await this.page.getByText('sent, not answered', { exact: true }).waitFor();
	}

	async takeIn(name: string, text: string): Promise<void> {
		await this.page
			.getByLabel(/^Take in the supplier’s answer/u)
			.setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
	}

	differences(): Locator {
		return this.page.getByRole('region', { name: 'Differences' }).locator('tbody tr');
	}

	async told(words: string | RegExp): Promise<void> {
		await this.page.getByText(words).first().waitFor();
	}
}
