import type { Locator, Page } from 'playwright';
import { OpeningsPage } from './openings-page.ts';

/** The pages of field measures. */
export class MeasurePage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	/** The list of a job, from the list of jobs on. */
	async list(job: string): Promise<void> {
		await new OpeningsPage(this.page).open(job);
		await this.page.goto(this.page.url().replace(/openings$/u, 'site/measure'));
		await this.page.getByRole('heading', { name: 'Field measure', exact: true }).waitFor();
	}

	entry(opening: string): Locator {
		return this.page.getByRole('listitem').filter({ hasText: opening });
	}

	/** From the list to one opening, with its takeoff opened in the browser. */
	async open(opening: string): Promise<void> {
		await this.page.getByRole('link', { name: new RegExp(`^${opening.replace('.', '\\.')} `, 'u') }).click();
		await this.page.getByRole('heading', { level: 1, name: opening, exact: true }).waitFor();
	}

	async begin(button = 'Measure'): Promise<void> {
		await this.page.getByRole('button', { name: button, exact: true }).click();
		await this.form.waitFor();
	}

	get form(): Locator {
		return this.page.getByRole('form', { name: 'Readings' });
	}

	field(label: string): Locator {
		const named = { name: label };
		return this.form.getByRole('textbox', named).or(this.form.getByRole('combobox', named));
	}

	async fill(readings: Readonly<Record<string, string>>): Promise<void> {
		for (const [label, text] of Object.entries(readings)) await this.field(label).fill(text);
	}

	/** Plumb readings of a jamb: height, in the wall, out of the wall. Those suggested are overwritten. */
	async plumb(side: string, readings: readonly (readonly [string, string, string])[]): Promise<void> {
		const rows = this.form.getByRole('group', {
			name: new RegExp(`Plumb reading \\d+ of the ${side} jamb`, 'u')
		});
		while ((await rows.count()) > readings.length)
			await rows.last().getByRole('button', { name: 'Leave out' }).click();
		while ((await rows.count()) < readings.length)
			await this.form.getByRole('button', { name: `Another height at the ${side}` }).click();
		for (const [i, [height, inPlane, outOfPlane]] of readings.entries()) {
			const row = rows.nth(i);
			await row.getByRole('textbox', { name: 'At height' }).fill(height);
			await row.getByRole('textbox', { name: 'In the wall' }).fill(inPlane);
			await row.getByRole('textbox', { name: 'Out of the wall' }).fill(outOfPlane);
		}
	}

	async save(): Promise<void> {
		await this.form.getByRole('button', { name: 'Save this measure' }).click();
	}

	/** The verdict as it stands on the page. */
	get outcome(): Locator {
		return this.page.locator('.outcome');
	}

	finding(title: string): Locator {
		return this.page.locator('.findings li').filter({ has: this.page.getByText(title, { exact: true }) });
	}

	/** What has reached the office. */
	get office(): Locator {
		return this.page.getByRole('region', { name: 'What has reached the office' });
	}
}
