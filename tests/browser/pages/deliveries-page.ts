import type { Locator, Page } from 'playwright';
import { OpeningsPage } from './openings-page.ts';

/** The packing lists of a job. */
export class DeliveriesPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	async open(job: string): Promise<void> {
		await new OpeningsPage(this.page).open(job);
		await this.page
			.getByRole('navigation', { name: 'Places' })
			.getByRole('link', { name: 'Deliveries', exact: true })
			.click();
		await this.page.getByRole('heading', { name: 'Deliveries', exact: true, level: 1 }).waitFor();
	}

	/** Chooses a file, and waits until it says what was read. */
	async choose(path: string): Promise<void> {
		await this.page.getByLabel('Take in a packing list').setInputFiles(path);
		await this.reading.waitFor();
	}

	get reading(): Locator {
		return this.page.getByRole('region', { name: /: what was read$/u });
	}

	get takeItIn(): Locator {
		return this.page.getByRole('button', { name: 'Take it in' });
	}

	async from(supplier: string): Promise<void> {
		await this.reading.getByLabel('Of whom').selectOption({ label: supplier });
	}

	/** Chooses a file of a supplier, and takes it in as it was read. */
	async takeIn(path: string, supplier = 'Northreach Shutter Works'): Promise<void> {
		await this.choose(path);
		await this.from(supplier);
		await this.takeItIn.click();
		await this.reading.waitFor({ state: 'detached' });
		await this.page.getByRole('heading', { name: 'Line by line' }).waitFor();
	}

	/** Waits until a decision is written down: no other is taken before. */
	async written(): Promise<void> {
		await this.page.getByText('Writing it down …').waitFor({ state: 'hidden' });
	}

	/** A row of the long table. */
	row(list: string, line: number): Locator {
		return this.page.getByRole('row').filter({
			has: this.page.getByRole('cell', { name: `${list}, line ${String(line)}`, exact: true })
		});
	}

	/** Lines that wait for a person, each a button. */
	get asked(): Locator {
		return this.page.getByRole('list', { name: 'Lines to explain' }).locator('[data-place]');
	}
}
