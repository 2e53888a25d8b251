import type { Locator, Page } from 'playwright';

/** What the whole job comes to. */
export class TakeoffPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	/** From any place of the job; waits until its engineering is reckoned. */
	async open(): Promise<void> {
		await this.page
			.getByRole('navigation', { name: 'Places' })
			.getByRole('link', { name: 'Takeoff', exact: true })
			.click();
		await this.section('Holding').waitFor();
	}

	section(heading: string): Locator {
		return this.page.locator('section', {
			has: this.page.getByRole('heading', { name: heading, exact: true })
		});
	}

	/** Rows of a section's table, by mark from the top. */
	async marks(section: string): Promise<string[]> {
		const texts = await this.section(section).locator('tbody th').allInnerTexts();
		return texts.map((text) => text.trim());
	}

	get working(): Locator {
		return this.page.getByRole('complementary', { name: 'Working' });
	}
}
