import type { Locator, Page } from 'playwright';
import type { InputId } from '../../../src/lib/takeoff/inputs.ts';

/** The preview of a schedule before it is brought in. */
export class ScheduleDialog {
	readonly dialog: Locator;

	constructor(page: Page) {
		this.dialog = page.getByRole('dialog', { name: 'Bring in a schedule' });
	}

	/** Chooses a file and waits for its preview or the reason why there is none. */
	async choose(path: string): Promise<void> {
		await this.dialog.getByLabel('Choose a schedule').setInputFiles(path);
		await this.dialog
			.getByText(/rows? will come in|Nothing was stored/u)
			.first()
			.waitFor();
	}

	/** Answers every open question with the choice of this title, where it has one. */
	async answer(choice: string): Promise<void> {
		await this.dialog.getByLabel(choice).check();
	}

	row(line: number): Locator {
		return this.dialog.getByRole('row', { name: new RegExp(`^${String(line)} `, 'u') });
	}

	/** The choice of what a column holds. */
	field(letter: string): Locator {
		return this.dialog.getByLabel(new RegExp(`^Column ${letter},`, 'u'));
	}

	async assign(letter: string, field: InputId | ''): Promise<void> {
		await this.field(letter).selectOption(field);
	}

	get bringIn(): Locator {
		return this.dialog.getByRole('button', { name: /^Bring in \d+ rows?$/u });
	}
}
