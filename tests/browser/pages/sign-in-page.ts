import type { Locator, Page } from 'playwright';

/** Signing in, and joining by the link of an invitation. */
export class SignInPage {
	readonly page: Page;

	constructor(page: Page) {
		this.page = page;
	}

	async open(to?: string): Promise<void> {
		await this.page.goto(to === undefined ? '/sign-in' : `/sign-in?to=${encodeURIComponent(to)}`);
		await this.heading.waitFor();
	}

	get heading(): Locator {
		return this.page.getByRole('heading', { name: 'Sign in', exact: true });
	}

	get email(): Locator {
		return this.page.getByLabel('E-mail', { exact: true });
	}

	get password(): Locator {
		return this.page.getByLabel('Password', { exact: true });
	}

	async signIn(email: string, password: string): Promise<void> {
		await this.email.fill(email);
		await this.password.fill(password);
		await this.page.getByRole('button', { name: 'Sign in', exact: true }).click();
	}

	/** What is said of a field that something is wrong with. */
	async troubleOf(field: Locator): Promise<string> {
		const ids = (await field.getAttribute('aria-describedby')) ?? '';
		const texts = await Promise.all(
			ids.split(' ').map((id) => this.page.locator(`[id="${id}"][role="alert"]`).allInnerTexts())
		);
		return texts.flat().join(' ');
	}
}

/** Who is signed in, as the header of every page has it. */
export class PersonMenu {
	readonly page: Page;
	readonly name: string;

	constructor(page: Page, name: string) {
		this.page = page;
		this.name = name;
	}

	get button(): Locator {
		return this.page.locator('header').getByRole('button', { name: this.name });
	}

	async choose(what: 'Your account' | 'People' | 'Sign out'): Promise<void> {
		await this.button.click();
		await this.page.getByRole('menuitem', { name: what }).click();
	}
}
