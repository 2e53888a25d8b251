import type { Locator, Page } from 'playwright';

/** The choice of openings of a building model before they are brought in. */
export class ModelDialog {
	readonly dialog: Locator;
	readonly #page: Page;

	constructor(page: Page) {
		this.#page = page;
		this.dialog = page.getByRole('dialog', { name: 'Bring in openings from a building model' });
	}

	/** Opens it from the tools above the sheet. */
	async open(): Promise<void> {
		const tools = this.#page.getByRole('group', { name: 'Openings', exact: true });
		const more = tools.getByRole('button', { name: 'More', exact: true });
		if (await more.isVisible()) await more.click();
		await tools.getByRole('button', { name: 'Bring in', exact: true }).click();
		await this.#page.getByRole('menuitem', { name: 'From a building model' }).click();
		await this.dialog.waitFor();
	}

	/** Chooses a file and waits for its list or the reason why there is none. */
	async choose(file: string | { name: string; text: string }): Promise<void> {
		const input = this.dialog.getByLabel('Choose a building model');
		if (typeof file === 'string') await input.setInputFiles(file);
		else
			await input.setInputFiles({
				name: file.name,
				mimeType: 'application/x-step',
				buffer: Buffer.from(file.text)
			});
		await this.dialog
			.getByText(/openings? of \d+ chosen|Nothing was stored/u)
			.first()
			.waitFor();
	}

	/** The box that brings an opening in, by its mark. */
	box(mark: string): Locator {
		return this.dialog.getByRole('checkbox', { name: new RegExp(`^Bring in ${mark}, line`, 'u') });
	}

	/** Marks of the openings that are shown. */
	async marks(): Promise<string[]> {
		const names = await this.dialog
			.getByRole('checkbox')
			.evaluateAll((boxes) => boxes.map((box) => box.getAttribute('aria-label') ?? ''));
		return names.map((name) => name.replace(/^Bring in (.*), line \d+$/u, '$1'));
	}

	get bringIn(): Locator {
		return this.dialog.getByRole('button', { name: /^Bring in \d+ openings?/u });
	}
}
