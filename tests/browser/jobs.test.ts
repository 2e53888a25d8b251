/** The list of jobs: made, renamed, copied, deleted and put back. */
import { describe, expect, it } from 'vitest';
import { hasBrowser } from './browser.ts';
import { drive } from './driven.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';

describe.skipIf(!hasBrowser)('jobs', () => {
	const driven = drive();

	it('shows the invented demo jobs and says that they are invented', async () => {
		const jobs = new JobsPage(driven.one.page);
		await jobs.open();
		await jobs.job('Saltmarsh Pier Market Hall').waitFor();
		await jobs.job('Kelpgate Ferry Terminal').waitFor();
		expect(await driven.one.page.getByText('invented example').count()).toBe(2);
	});

	it('copies, renames, deletes and puts back a job', async () => {
		const jobs = new JobsPage(driven.one.page);
		await jobs.open();
		await jobs.copy('Kelpgate Ferry Terminal', 'Kelpgate, second berth');
		await jobs.rename('Kelpgate, second berth', 'Kelpgate, third berth');
		await jobs.delete('Kelpgate, third berth');
		expect(await jobs.job('Kelpgate, third berth').count()).toBe(0);
		await jobs.putBack('Kelpgate, third berth');
		await jobs.job('Kelpgate, third berth').click();
		const openings = new OpeningsPage(driven.one.page);
		await openings.ready();
		// The metric job shows millimetres.
		expect(await openings.text(0, 'openingWidth')).toMatch(/^\d+ mm$/u);
		expect(driven.one.troubles).toEqual([]);
	});

	it('takes a script in a name as text', async () => {
		const jobs = new JobsPage(driven.one.page);
		let dialogs = 0;
		driven.one.page.on('dialog', (dialog) => {
			dialogs++;
			void dialog.dismiss();
		});
		const name = '<img src=x onerror=alert(1)><script>alert(2)</script>';
		await jobs.open();
		await jobs.make(name);
		await new OpeningsPage(driven.one.page).ready();
		await driven.one.page.locator('header').getByText(name, { exact: true }).waitFor();
		expect(await driven.one.page.title()).toContain(name);
		await jobs.open();
		await jobs.job(name).waitFor();
		expect(dialogs).toBe(0);
	});

	it('asks for a name', async () => {
		const jobs = new JobsPage(driven.one.page);
		await jobs.open();
		await driven.one.page.getByRole('button', { name: 'Make a job' }).click();
		await driven.one.page.getByRole('button', { name: 'Make the job' }).click();
		await driven.one.page.getByText('Give the job a name.').waitFor();
	});
});
