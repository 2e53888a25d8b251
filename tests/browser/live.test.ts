/** Two people in one job: they see each other's edits and where they are, and nothing of what they do is lost. */
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { hasBrowser, picture, seriousFindings, type Person } from './browser.ts';
import { openOffice, type Newcomer } from './office.ts';
import { OpeningsPage } from './pages/openings-page.ts';

const job = 'Saltmarsh Pier Market Hall';

describe.skipIf(!hasBrowser)('two people in one job', () => {
	const opened = openOffice();

	async function sheetOf({ page }: Person): Promise<OpeningsPage> {
		const openings = new OpeningsPage(page);
		await openings.open(job);
		return openings;
	}

	async function together(): Promise<{ ada: Newcomer; ben: Newcomer; one: OpeningsPage; two: OpeningsPage }> {
		const ada = await opened.office.join('Ada', ['estimator']);
		const ben = await opened.office.join('Ben', ['estimator']);
		return { ada, ben, one: await sheetOf(ada), two: await sheetOf(ben) };
	}

	async function typeInto(openings: OpeningsPage, row: number, column: string, text: string): Promise<void> {
		await (await openings.cell(row, column)).click();
		await openings.type(text, 'Enter');
	}

	const alsoHere = (page: Page) => page.getByRole('list', { name: 'Also in this job' });
	const openPeople = (page: Page) => page.getByRole('button', { name: /^\d (?:person|people)$/u }).click();

	it('see each other’s edits, and where the other is and types', async () => {
		const { ada, ben, one, two } = await together();
		await typeInto(one, 0, 'location', 'Quay side');
		const typedAt = Date.now();
		await expect.poll(() => two.text(0, 'location'), { interval: 5 }).toBe('Quay side');
		console.log(`an edit is on the other's screen after ${Date.now() - typedAt} ms`);

		// The other's cell: a mark with the initials, and words for those who listen.
		await (await one.cell(2, 'location')).click();
		const there = await two.cell(2, 'location');
		await there.locator('[data-mark="AL"]').waitFor();
		expect(await there.getAttribute('aria-label')).toContain(`${ada.name} is here`);
		await ada.page.keyboard.type('Dry d');
		await there.locator('[data-mark="AL typing"]').waitFor();
		expect(await there.getAttribute('aria-label')).toContain(`${ada.name} is typing here`);

		await ben.page.getByRole('button', { name: '1 person' }).focus();
		await ben.page.keyboard.press('Enter');
		await alsoHere(ben.page)
			.getByText(`${ada.name}: Openings, Location of ${await one.text(2, 'mark')}, typing`)
			.waitFor();
		await picture(ben.page, 'live-typing');
		expect(await seriousFindings(ben.page)).toEqual([]);
		await ben.page.keyboard.press('Escape');
		expect(await alsoHere(ben.page).count()).toBe(0);

		// What is typed in is left alone, and the person is told.
		await typeInto(two, 2, 'location', 'Wet dock');
		await one.underCell.getByText('Wet dock was put here').waitFor();
		await ada.page.keyboard.press('Escape');
		await expect.poll(() => one.text(2, 'location')).toBe('Wet dock');

		// Rows that come, and the figures of a mark that was changed.
		const width = await two.text(3, 'openingWidth');
		await typeInto(one, 3, 'openingWidth', `9' 7"`);
		await expect.poll(() => two.text(3, 'openingWidth')).not.toBe(width);

		await ada.page.getByRole('link', { name: 'Takeoff' }).click();
		await openPeople(ben.page);
		await alsoHere(ben.page).getByText(`${ada.name}: Takeoff`).waitFor();
		await ada.context.close();
		await expect.poll(() => ben.page.getByText('Also here').count()).toBe(0);
		expect([...ada.troubles, ...ben.troubles]).toEqual([]);
		await ben.context.close();
	});

	it('are told when the row they type in is removed, and of what they typed', async () => {
		const { ada, ben, one, two } = await together();
		const marks = await one.column('mark', 10);
		const at = 9;
		await (await one.cell(at, 'location')).click();
		await ada.page.keyboard.type('Half typ');
		await two.goTo(at, 'location');
		await two.button('Delete').click();
		await ada.page
			.getByText(`${marks[at] ?? ''} was removed meanwhile. Not kept: “Half typ”, typed as Location of it.`)
			.waitFor();
		// What is typed on goes into no other row.
		await ada.page.keyboard.type('ed');
		await ada.page.keyboard.press('Enter');
		await two.button('Undo').click();
		await expect.poll(() => one.column('mark', 10)).toEqual(marks);
		await one.saved();
		for (const row of [at - 1, at, at + 1])
			expect(await one.text(row, 'location')).not.toMatch(/^(?:Half typ)?ed$/u);
		await Promise.all([ada.context.close(), ben.context.close()]);
	});

	it('are asked with both values, and whose it is, where they meet', async () => {
		const { ada, ben, one, two } = await together();
		// Ben does not hear of it in time.
		await ben.page.route('**/events?*', (route) => route.abort());
		await two.reload();
		await ben.page.getByText('Others’ changes are not shown until the connection is back').waitFor();
		await typeInto(one, 4, 'location', 'Ada was here');
		await one.saved();
		await typeInto(two, 4, 'location', 'Ben was here');
		const dialog = ben.page.getByRole('dialog', { name: 'Someone else changed this meanwhile' });
		for (const name of ['Ada was here', 'Ben was here', new RegExp(`^${ada.name}, `, 'u')])
			await dialog.getByRole('cell', { name }).waitFor();
		await picture(ben.page, 'live-conflict');
		await dialog.getByRole('button', { name: 'Keep mine' }).click();
		await two.saved();
		await expect.poll(() => one.text(4, 'location')).toBe('Ben was here');

		// Undo takes back one's own only: where another's value stands now it says whose.
		await one.page.keyboard.press('Control+z');
		await ada.page
			.getByText(
				`Location of ${await one.text(4, 'mark')} was changed since: it is Ben was here now, by ${ben.name}.`
			)
			.waitFor();
		expect(await one.text(4, 'location')).toBe('Ben was here');
		await Promise.all([ada.context.close(), ben.context.close()]);
	});

	it('keep what they type without a connection, and it is sent once when it is back', async () => {
		const { ada, ben, one, two } = await together();
		await ada.context.setOffline(true);
		await typeInto(one, 5, 'location', 'Offline one');
		await typeInto(one, 6, 'location', 'Offline two');
		await typeInto(one, 7, 'location', 'Offline three');
		await one.saving.getByText('No connection: 3 changes kept here').waitFor();
		await ada.context.setOffline(false);
		await one.saved();
		for (const [row, text] of [
			[5, 'Offline one'],
			[6, 'Offline two'],
			[7, 'Offline three']
		] as const)
			await expect.poll(() => two.text(row, 'location')).toBe(text);

		// The server breaks down and comes back: both go on.
		await opened.office.program.kill();
		await ada.page.getByText('Others’ changes are not shown until the connection is back').waitFor();
		await typeInto(one, 5, 'phase', '77');
		await one.saving.getByText('No connection: 1 change kept here').waitFor();
		await opened.office.program.startAgain();
		await one.saving.getByText(/^(?:Back: all|All) saved$/u).waitFor();
		await expect.poll(() => two.text(5, 'phase'), { timeout: 30_000 }).toBe('77');
		const history = await ada.context.request.get(
			`${ada.page.url().replace('/jobs/', '/api/jobs/').replace('/openings', '')}/history`
		);
		const times = (await history.text()).split('Phase of C-106').length - 1;
		expect(times).toBeLessThanOrEqual(2);
		await Promise.all([ada.context.close(), ben.context.close()]);
	});

	it('find what a closed page had not sent sent by the next one, in order; nobody else does', async () => {
		const ada = await opened.office.join('Ada', ['estimator']);
		const ben = await opened.office.join('Ben', ['estimator']);
		const one = await sheetOf(ada);
		const { context } = ada;
		await context.route('**/edits', (route) => route.abort());
		for (const text of ['First', 'Second', 'Third']) await typeInto(one, 8, 'location', text);
		await one.saving.getByText('No connection: 3 changes kept here').waitFor();
		// As when the browser is ended: nobody is asked.
		await ada.page.close();
		await context.unroute('**/edits');

		// Somebody else signs in on this machine: they neither see nor send it.
		await context.clearCookies();
		const bens: Person = { ...ben, context, page: await context.newPage() };
		await opened.office.signIn(bens, ben.email);
		const theirs = await sheetOf(bens);
		await theirs.saved();
		const before = await theirs.text(8, 'location');
		expect(before).not.toBe('Third');
		await bens.page.close();

		await context.clearCookies();
		const again: Person = { ...ada, page: await context.newPage() };
		await opened.office.signIn(again, ada.email);
		const next = await sheetOf(again);
		await next.saved();
		await expect.poll(() => next.text(8, 'location')).toBe('Third');
		const two = await sheetOf(ben);
		await expect.poll(() => two.text(8, 'location')).toBe('Third');
		await Promise.all([context.close(), ben.context.close()]);
	});

	it('keep what they type when they are signed out, and go on when they have signed in again', async () => {
		const { ada, ben, one, two } = await together();
		const cookies = await ada.context.cookies();
		await ada.context.clearCookies();
		await typeInto(one, 9, 'location', 'After the session');
		await one.saving.getByText('Sign in again: 1 change is kept here').waitFor();
		// Somebody else signs in with the same browser: it is not sent as theirs.
		await opened.office.signIn(ada, ben.email);
		await new Promise((resolve) => setTimeout(resolve, 1500));
		await one.saving.getByText('Sign in again: 1 change is kept here').waitFor();
		expect(await two.text(9, 'location')).not.toBe('After the session');
		await ada.context.clearCookies();
		await ada.context.addCookies(cookies);
		await ada.page.getByText('Sign in again').waitFor({ state: 'hidden', timeout: 40_000 });
		await expect.poll(() => two.text(9, 'location')).toBe('After the session');
		await Promise.all([ada.context.close(), ben.context.close()]);
	});

	it('make an open sheet theirs who has signed in meanwhile: what they type is sent, and as theirs', async () => {
		const { ada, ben, one, two } = await together();
		// On another tab of the same browser.
		await opened.office.signIn(ada, ben.email);
		// The sheet hears of it when its session is looked at again, and the header names the other one.
		await ada.page.locator('header').getByRole('button', { name: ben.name }).waitFor({ timeout: 40_000 });
		await one.ready();
		await typeInto(one, 10, 'location', 'At the same desk');
		await expect.poll(() => two.text(10, 'location')).toBe('At the same desk');
		await one.saved();
		const history = await ben.context.request.get(
			ben.page
				.url()
				.replace('/jobs/', '/api/jobs/')
				.replace(/openings$/u, 'history')
		);
		expect(await history.text()).toMatch(
			new RegExp(`${ben.name}.{0,400}At the same desk|At the same desk.{0,400}${ben.name}`, 'u')
		);
		await Promise.all([ada.context.close(), ben.context.close()]);
	});

	it('are told at once of another name and other measures of the job', async () => {
		const { ada, ben, two } = await together();
		const path = ada.page.url().replace('/jobs/', '/api/jobs/').replace('/openings', '');
		const headers = { origin: opened.office.program.address };
		const change = async (data: unknown) => {
			expect((await ada.context.request.patch(path, { data, headers })).ok()).toBe(true);
		};
		await change({ name: 'Saltmarsh Pier, renamed', measures: 'metric' });
		await ben.page.getByText('Saltmarsh Pier, renamed').first().waitFor();
		await ben.page.getByText('Millimetres').waitFor();
		await two.ready();
		await expect.poll(() => two.text(0, 'openingWidth')).toMatch(/^\d+$|mm/u);
		await change({ name: job, measures: 'imperial' });
		await ben.page.getByText('Feet and inches').waitFor();
		await Promise.all([ada.context.close(), ben.context.close()]);
	});
});
