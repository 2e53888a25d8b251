import type { Locator, Page } from 'playwright';

/** The people of a company, for its owner. */
export class PeoplePage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	async open(): Promise<void> {
		await this.page.goto('/people');
		await this.page.getByRole('heading', { name: /^People of/u }).waitFor();
		await this.page.waitForLoadState('networkidle');
	}

	role(person: string, role: string): Locator {
		return this.page.getByRole('checkbox', { name: `${role}: ${person}` });
	}

	/** Ticks or clears a role, and waits until it counts. */
	async setRole(person: string, role: string, on: boolean): Promise<void> {
		await this.role(person, role).setChecked(on);
		await this.page.getByText(`What ${person} may do is changed.`).waitFor();
	}

	async takeOut(person: string): Promise<void> {
		await this.page.getByRole('button', { name: `Take out ${person}` }).click();
		await this.page
			.getByRole('dialog')
			.getByRole('button', { name: `Take out ${person}` })
			.click();
		await this.page.getByText(`${person} is taken out`).waitFor();
	}

	/** The link of the invitation made just now. */
	get link(): Locator {
		return this.page.getByLabel('Link', { exact: true });
	}
}
