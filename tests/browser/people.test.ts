/** People in the pages: signing in and out, invitations, roles, and what is not offered to whom. */
import type { Locator, Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { company, openOffice, ownerEmail, ownerName, password } from './office.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { PeoplePage } from './pages/people-page.ts';
import { PersonMenu, SignInPage } from './pages/sign-in-page.ts';

const job = 'Saltmarsh Pier Market Hall';

const places = (page: Page): Locator => page.getByRole('navigation', { name: 'Places' });

/** Names of the places that are offered. */
const offeredPlaces = (page: Page): Promise<string[]> =>
	places(page)
		.getByRole('link')
		.allInnerTexts()
		.then((texts) => texts.map((text) => text.trim()));

const goTo = (page: Page, place: string): Promise<void> =>
	places(page).getByRole('link', { name: place, exact: true }).click();

/** Presses Tab until the focus is there, as someone without a mouse does. */
async function tabTo(page: Page, there: Locator): Promise<void> {
	await there.waitFor();
	for (let step = 0; step < 80; step++) {
		if (await there.evaluate((element) => element === document.activeElement)) return;
		await page.keyboard.press('Tab');
	}
	throw new Error('Tab never gets there');
}

describe.skipIf(!hasBrowser)('people', () => {
	const opened = openOffice();

	describe('signing in', () => {
		it('says at the field what is wrong, and then leads to where one wanted to be', async () => {
			const { page, context } = await opened.office.stranger();
			await page.goto('/people');
			const signIn = new SignInPage(page);
			await signIn.heading.waitFor();
			expect(new URL(page.url()).searchParams.get('to')).toBe('/people');

			await page.getByRole('button', { name: 'Sign in', exact: true }).click();
			await page.getByText('Type your e-mail address.').waitFor();
			expect(await signIn.email.evaluate((input) => input === document.activeElement)).toBe(true);

			await signIn.signIn(ownerEmail, 'not this one at all');
			await expect.poll(() => signIn.troubleOf(signIn.password)).not.toBe('');
			const forWrong = await signIn.troubleOf(signIn.password);
			expect(await signIn.password.getAttribute('aria-invalid')).toBe('true');
			// Whether there is such an account is not told.
			await signIn.signIn('nobody@tern-gannet.example', 'not this one at all');
			await page.waitForLoadState('networkidle');
			await expect.poll(() => signIn.troubleOf(signIn.password)).toBe(forWrong);

			await signIn.signIn(ownerEmail, password);
			await page.getByRole('heading', { name: `People of ${company}` }).waitFor();
			expect(await new PersonMenu(page, ownerName).button.isVisible()).toBe(true);
			await context.close();
		});

		it('leads to no other site, whatever the address asks for', async () => {
			const { page, context } = await opened.office.stranger();
			const signIn = new SignInPage(page);
			await signIn.open('//elsewhere.example/');
			await signIn.signIn(ownerEmail, password);
			await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
			expect(new URL(page.url()).origin).toBe(opened.office.program.address);
			await context.close();
		});

		it('helps a password keeper, and shows what was typed when asked', async () => {
			const { page, context } = await opened.office.stranger();
			const signIn = new SignInPage(page);
			await signIn.open();
			expect(await signIn.email.getAttribute('autocomplete')).toBe('username');
			expect(await signIn.password.getAttribute('autocomplete')).toBe('current-password');
			await signIn.password.fill('a b c');
			expect(await signIn.password.getAttribute('type')).toBe('password');
			await page.getByRole('button', { name: 'Show password' }).click();
			expect(await signIn.password.getAttribute('type')).toBe('text');
			expect(await signIn.password.inputValue()).toBe('a b c');
			await context.close();
		});
	});

	it('invites someone and lets them join, without a mouse', async () => {
		const { office } = opened;
		const owner = await office.stranger();
		await office.signIn(owner, ownerEmail);
		const people = new PeoplePage(owner.page);
		await people.open();
		await tabTo(owner.page, owner.page.getByLabel('Name', { exact: true }));
		await owner.page.keyboard.type('Runa Selwick');
		await owner.page.keyboard.press('Tab');
		await owner.page.keyboard.type('runa@tern-gannet.example');
		await tabTo(owner.page, owner.page.getByRole('checkbox', { name: /^Estimator Everything/u }));
		await owner.page.keyboard.press('Space');
		await tabTo(owner.page, owner.page.getByRole('button', { name: 'Make the link' }));
		await owner.page.keyboard.press('Enter');
		await people.link.waitFor();
		const link = await people.link.inputValue();
		expect(new URL(link).origin).toBe(office.program.address);
		// It is shown this once.
		await people.open();
		expect(await owner.page.content()).not.toContain(new URL(link).pathname);

		const runa = await office.stranger();
		await runa.page.goto(link);
		await runa.page.getByRole('heading', { name: `${company} invites you` }).waitFor();
		await runa.page.getByText('Everything of a job, prices included').waitFor();
		const chosen = runa.page.getByLabel('New password', { exact: true });
		expect(await chosen.getAttribute('autocomplete')).toBe('new-password');
		await runa.page.waitForLoadState('networkidle');
		await tabTo(runa.page, chosen);
		await runa.page.keyboard.type('too short');
		await runa.page.keyboard.press('Enter');
		await runa.page.getByText('This has 9 characters; at least 12 are needed.').waitFor();
		await chosen.press('Control+a');
		await runa.page.keyboard.type(password);
		await runa.page.keyboard.press('Enter');
		await new JobsPage(runa.page).job(job).waitFor();
		expect(await new PersonMenu(runa.page, 'Runa Selwick').button.isVisible()).toBe(true);

		const late = await office.stranger();
		await late.page.goto(link);
		await late.page.getByRole('heading', { name: 'This link can’t be used' }).waitFor();
		await Promise.all([owner, runa, late].map(({ context }) => context.close()));
	});

	it('says of a withdrawn invitation that it can’t be used', async () => {
		const { office } = opened;
		const path = await office.invite('Ebba Thorn', 'ebba@tern-gannet.example', ['installer']);
		const people = new PeoplePage(office.owner.page);
		await people.open();
		await office.owner.page.getByRole('button', { name: 'Withdraw the invitation of Ebba Thorn' }).click();
		await office.owner.page.getByText('its link opens nothing any more').waitFor();
		const { page, context } = await office.stranger();
		await page.goto(path);
		await page.getByRole('heading', { name: 'This link can’t be used' }).waitFor();
		await context.close();
	});

	it('lets a changed role count for someone who is signed in', async () => {
		const { office } = opened;
		const odo = await office.join('Odo', ['installer']);
		await new OpeningsPage(odo.page).open(job);
		expect(await offeredPlaces(odo.page)).not.toContain('Price');
		const people = new PeoplePage(office.owner.page);
		await people.open();
		await people.setRole(odo.name, 'Estimator', true);
		await goTo(odo.page, 'Takeoff');
		await odo.page.getByRole('heading', { name: 'Takeoff', exact: true }).waitFor();
		await expect.poll(() => offeredPlaces(odo.page)).toContain('Price');
		await goTo(odo.page, 'Openings');
		const openings = new OpeningsPage(odo.page);
		await openings.ready();
		await openings.button('Add opening').waitFor();

		// And back: the open sheet hears of it, and may no longer be changed.
		await people.setRole(odo.name, 'Estimator', false);
		await openings.button('Add opening').waitFor({ state: 'hidden', timeout: 40_000 });
		await expect.poll(() => offeredPlaces(odo.page)).not.toContain('Price');
		await odo.context.close();
	});

	it('puts someone out at once who is taken out of the company', async () => {
		const { office } = opened;
		const ines = await office.join('Ines', ['estimator']);
		await new OpeningsPage(ines.page).open(job);
		const people = new PeoplePage(office.owner.page);
		await people.open();
		await people.takeOut(ines.name);
		await goTo(ines.page, 'Takeoff');
		const signIn = new SignInPage(ines.page);
		await signIn.heading.waitFor();
		await signIn.signIn(ines.email, password);
		await expect.poll(() => signIn.troubleOf(signIn.password)).not.toBe('');
		await ines.context.close();
	});

	it('shows an installer no price, and openings only to look at', async () => {
		const { office } = opened;
		const piet = await office.join('Piet', ['installer']);
		const { page } = piet;
		const openings = new OpeningsPage(page);
		await openings.open(job);
		expect(await offeredPlaces(page)).not.toContain('Price');
		await page.getByText('You can look; the estimator changes openings.').waitFor();
		for (const tool of ['Add opening', 'Delete', 'Undo', 'Redo', 'Bring in'])
			expect(await openings.button(tool).count()).toBe(0);
		await openings.button('Take out').click();
		const files = await page.getByRole('menuitem').allInnerTexts();
		expect(files.join(' ')).toContain('Material list');
		expect(files.join(' ')).not.toMatch(/price|Takeoff workbook/iu);
		await page.keyboard.press('Escape');

		const before = await openings.text(0, 'openingWidth');
		await openings.goTo(0, 'openingWidth');
		for (const key of ['9', 'Enter', 'F2', 'Delete', 'Control+d', 'Control+z', 'Control+Enter'])
			await page.keyboard.press(key);
		await openings.goTo(0, 'openingWidth');
		await openings.paste('9\' 0"\n');
		expect(await openings.copied('cut')).toEqual({ text: '', html: '' });
		expect(await openings.grip.isVisible()).toBe(false);
		expect(await page.locator('.ag-cell input').count()).toBe(0);
		expect(await openings.text(0, 'openingWidth')).toBe(before);
		await openings.reload();
		expect(await openings.text(0, 'openingWidth')).toBe(before);

		await page.keyboard.press('Control+f');
		await page.getByLabel('Find', { exact: true }).waitFor();
		expect(await page.getByText('Replace').count()).toBe(0);

		const money = /[$€£]\s?\d|\bUSD\b|\bmargin\b|\bper hour\b/iu;
		expect(await page.locator('body').innerText()).not.toMatch(money);
		for (const place of await offeredPlaces(page)) {
			if (place === 'Shop book') continue;
			await goTo(page, place);
			await page.getByRole('heading', { name: place, exact: true }).first().waitFor();
			expect(await page.locator('body').innerText()).not.toMatch(money);
		}
		await goTo(page, 'Deliveries');
		await page.getByText('You can look; purchasing takes packing lists in.').waitFor();
		expect(await page.getByLabel('Take in a packing list').count()).toBe(0);
		const jobPath = new URL(page.url()).pathname.replace(/\/deliveries$/u, '');
		await page.goto(`${jobPath}/price`);
		await page.getByRole('heading', { name: 'This is not for you to see' }).waitFor();
		await page.goto('/shop-book');
		await page.getByRole('heading', { name: 'Shop book' }).waitFor();
		expect(await page.getByRole('link', { name: 'Prices' }).count()).toBe(0);
		expect(await page.locator('body').innerText()).not.toMatch(/[$€£]\s?\d|\bUSD\b/u);
		await page.goto('/');
		await new JobsPage(page).job(job).waitFor();
		for (const button of ['Make a job', `Rename ${job}`, `Copy ${job}`, `Delete ${job}`])
			expect(await page.getByRole('button', { name: button }).count()).toBe(0);
		await piet.context.close();
	});

	it('shows an owner who does nothing else the names of jobs, and says so at a job', async () => {
		const { office } = opened;
		const bram = await office.join('Bram', ['owner']);
		const estimator = await office.join('Ada', ['estimator']);
		await new OpeningsPage(estimator.page).open(job);
		await bram.page.goto('/');
		await bram.page.getByText(job, { exact: true }).waitFor();
		expect(await new JobsPage(bram.page).job(job).count()).toBe(0);
		expect(await offeredPlaces(bram.page)).toEqual(['Jobs', 'Shop book', 'People']);
		await bram.page.goto(estimator.page.url());
		await bram.page.getByRole('heading', { name: 'This is not for you to see' }).waitFor();
		await bram.context.close();
		await estimator.context.close();
	});

	it('warns at signing out while changes are not saved, and sends them when one is back', async () => {
		const { office } = opened;
		const vera = await office.join('Vera', ['estimator']);
		const { page } = vera;
		const jobs = new JobsPage(page);
		await jobs.open();
		await jobs.make('Saltmarsh, the tide store');
		const openings = new OpeningsPage(page);
		await openings.ready();
		await page.route('**/edits', (route) => route.abort());
		await openings.addByKeyboard();
		const menu = new PersonMenu(page, vera.name);
		await menu.choose('Sign out');
		const dialog = page.getByRole('dialog', { name: '1 change is not saved yet' });
		await dialog.getByRole('button', { name: 'Stay signed in' }).click();
		await dialog.waitFor({ state: 'hidden' });
		expect(await menu.button.isVisible()).toBe(true);
		await menu.choose('Sign out');
		await dialog.getByRole('button', { name: 'Sign out all the same' }).click();
		const signIn = new SignInPage(page);
		await signIn.heading.waitFor();
		await page.goto('/');
		await signIn.heading.waitFor();

		await page.unroute('**/edits');
		await signIn.signIn(vera.email, password);
		await jobs.job('Saltmarsh, the tide store').click();
		await openings.ready();
		await openings.saved();
		await openings.row(0).waitFor();
		await openings.reload();
		await openings.row(0).waitFor();
		await vera.context.close();
	});

	it('lists where one is signed in, and ends the others', async () => {
		const { office } = opened;
		const here = await office.join('Tove', ['purchasing']);
		const there = await office.stranger();
		await office.signIn(there, here.email);
		await here.page.goto('/account');
		await here.page.getByText('this one').waitFor();
		await here.page.getByText('Orders, deliveries and what parts cost').waitFor();
		await here.page.waitForLoadState('networkidle');
		await here.page.getByRole('button', { name: 'Sign out everywhere but here' }).click();
		await here.page.getByText('You are signed in nowhere else.').waitFor();
		await there.page.goto('/');
		await new SignInPage(there.page).heading.waitFor();

		await here.page.getByLabel('Password now', { exact: true }).fill('something else entirely');
		await here.page.getByLabel('New password', { exact: true }).fill('eleven cormorants on one rope');
		await here.page.getByRole('button', { name: 'Change the password' }).click();
		const signIn = new SignInPage(here.page);
		await expect
			.poll(() => signIn.troubleOf(here.page.getByLabel('Password now', { exact: true })))
			.not.toBe('');
		await here.page.getByLabel('Password now', { exact: true }).fill(password);
		await here.page.getByRole('button', { name: 'Change the password' }).click();
		await here.page.getByText('The password is changed.').waitFor();
		await Promise.all([here, there].map(({ context }) => context.close()));
	});

	describe('pages', () => {
		const pages: readonly {
			readonly name: string;
			readonly signed: boolean;
			readonly open: (page: Page) => Promise<void>;
		}[] = [
			{
				name: 'sign-in',
				signed: false,
				open: async (page) => {
					await new SignInPage(page).open();
					await page.getByRole('button', { name: 'Sign in', exact: true }).click();
					await page.getByText('Type your password.').waitFor();
				}
			},
			{
				name: 'invitation',
				signed: false,
				open: async (page) => {
					const path = await opened.office.invite('Nils Arden', 'nils@tern-gannet.example', [
						'purchasing',
						'installer'
					]);
					await page.goto(path);
					await page.getByRole('heading', { name: `${company} invites you` }).waitFor();
				}
			},
			{
				name: 'invitation-void',
				signed: false,
				open: async (page) => {
					await page.goto(`/invitation/${'A'.repeat(43)}`);
					await page.getByRole('heading', { name: 'This link can’t be used' }).waitFor();
				}
			},
			{
				name: 'account',
				signed: true,
				open: async (page) => {
					await page.goto('/account');
					await page.getByText('this one').waitFor();
				}
			},
			{ name: 'people', signed: true, open: (page) => new PeoplePage(page).open() },
			{
				name: 'person-menu',
				signed: true,
				open: async (page) => {
					await new JobsPage(page).open();
					await new PersonMenu(page, ownerName).button.click();
					await page.getByRole('menuitem', { name: 'Sign out' }).waitFor();
				}
			},
			{ name: 'job-signed-in', signed: true, open: (page) => new OpeningsPage(page).open(job) }
		];

		for (const { name, signed, open } of pages)
			it(`${name}: fits, can be read in light and dark, and axe finds nothing serious`, async () => {
				const { office } = opened;
				for (const [width, dark] of [
					['wide', false],
					['wide', true],
					['laptop', false],
					['phone', false]
				] as const satisfies readonly (readonly [Width, boolean])[]) {
					const someone = await office.stranger({ width, dark });
					if (signed) {
						// The owner's own session: signing in again and again would be taken for guessing.
						await someone.context.addCookies(await office.owner.context.cookies());
					}
					await open(someone.page);
					await picture(
						someone.page,
						`${name}-${String(widths[width])}${dark ? '-dark' : ''}`,
						width === 'phone'
					);
					// A laptop shows the same as a wide screen; only the colours differ in the dark.
					if (width !== 'laptop')
						expect(await seriousFindings(someone.page, dark ? ['color-contrast'] : [])).toEqual([]);
					expect(await fitsWidth(someone.page)).toBe(true);
					await someone.context.close();
				}
			});
	});
});

describe.skipIf(!hasBrowser)('one person alone', () => {
	const driven = drive();

	it('meets nothing of accounts', async () => {
		const { page } = driven.one;
		for (const path of ['/sign-in', '/account', '/people']) {
			await page.goto(path);
			await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
			expect(new URL(page.url()).pathname).toBe('/');
		}
		expect(await offeredPlaces(page)).toEqual(['Jobs', 'Shop book', 'Suppliers']);
		expect(await page.getByText(/sign (in|out)|account|password|people/iu).count()).toBe(0);
		await new OpeningsPage(page).open(job);
		expect(await offeredPlaces(page)).toContain('Price');
		expect(
			await page
				.locator('header')
				.getByText(/sign (in|out)|account|password|people/iu)
				.count()
		).toBe(0);
		expect(driven.one.troubles).toEqual([]);
	});
});
