/** A person who asks for more than is taken at once: what they typed stays in the page, and is sent when there is room again. */
import { describe, expect, it } from 'vitest';
import { hasBrowser } from './browser.ts';
import { openOffice } from './office.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';

describe.skipIf(!hasBrowser)('more changes than are taken at once', () => {
	const opened = openOffice();

	it('are kept in the page, and sent when there is room', async () => {
		const { office } = opened;
		const vera = await office.join('Vera', ['estimator']);
		const { page, context } = vera;
		const jobs = new JobsPage(page);
		await jobs.open();
		await jobs.make('Saltmarsh, the tide store');
		const openings = new OpeningsPage(page);
		await openings.ready();
		await openings.addByKeyboard();
		await openings.type('T-1', 'Enter');
		await openings.saved();

		// The same person asks for so much elsewhere that nothing is left.
		const statuses = new Set<number>();
		let going = true;
		const ask = async (): Promise<void> => {
			while (going) {
				const headers = { origin: office.program.address, accept: 'application/json' };
				statuses.add((await context.request.post('/api/views', { data: {}, headers })).status());
			}
		};
		const asking = Promise.all(Array.from({ length: 24 }, ask));
		await expect.poll(() => statuses.has(429), { timeout: 60_000 }).toBe(true);
		const waits = openings.saving.getByText(/^Not stored by the server yet: \d+ changes? kept here$/u);
		let typed = 0;
		// One of them may slip through in between.
		while ((await waits.count()) === 0 && typed < 200) {
			await openings.goTo(0, 'location');
			await openings.type(`Bay ${++typed}`, 'Enter');
		}
		await waits.waitFor();
		await openings.goTo(0, 'location');
		await openings.type('The last one', 'Enter');
		going = false;
		await asking;
		await openings.saved();
		await openings.reload();
		expect(await openings.text(0, 'location')).toBe('The last one');
		expect(vera.troubles.filter((text) => !text.includes('429'))).toEqual([]);
		await context.close();
	});
});
