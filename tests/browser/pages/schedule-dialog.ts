import type { Locator, Page } from 'playwright';
import { expect } from 'vitest';
import type { InputId } from '../../../src/lib/takeoff/inputs.ts';

/** The preview of a schedule before it is brought in, and what it would change. */
export class ScheduleDialog {
	readonly dialog: Locator;
	readonly #page: Page;

	constructor(page: Page) {
		this.#page = page;
		this.dialog = page.getByRole('dialog', { name: 'Bring in a schedule' });
	}

	/** Opens it from the tools above the sheet. */
	async open(): Promise<void> {
		const tools = this.#page.getByRole('group', { name: 'Openings', exact: true });
		const more = tools.getByRole('button', { name: 'More', exact: true });
		if (await more.isVisible()) await more.click();
		await tools.getByRole('button', { name: 'Bring in', exact: true }).click();
		await this.#page.getByRole('menuitem', { name: 'A schedule' }).click();
		await this.dialog.waitFor();
	}

	/** Chooses a file and waits for its preview or the reason why there is none. */
	async choose(file: string | { name: string; text: string }): Promise<void> {
		const input = this.dialog.getByLabel('Choose a schedule');
		if (typeof file === 'string') await input.setInputFiles(file);
		else
			await input.setInputFiles({
				name: file.name,
				mimeType: 'text/csv',
				buffer: Buffer.from(file.text)
			});
		await this.dialog
			.getByText(/rows? will come in|Nothing was stored/u)
			.first()
			.waitFor();
	}

	/** A question by words of its text. */
	question(words: RegExp): Locator {
		return this.dialog.getByRole('group', { name: words });
	}

	/** Answers a question by keyboard with one of its choices, counted from 0. */
	async answerByKeyboard(question: RegExp, choice: number): Promise<void> {
		const radios = this.question(question).getByRole('radio');
		await radios.first().focus();
		await this.#page.keyboard.press('Space');
		for (let step = 0; step < choice; step++) await this.#page.keyboard.press('ArrowDown');
		await expect.poll(() => radios.nth(choice).isChecked()).toBe(true);
	}

	row(line: number): Locator {
		return this.dialog
			.getByRole('region', { name: 'What each row becomes' })
			.getByRole('row', { name: new RegExp(`^${String(line)} `, 'u') });
	}

	/** The choice of what a column holds. */
	field(letter: string): Locator {
		return this.dialog.getByLabel(new RegExp(`^Column ${letter},`, 'u'));
	}

	async assign(letter: string, field: InputId | ''): Promise<void> {
		await this.field(letter).selectOption(field);
	}

	/** A change by words of its choice: `Add C-105`, `Quantity: 4`. */
	change(words: string | RegExp): Locator {
		return this.changes.getByRole('checkbox', { name: words });
	}

	get changes(): Locator {
		return this.dialog.getByRole('region', { name: 'Changes, and what each costs' });
	}

	/** A line of the table of the job before and after. */
	total(title: string): Locator {
		return this.dialog
			.getByRole('table', { name: 'The job before and after' })
			.getByRole('row', { name: new RegExp(`^${title}`, 'u') });
	}

	get bringIn(): Locator {
		return this.dialog.getByRole('button', { name: /^(?:Bring in [\d,]+ rows?|Make [\d,]+ changes?)$/u });
	}
}
