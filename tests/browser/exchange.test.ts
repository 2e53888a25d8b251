/** Files in and out: a schedule, the workbook, the material list, a packing list. Fixtures are invented. */
import { readFile } from 'node:fs/promises';
import type { Download, Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { hasBrowser } from './browser.ts';
import { drive } from './driven.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { DeliveriesPage } from './pages/deliveries-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { ScheduleDialog } from './pages/schedule-dialog.ts';

async function bytesOf(download: Download): Promise<Buffer> {
	return readFile(await download.path());
}

async function downloads(page: Page, click: () => Promise<void>): Promise<Download> {
	const [download] = await Promise.all([page.waitForEvent('download'), click()]);
	return download;
}

describe.skipIf(!hasBrowser)('files in and out', () => {
	const driven = drive();

	it('brings in a schedule after a preview, as one edit', async () => {
		const { page, troubles } = driven.one;
		const jobs = new JobsPage(page);
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		await jobs.open();
		await jobs.make('Market hall, second look');
		await openings.ready();
		await schedule.open();
		await schedule.choose('fixtures/schedules/saltmarsh-pier.xlsx');
		expect(await schedule.field('F').inputValue()).toBe('openingWidth');
		// A heading can be corrected: without the column of widths no row has one.
		await schedule.assign('AK', '');
		await expect.poll(() => schedule.field('AK').inputValue()).toBe('');
		expect(await schedule.row(8).innerText()).toContain('left out');
		await schedule.bringIn.click();
		await page.getByText(/rows brought in/u).waitFor();
		expect(await openings.text(0, 'mark')).toBe('C-101');
		expect(await openings.text(0, 'openingWidth')).toBe(`10'-0"`);
		// 24 marks, 40 openings: the plan of the invented job.
		await page.getByLabel('Totals of the job').getByText('40', { exact: true }).waitFor();
		await openings.button('Undo').click();
		await page.getByRole('heading', { name: 'No openings yet' }).waitFor();
		await openings.button('Redo').click();
		await expect.poll(() => openings.text(0, 'mark')).toBe('C-101');
		expect(troubles).toEqual([]);
	});

	it('says which cell of a file cannot be read and why, and leaves it blank', async () => {
		const { page } = driven.one;
		const jobs = new JobsPage(page);
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		await jobs.open();
		await jobs.make('A width nobody can read');
		await openings.ready();
		await schedule.open();
		await schedule.choose('fixtures/schedules/small/unreadable-width.csv');
		await schedule.dialog
			.getByText('1 cell can’t be read and stay')
			.or(schedule.dialog.getByText(/1 cell can’t be read/u))
			.first()
			.waitFor();
		await schedule.dialog.getByRole('cell', { name: "10'-", exact: true }).first().waitFor();
	});

	it('refuses a picture called a workbook, and nothing is stored', async () => {
		const { page } = driven.one;
		const schedule = new ScheduleDialog(page);
		await schedule.dialog.getByRole('button', { name: 'Another file' }).click();
		await schedule.choose('fixtures/schedules/small/picture.xlsx');
		await schedule.dialog.getByText('Nothing was stored.').waitFor();
		await schedule.dialog.getByRole('button', { name: 'Close' }).click();
		await page.getByRole('heading', { name: 'No openings yet' }).waitFor();
	});

	it('shows a script in a file as text and does not run it', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		let dialogs = 0;
		page.on('dialog', (dialog) => {
			dialogs++;
			void dialog.dismiss();
		});
		await schedule.open();
		await schedule.choose('fixtures/schedules/small/script-name.csv');
		await schedule.dialog.getByText('<script>alert(1)</script>').first().waitFor();
		await schedule.bringIn.click();
		await expect.poll(() => openings.text(0, 'location')).toBe('<script>alert(1)</script>');
		expect(dialogs).toBe(0);
	});

	it('hands out the workbook and the material list', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		await openings.open('Saltmarsh Pier Market Hall');
		const workbook = await downloads(page, () => openings.takeOut('Takeoff workbook'));
		expect(workbook.suggestedFilename()).toMatch(/\.xlsx$/u);
		// A zip begins with PK (APPNOTE 4.3.7).
		expect((await bytesOf(workbook)).subarray(0, 2).toString('latin1')).toBe('PK');
		const list = await downloads(page, () => openings.takeOut('Material list'));
		expect(list.suggestedFilename()).toMatch(/\.csv$/u);
		expect((await bytesOf(list)).toString('utf8')).toContain('C-101.1');
	});

	it('holds a packing list against the material list, line by line', async () => {
		const { page, troubles } = driven.one;
		const openings = new OpeningsPage(page);
		await openings.open('Saltmarsh Pier Market Hall');
		await page.getByRole('link', { name: 'Deliveries' }).click();
		await page.getByRole('heading', { name: 'No packing list yet' }).waitFor();
		const deliveries = new DeliveriesPage(page);
		await deliveries.takeIn('fixtures/deliveries/saltmarsh-truck-1.xlsx');
		const line = (number: number) => deliveries.row('saltmarsh-truck-1.xlsx', number);
		// The list does not say what its sizes measure, and one of them is that of the opening: somebody says it.
		expect(await line(17).first().innerText()).toContain('Asked');
		await page.getByText(/; how it is read$/u).click();
		await page.getByLabel('Sizes of saltmarsh-truck-1.xlsx').selectOption({ label: 'the parts' });
		await expect.poll(() => line(17).first().innerText()).toContain('Wrong');
		// Expected states and their arithmetic stand in fixtures/deliveries/saltmarsh-truck-1.expected.json.
		for (const [number, state] of [
			[7, 'Exact'],
			[11, 'Short'],
			[13, 'Over'],
			[17, 'Wrong'],
			[18, 'Backordered'],
			[20, 'Damaged'],
			[22, 'Asked']
		] as const)
			expect(await line(number).first().innerText()).toContain(state);
		expect(await line(17).first().innerText()).toMatch(/length.*ordered.*shipped/iu);
		await page.getByRole('button', { name: 'Take out saltmarsh-truck-1.xlsx' }).click();
		await page.getByRole('button', { name: 'Put back saltmarsh-truck-1.xlsx' }).click();
		await page.getByRole('button', { name: 'Take out saltmarsh-truck-1.xlsx' }).waitFor();
		expect(troubles).toEqual([]);
	});

	it('refuses a packing list it cannot read, with the reason', async () => {
		const { page } = driven.one;
		await page.getByLabel('Take in a packing list').setInputFiles('fixtures/schedules/small/picture.xlsx');
		await page.getByText('Nothing was taken in.').waitFor();
	});
});
