/** What becomes of an edit when two people change the same cell, and when the server is gone. */
import { describe, expect, it } from 'vitest';
import { hasBrowser, person } from './browser.ts';
import { drive } from './driven.ts';
import { OpeningsPage } from './pages/openings-page.ts';

const job = 'Saltmarsh Pier Market Hall';

describe.skipIf(!hasBrowser)('saving', () => {
	const driven = drive();

	async function typeInto(openings: OpeningsPage, row: number, column: string, text: string): Promise<void> {
		await (await openings.cell(row, column)).click();
		await openings.type(text, 'Enter');
	}

	it('shows both values of a conflict and keeps the one that is chosen', async () => {
		const [first, second] = await Promise.all([
			person(driven.browser, driven.program.address),
			person(driven.browser, driven.program.address)
		]);
		const one = new OpeningsPage(first.page);
		const two = new OpeningsPage(second.page);
		// Nothing is told of others here: what they did is met only when it is gone over.
		await second.page.route('**/events?*', (route) => route.abort());
		await Promise.all([one.open(job), two.open(job)]);
		await typeInto(one, 0, 'location', 'North aisle');
		await one.saved();

		await typeInto(two, 0, 'location', 'South aisle');
		const dialog = second.page.getByRole('dialog', { name: 'Someone else changed this meanwhile' });
		await dialog.getByRole('cell', { name: 'South aisle' }).waitFor();
		await dialog.getByRole('cell', { name: 'North aisle' }).waitFor();
		await dialog.getByRole('cell', { name: 'Location of C-101' }).waitFor();
		await dialog.getByRole('button', { name: 'Take theirs' }).click();
		await two.saved();
		await expect.poll(() => two.text(0, 'location')).toBe('North aisle');

		await first.page.route('**/events?*', (route) => route.abort());
		await one.reload();
		await typeInto(two, 0, 'phase', '7');
		await two.saved();
		await typeInto(one, 0, 'phase', '8');
		const other = first.page.getByRole('dialog', { name: 'Someone else changed this meanwhile' });
		await other.getByRole('button', { name: 'Keep mine' }).click();
		await one.saved();
		await one.reload();
		expect(await one.text(0, 'phase')).toBe('8');
		await Promise.all([first.context.close(), second.context.close()]);
	});

	it('says that a row was removed by someone else, and goes on when what was typed is let go', async () => {
		const [first, second] = await Promise.all([
			person(driven.browser, driven.program.address),
			person(driven.browser, driven.program.address)
		]);
		const one = new OpeningsPage(first.page);
		const two = new OpeningsPage(second.page);
		// Nothing is told of others here: what they did is met only when it is gone over.
		await second.page.route('**/events?*', (route) => route.abort());
		await Promise.all([one.open(job), two.open(job)]);
		const mark = await one.text(6, 'mark');
		await (await one.cell(6, 'mark')).click();
		await one.page.keyboard.press('Control+Delete');
		await one.saved();

		await typeInto(two, 6, 'location', 'Typed too late');
		const dialog = second.page.getByRole('dialog', { name: 'Someone else changed this meanwhile' });
		await dialog.getByRole('cell', { name: `Location of ${mark}` }).waitFor();
		await dialog.getByRole('cell', { name: 'Typed too late' }).waitFor();
		await dialog.getByRole('cell', { name: 'row removed' }).waitFor();
		expect(await dialog.getByRole('button', { name: 'Keep mine' }).count()).toBe(0);
		await dialog.getByRole('button', { name: 'Let it go' }).click();
		await two.saved();
		await one.page.keyboard.press('Control+z');
		await one.saved();
		await Promise.all([first.context.close(), second.context.close()]);
	});

	it('keeps what was saved when the server is killed, and sends the rest when it is back', async () => {
		const { page, context } = await person(driven.browser, driven.program.address);
		const openings = new OpeningsPage(page);
		await openings.open(job);
		await typeInto(openings, 1, 'location', 'Saved before the cut');
		await openings.saved();
		await driven.program.kill();

		await typeInto(openings, 2, 'location', 'Typed without a server');
		await openings.saving.getByText('No connection: 1 change kept here').waitFor();
		await typeInto(openings, 3, 'location', 'Typed without a server, too');
		// The results go on by themselves.
		expect(await openings.text(3, 'location')).toBe('Typed without a server, too');

		await driven.program.startAgain();
		await openings.saved();
		await openings.reload();
		expect(await openings.text(1, 'location')).toBe('Saved before the cut');
		expect(await openings.text(2, 'location')).toBe('Typed without a server');
		expect(await openings.text(3, 'location')).toBe('Typed without a server, too');
		await context.close();
	});

	it('asks before it is left with unsaved edits, and a reload sends them', async () => {
		const { page, context } = await person(driven.browser, driven.program.address);
		const openings = new OpeningsPage(page);
		await openings.open(job);
		// The server is reached again only after the reload.
		await page.route('**/edits', (route) => route.abort());
		await typeInto(openings, 4, 'location', 'Sent after a reload');
		await openings.saving.getByText('No connection: 1 change kept here').waitFor();
		const asked = new Promise<string>((resolve) => {
			page.once('dialog', (dialog) => {
				resolve(dialog.type());
				void dialog.accept();
			});
		});
		await page.unroute('**/edits');
		await page.route('**/edits', (route) => route.abort());
		const reloaded = page.reload();
		expect(await asked).toBe('beforeunload');
		await page.unroute('**/edits');
		await reloaded;
		await openings.ready();
		await openings.saved();
		expect(await openings.text(4, 'location')).toBe('Sent after a reload');
		await context.close();
		const other = await person(driven.browser, driven.program.address);
		const again = new OpeningsPage(other.page);
		await again.open(job);
		expect(await again.text(4, 'location')).toBe('Sent after a reload');
		await other.context.close();
	});

	it('puts the stored value back when the server refuses, with its reason', async () => {
		const { page, context } = await person(driven.browser, driven.program.address);
		const openings = new OpeningsPage(page);
		await openings.open(job);
		const before = await openings.text(5, 'mark');
		await typeInto(openings, 5, 'mark', 'C-101');
		await page.getByText('Not done.').waitFor();
		await expect.poll(() => openings.text(5, 'mark')).toBe(before);
		await openings.saved();
		await context.close();
	});
});
