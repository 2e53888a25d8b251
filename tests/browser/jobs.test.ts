/** The list of jobs: made, renamed, copied, deleted and put back. */
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser, openBrowser, person, type Person } from './browser.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { Program } from './program.ts';

describe.skipIf(!hasBrowser)('jobs', () => {
	let program: Program;
	let browser: Browser;
	let one: Person;

	beforeAll(async () => {
		[program, browser] = await Promise.all([Program.start(), openBrowser()]);
		one = await person(browser, program.address);
	});

	afterAll(async () => {
		await browser.close();
		await program.close();
	});

	it('shows the invented demo jobs and says that they are invented', async () => {
		const jobs = new JobsPage(one.page);
		await jobs.open();
		await jobs.job('Saltmarsh Pier Market Hall').waitFor();
		await jobs.job('Kelpgate Ferry Terminal').waitFor();
		expect(await one.page.getByText('invented example').count()).toBe(2);
	});

	it('copies, renames, deletes and puts back a job', async () => {
		const jobs = new JobsPage(one.page);
		await jobs.open();
		await jobs.copy('Kelpgate Ferry Terminal', 'Kelpgate, second berth');
		await jobs.rename('Kelpgate, second berth', 'Kelpgate, third berth');
		await jobs.delete('Kelpgate, third berth');
		expect(await jobs.job('Kelpgate, third berth').count()).toBe(0);
		await jobs.putBack('Kelpgate, third berth');
		await jobs.job('Kelpgate, third berth').click();
		const openings = new OpeningsPage(one.page);
		await openings.ready();
		// The metric job shows millimetres.
		expect(await openings.text(0, 'openingWidth')).toMatch(/^\d+ mm$/u);
		expect(one.troubles).toEqual([]);
	});

	it('takes a script in a name as text', async () => {
		const jobs = new JobsPage(one.page);
		let dialogs = 0;
		one.page.on('dialog', (dialog) => {
			dialogs++;
			void dialog.dismiss();
		});
		const name = '<img src=x onerror=alert(1)><script>alert(2)</script>';
		await jobs.open();
		await jobs.make(name);
		await new OpeningsPage(one.page).ready();
		await one.page.locator('header').getByText(name, { exact: true }).waitFor();
		expect(await one.page.title()).toContain(name);
		await jobs.open();
		await jobs.job(name).waitFor();
		expect(dialogs).toBe(0);
	});

	it('asks for a name', async () => {
		const jobs = new JobsPage(one.page);
		await jobs.open();
		await one.page.getByRole('button', { name: 'Make a job' }).click();
		await one.page.getByRole('button', { name: 'Make the job' }).click();
		await one.page.getByText('Give the job a name.').waitFor();
	});
});
