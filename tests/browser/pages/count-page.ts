import type { Locator, Page } from 'playwright';
import { OpeningsPage } from './openings-page.ts';

/** The pages on site on which a truck is counted. */
export class CountPage {
	readonly page: Page;
	/** What stands on top: what is on the phone and what is in the office. */
	readonly office: Locator;

	constructor(page: Page) {
		this.page = page;
		this.office = page.getByRole('region', { name: 'What has reached the office' });
	}

	/** The trucks of a job. */
	async site(job: string): Promise<void> {
		await new OpeningsPage(this.page).open(job);
		const places = this.page.getByRole('navigation', { name: 'Places' });
		await places.getByRole('link', { name: 'Site', exact: true }).click();
		await this.page.getByRole('heading', { name: 'Trucks to count' }).waitFor();
	}

	/** The count of the truck of a packing list. */
	async open(job: string, list: string): Promise<void> {
		await this.site(job);
		const truck = this.page.getByRole('listitem').filter({ hasText: list });
		await truck.getByRole('link', { name: /^(?:Count|See the count)/u }).click();
		await this.page.getByRole('heading', { name: `Count ${list}` }).waitFor();
	}

	async crate(name: string): Promise<void> {
		await this.page.getByRole('link', { name: new RegExp(`^Crate ${name} `, 'u') }).click();
		await this.page.getByRole('heading', { name: `Crate ${name}`, exact: true }).waitFor();
	}

	async crates(): Promise<void> {
		await this.page.getByRole('link', { name: 'All crates' }).click();
		await this.page.getByRole('heading', { name: 'Crates', exact: true }).waitFor();
	}

	/** A line of the list, by its number. */
	line(number: number): Locator {
		return this.page.getByRole('listitem').filter({ has: this.page.locator(`#line-${number}`) });
	}

	allHere(line: number): Locator {
		return this.line(line).getByRole('button', { name: /^All .* here, whole/u });
	}

	/** Opens the form of a line. */
	async form(line: number): Promise<Locator> {
		await this.line(line)
			.getByRole('button', { name: /^Count (?:…|it again)/u })
			.click();
		return this.line(line).getByRole('form');
	}

	async keep(form: Locator): Promise<void> {
		await form.getByRole('button', { name: 'Keep this count' }).click();
		await form.waitFor({ state: 'detached' });
	}

	says(words: string | RegExp): Promise<void> {
		return this.office.getByText(words).waitFor();
	}
}
