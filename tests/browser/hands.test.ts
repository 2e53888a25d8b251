/**
 * The sheet in the hands of a person: selecting, copying, filling, moving, finding, and looking at it in other ways. The
 * rows are invented. The table that comes from a spreadsheet was written by LibreOffice (`fixtures/clipboard`).
 */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser, person, seriousFindings } from './browser.ts';
import { drive } from './driven.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';

/** Mark, quantity, location, phase, width, height. */
const rows = [
	`C-1\t2\tFish dock\t1\t10'\t8'`,
	`C-2\t1\tFish dock\t1\t11'\t8'`,
	`C-3\t3\tTicket hall\t2\t12-6.5\t9'`,
	`C-4\t1\tNorth aisle\t2\t9'\t7'`
];

describe.skipIf(!hasBrowser)('the sheet in the hands of a person', () => {
	const driven = drive();
	let page: Page;
	let openings: OpeningsPage;

	beforeAll(() => {
		({ page } = driven.one);
		openings = new OpeningsPage(page);
	});

	/** A job of its own with the rows above. */
	async function begin(name: string): Promise<void> {
		const jobs = new JobsPage(page);
		await jobs.open();
		await jobs.make(name);
		await openings.ready();
		await openings.fill(rows);
	}

	describe('selecting', () => {
		it('draws a rectangle by keys, mouse and Shift, and says what it is', async () => {
			await begin('Selecting');
			await openings.goTo(0, 'openingWidth');
			await page.keyboard.press('Shift+ArrowRight');
			await page.keyboard.press('Shift+ArrowDown');
			expect(await openings.selectedCells.count()).toBe(4);
			await openings.announced
				.getByText('4 cells selected, Opening width of C-1 to Opening height of C-2')
				.waitFor();
			// 10' + 11' + 8' + 8'
			await page.getByText(`37'-0"`).waitFor();

			await openings.select([1, 'quantity'], [3, 'phase']);
			expect(await openings.selectedCells.count()).toBe(9);
			await openings.drag(await openings.cell(0, 'quantity'), await openings.cell(2, 'location'));
			expect(await openings.selectedCells.count()).toBe(6);
			await page.keyboard.press('Escape');
			expect(await openings.selectedCells.count()).toBe(0);
		});

		it('takes whole rows by number, whole columns by heading, and all there is', async () => {
			await (await openings.cell(1, 'number')).click();
			await (await openings.cell(2, 'number')).click({ modifiers: ['Shift'] });
			await openings.announced.getByText(/cells selected, Mark of C-2 to .+ of C-3/u).waitFor();
			await openings.header('location').click();
			await openings.announced.getByText('4 cells selected, Location of C-1 to Location of C-4').waitFor();
			await openings.goTo(2, 'phase');
			await page.keyboard.press('Shift+Space');
			await openings.announced.getByText(/Mark of C-3 to .+ of C-3/u).waitFor();
			await page.keyboard.press('Control+Space');
			await page.keyboard.press('Control+a');
			await openings.announced.getByText(/Mark of C-1 to .+ of C-4/u).waitFor();
		});

		it('goes to the end of what is filled, and extends to it', async () => {
			await openings.goTo(0, 'location');
			await page.keyboard.press('Control+Shift+ArrowDown');
			await openings.announced.getByText('4 cells selected, Location of C-1 to Location of C-4').waitFor();
			await page.keyboard.press('Control+Home');
			await openings.focusedIs('mark');
			await page.keyboard.press('Control+ArrowDown');
			expect(await openings.row(3).locator('.ag-cell-focus').count()).toBe(1);
		});

		it('stays as it is when the sheet is scrolled away and back', async () => {
			await openings.select([0, 'quantity'], [1, 'phase']);
			const viewport = page.locator('.ag-body-horizontal-scroll-viewport');
			await viewport.evaluate((element) => (element.scrollLeft = 3000));
			await page.waitForTimeout(200);
			await viewport.evaluate((element) => (element.scrollLeft = 0));
			await expect.poll(() => openings.selectedCells.count()).toBe(6);
		});
	});

	describe('selecting in a long sheet', () => {
		it('scrolls while a selection is drawn over the lower edge, and back', async () => {
			await openings.open('Saltmarsh Pier Market Hall');
			const box = await page.locator('.grid').boundingBox();
			if (!box) throw new Error('the sheet is out of sight');
			await (await openings.cell(1, 'location')).hover();
			await page.mouse.down();
			const across = box.x + box.width / 2;
			await page.mouse.move(across, box.y + box.height - 6, { steps: 4 });
			const last = openings.row(24).locator('[role="gridcell"][aria-selected="true"]');
			await last.first().waitFor();
			await page.mouse.move(across, box.y + box.height / 2, { steps: 4 });
			await page.mouse.up();
			await openings.announced.getByText(/cells selected, .+ of C-101\.3 to /u).waitFor();
			await page.keyboard.press('Control+Home');
		});

		it('keeps a row that was filtered for its stop while that is being cleared', async () => {
			await page.getByRole('button', { name: 'Stops', exact: true }).click();
			const shown = await page.locator('.ag-grid-scrolling-rows .ag-row:not(.ag-row-pinned)').count();
			expect(shown).toBeGreaterThan(0);
			const mark = await openings.text(0, 'mark');
			await openings.goTo(0, 'location');
			await page.keyboard.type('Seen to');
			await page.keyboard.press('Enter');
			expect(await openings.text(0, 'mark')).toBe(mark);
			expect(await openings.text(0, 'location')).toBe('Seen to');
			await openings.saved();
			await page.keyboard.press('Control+z');
			await page.getByRole('button', { name: 'All', exact: true }).click();
			await expect.poll(() => openings.text(0, 'mark')).toBe('C-101');
			await openings.saved();
		});
	});

	describe('entry', () => {
		it('goes down by Enter, right by Tab, and by Enter under where the Tabs began', async () => {
			await begin('Entry');
			await openings.goTo(0, 'location');
			await page.keyboard.type('Quay');
			await page.keyboard.press('Tab');
			await page.keyboard.type('5');
			await page.keyboard.press('Enter');
			await openings.focusedIs('location');
			expect(await openings.row(1).locator('.ag-cell-focus').count()).toBe(1);
			expect(await openings.text(0, 'location')).toBe('Quay');
			expect(await openings.text(0, 'phase')).toBe('5');
			await page.keyboard.press('Shift+Enter');
			expect(await openings.row(0).locator('.ag-cell-focus').count()).toBe(1);
		});

		it('takes what was typed over by an arrow key, and leaves by Escape what stood there', async () => {
			await openings.goTo(1, 'location');
			await page.keyboard.type('Slip');
			await page.keyboard.press('ArrowDown');
			expect(await openings.text(1, 'location')).toBe('Slip');
			await page.keyboard.type('Nothing');
			await page.keyboard.press('Escape');
			expect(await openings.text(2, 'location')).toBe('Ticket hall');
		});

		it('shows what was typed beside what was understood', async () => {
			await openings.button('Taller rows').click();
			const cell = await openings.cell(2, 'openingWidth');
			expect((await cell.innerText()).split('\n')).toEqual([`12'-6 1/2"`, '12-6.5']);
			expect(await cell.getAttribute('aria-label')).toBe(`Opening width, C-3: 12'-6 1/2", typed 12-6.5`);
			await openings.button('Taller rows').click();
			expect(await openings.text(2, 'openingWidth')).toBe(`12'-6 1/2"`);
		});

		it('puts one entry into all selected cells', async () => {
			await openings.select([0, 'phase'], [3, 'phase']);
			await page.keyboard.type('7');
			await page.keyboard.press('Control+Enter');
			await expect.poll(() => openings.column('phase', 4)).toEqual(['7', '7', '7', '7']);
			await openings.saved();
			await page.keyboard.press('Control+z');
			await expect.poll(() => openings.column('phase', 4)).toEqual(['5', '1', '2', '2']);
		});

		it('says so when someone else changes the cell that is typed in', async () => {
			const other = await person(driven.browser, driven.program.address);
			const theirs = new OpeningsPage(other.page);
			await theirs.open('Entry');
			await openings.goTo(3, 'location');
			await page.keyboard.type('Mine');
			await theirs.goTo(3, 'location');
			await theirs.type('Theirs', 'Enter');
			await theirs.saved();
			// As when the tab comes into sight again.
			await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
			await openings.underCell.getByText('Meanwhile Theirs was put here').waitFor();
			await page.keyboard.press('Enter');
			await openings.underCell.getByText('Enter puts yours in its place').waitFor();
			await page.keyboard.press('Escape');
			expect(await openings.text(3, 'location')).toBe('Theirs');
			await other.context.close();
		});
	});

	describe('copying and pasting', () => {
		it('copies the selection in both forms, and pastes what it copied', async () => {
			await begin('Copying');
			await openings.select([0, 'mark'], [1, 'location']);
			const { text, html } = await openings.copied();
			// The count of checks between mark and quantity is no part of it.
			expect(text).toBe('C-1\t2\tFish dock\nC-2\t1\tFish dock\n');
			expect(html).toContain('<table>');
			await openings.select([2, 'openingWidth'], [2, 'openingWidth']);
			const width = await openings.copied();
			// As it was typed, with the unit that a bare number was understood in.
			expect(width.text).toBe('12-6.5"');
			await openings.goTo(3, 'openingWidth');
			await openings.paste(width.text, width.html);
			await expect.poll(() => openings.text(3, 'openingWidth')).toBe(`12'-6 1/2"`);
		});

		it('cuts by the keys of the browser, and pastes by them', async () => {
			await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
			await openings.select([0, 'location'], [1, 'phase']);
			await page.keyboard.press('Control+x');
			await expect.poll(() => openings.column('location', 2)).toEqual(['', '']);
			await openings.goTo(2, 'location');
			await page.keyboard.press('Control+v');
			await expect.poll(() => openings.column('location', 4)).toEqual(['', '', 'Fish dock', 'Fish dock']);
			expect(await openings.column('phase', 4)).toEqual(['', '', '1', '1']);
		});

		it('takes a table as LibreOffice writes it, without its hidden rows', async () => {
			const form = (name: string): string => readFileSync(`fixtures/clipboard/${name}`, 'utf8');
			await openings.goTo(0, 'location');
			await openings.paste(form('filtered.txt'), form('filtered.html'));
			await expect.poll(() => openings.column('location', 3)).toEqual(['Mark', 'G-1', 'G-3']);
			expect(await openings.column('phase', 3)).toEqual(['Level', 'Quay', 'Quay']);
			await openings.saved();
		});

		it('refuses single cells with the reason while the rest goes in, also a mark that is taken', async () => {
			await openings.goTo(3, 'mark');
			await openings.paste(`C-1\tmany\tSlip\nC-5\t2\tSlip\n`);
			const dialog = page.getByRole('dialog');
			await dialog.getByText('4 cells went in, 2 were refused').waitFor();
			await dialog.getByRole('row', { name: /Mark of C-4 C-1 C-1 stands in another row already/u }).waitFor();
			await dialog.getByRole('row', { name: /Quantity of C-4 many/u }).waitFor();
			await dialog.getByRole('button', { name: 'Close' }).click();
			expect(await openings.text(3, 'location')).toBe('Slip');
			expect(await openings.text(4, 'mark')).toBe('C-5');
			await openings.saved();
			await openings.reload();
			expect(await openings.column('mark', 5)).toEqual(['C-1', 'C-2', 'C-3', 'C-4', 'C-5']);
		});
	});

	describe('filling', () => {
		it('fills down and right', async () => {
			await begin('Filling');
			await openings.select([0, 'location'], [3, 'phase']);
			await page.keyboard.press('Control+d');
			await expect.poll(() => openings.column('location', 4)).toEqual(Array(4).fill('Fish dock'));
			expect(await openings.column('phase', 4)).toEqual(['1', '1', '1', '1']);
			await openings.select([0, 'openingWidth'], [0, 'openingHeight']);
			await page.keyboard.press('Control+r');
			await expect.poll(() => openings.text(0, 'openingHeight')).toBe(`10'-0"`);
		});

		it('fills a series by a first value and a step, shown before it goes in', async () => {
			await openings.select([0, 'openingWidth'], [3, 'openingWidth']);
			await page.keyboard.press('Control+Shift+d');
			const dialog = page.getByRole('dialog', { name: 'Series in Opening width' });
			await dialog.getByLabel('First').fill(`9'-6"`);
			await dialog.getByLabel('Step').fill('4');
			// 9'-6" + 4" each
			await dialog.getByText(`10'-2"`).waitFor();
			await dialog.getByRole('button', { name: 'Fill the series' }).click();
			await expect
				.poll(() => openings.column('openingWidth', 4))
				.toEqual([`9'-6"`, `9'-10"`, `10'-2"`, `10'-6"`]);
		});

		it('fills by the grip: the same again, and with Ctrl a series', async () => {
			await openings.goTo(0, 'phase');
			await page.keyboard.type('4');
			await page.keyboard.press('Enter');
			await openings.goTo(0, 'phase');
			await openings.drag(openings.grip, await openings.cell(3, 'phase'));
			await expect.poll(() => openings.column('phase', 4)).toEqual(['4', '4', '4', '4']);
			await openings.goTo(0, 'phase');
			await openings.drag(openings.grip, await openings.cell(3, 'phase'), { held: 'Control' });
			await expect.poll(() => openings.column('phase', 4)).toEqual(['4', '5', '6', '7']);
		});
	});

	describe('rows', () => {
		it('moves a mark with the rows of its openings, and stores it', async () => {
			await begin('Rows');
			await openings.goTo(2, 'mark');
			await page.keyboard.press('Control+Alt+Enter');
			await expect.poll(() => openings.text(3, 'mark')).toBe('C-3.1');
			await openings.goTo(2, 'mark');
			await page.keyboard.press('Alt+ArrowUp');
			await expect.poll(() => openings.column('mark', 5)).toEqual(['C-1', 'C-3', 'C-3.1', 'C-2', 'C-4']);
			await openings.goTo(0, 'mark');
			await page.keyboard.press('Alt+ArrowDown');
			await expect.poll(() => openings.column('mark', 5)).toEqual(['C-3', 'C-3.1', 'C-1', 'C-2', 'C-4']);
			await openings.saved();
			await openings.reload();
			expect(await openings.column('mark', 5)).toEqual(['C-3', 'C-3.1', 'C-1', 'C-2', 'C-4']);
		});

		it('copies a mark with its openings under the next free one', async () => {
			await openings.goTo(0, 'mark');
			await page.keyboard.press('Control+Shift+Enter');
			await expect
				.poll(() => openings.column('mark', 7))
				.toEqual(['C-3', 'C-3.1', 'C-5', 'C-5.1', 'C-1', 'C-2', 'C-4']);
			expect(await openings.text(2, 'openingWidth')).toBe(`12'-6 1/2"`);
			expect(await openings.text(2, 'quantity')).toBe('3');
		});

		it('inserts as many rows as are selected, and deletes them again', async () => {
			await (await openings.cell(4, 'number')).click();
			await (await openings.cell(5, 'number')).click({ modifiers: ['Shift'] });
			await page.keyboard.press('Alt+Shift+Enter');
			await expect
				.poll(() => openings.column('mark', 9))
				.toEqual(['C-3', 'C-3.1', 'C-5', 'C-5.1', 'needed', 'needed', 'C-1', 'C-2', 'C-4']);
			await (await openings.cell(4, 'number')).click();
			await (await openings.cell(5, 'number')).click({ modifiers: ['Shift'] });
			await page.keyboard.press('Control+Delete');
			await expect
				.poll(() => openings.column('mark', 7))
				.toEqual(['C-3', 'C-3.1', 'C-5', 'C-5.1', 'C-1', 'C-2', 'C-4']);
			await openings.saved();
		});
	});

	describe('looking', () => {
		it('sorts and filters what is shown, and never what is stored', async () => {
			await begin('Looking');
			await openings.goTo(0, 'openingWidth');
			await page.keyboard.press('F8');
			await expect.poll(() => openings.column('mark', 4)).toEqual(['C-4', 'C-1', 'C-2', 'C-3']);
			await page.keyboard.press('F8');
			await expect.poll(() => openings.column('mark', 4)).toEqual(['C-3', 'C-2', 'C-1', 'C-4']);
			await page.keyboard.press('Alt+ArrowDown');
			await page.getByText('Not moved: rows are sorted by Opening width').waitFor();
			await openings.goTo(2, 'location');
			await page.keyboard.press('F9');
			await openings.announced.getByText('2 of 4 rows shown').waitFor();
			expect(await openings.column('mark', 2)).toEqual(['C-2', 'C-1']);
			// A paste adds no rows now, and says what it left out.
			await openings.goTo(1, 'phase');
			await openings.paste('8\n9\n');
			await page.getByText('1 cell fell beyond the last column or row: left out.').waitFor();
			await page.keyboard.press('Shift+F9');
			await openings.goTo(0, 'openingWidth');
			await page.keyboard.press('F8');
			await expect.poll(() => openings.column('mark', 4)).toEqual(['C-1', 'C-2', 'C-3', 'C-4']);
			await openings.saved();
			await openings.reload();
			expect(await openings.column('mark', 4)).toEqual(['C-1', 'C-2', 'C-3', 'C-4']);
			expect(await openings.column('phase', 4)).toEqual(['8', '1', '2', '2']);
		});

		it('shows a column that is usually left out while a row holds something in it, and the focus is elsewhere', async () => {
			await openings.goTo(0, 'mark');
			await page.keyboard.press('Control+Alt+Enter');
			await openings.header('openingNumber').waitFor();
			expect(await openings.column('mark', 2)).toEqual(['C-1', 'C-1.1']);
			await openings.goTo(1, 'openingNumber');
			await openings.saved();
			await page.keyboard.press('Control+z');
			await expect.poll(() => openings.column('mark', 2)).toEqual(['C-1', 'C-2']);
			// Not from under the focus, however long that rests.
			await page.waitForTimeout(700);
			expect(await openings.header('openingNumber').count()).toBe(1);
			await page.keyboard.press('ArrowRight');
			await openings.header('openingNumber').waitFor({ state: 'detached' });
			await openings.focusedIs('quantity');
			expect(await page.locator('.ag-cell-focus:focus').count()).toBe(1);
		});

		it('folds, hides, moves and widens columns, and remembers it', async () => {
			await openings.group('Size').click();
			await openings.header('openingHeight').waitFor({ state: 'detached' });
			expect(await openings.group('Size').innerText()).toMatch(/\d folded/u);
			await openings.goTo(0, 'phase');
			await page.keyboard.press('Alt+Shift+ArrowLeft');
			await page.keyboard.press('Alt+ArrowRight');
			await page.keyboard.press('Alt+ArrowRight');
			await openings.goTo(0, 'location');
			await page.keyboard.press('Shift+F4');
			await openings.header('location').waitFor({ state: 'detached' });
			await openings.goTo(0, 'quantity');
			await page.keyboard.press('Shift+F8');
			const before = await openings.headings();
			expect(before.slice(0, 6)).toEqual(['Row', 'Mark', 'Checks', 'Quantity', 'Phase', 'Opening width']);
			const width = (await openings.header('phase').boundingBox())?.width;
			// 112 px as they come, and two steps of 12.
			expect(width).toBe(136);
			await page.waitForTimeout(900);
			await openings.reload();
			await expect.poll(() => openings.headings()).toEqual(before);
			expect((await openings.header('phase').boundingBox())?.width).toBe(136);
			await openings.group('Size').click();
			await openings.header('openingHeight').waitFor();
		});

		it('lets a heading be drawn to another place', async () => {
			await openings.drag(openings.header('openingHeight'), openings.header('phase'), { across: 0.2 });
			await expect
				.poll(async () => (await openings.headings()).slice(0, 7))
				.toEqual(['Row', 'Mark', 'Checks', 'Quantity', 'Opening height', 'Phase', 'Opening width']);
		});
	});

	describe('finding and replacing', () => {
		it('counts what it finds, goes from one to the next, and replaces', async () => {
			await begin('Finding');
			await openings.goTo(0, 'mark');
			await page.keyboard.press('Control+f');
			const bar = page.getByRole('search', { name: 'Find in the sheet' });
			await bar.getByLabel('Find', { exact: true }).fill('fish');
			await bar.getByText('1 of 2').waitFor();
			await page.keyboard.press('Enter');
			await bar.getByText('2 of 2').waitFor();
			await bar.getByLabel('Replace with').fill('Oyster');
			await bar.getByRole('button', { name: 'Replace all' }).click();
			await expect.poll(() => openings.column('location', 2)).toEqual(['Oyster dock', 'Oyster dock']);
			await bar.getByText('Not found').waitFor();
			expect(await seriousFindings(page)).toEqual([]);
			await bar.getByLabel('Find', { exact: true }).focus();
			await page.keyboard.press('Escape');
			await bar.waitFor({ state: 'detached' });
			await expect.poll(() => page.locator('.ag-cell-focus:focus').count()).toBe(1);
			await openings.saved();
			await page.keyboard.press('Control+z');
			await expect.poll(() => openings.column('location', 2)).toEqual(['Fish dock', 'Fish dock']);
		});
	});

	describe('without a mouse', () => {
		it('shows its keys, leads out of the sheet, and passes axe with a selection', async () => {
			await openings.goTo(0, 'phase');
			await page.keyboard.press('Shift+ArrowDown');
			expect(await seriousFindings(page)).toEqual([]);
			await page.keyboard.press('F1');
			const dialog = page.getByRole('dialog', { name: 'Keys of the sheet' });
			await dialog.getByText('Copy the row as the next free mark').waitFor();
			expect(await seriousFindings(page)).toEqual([]);
			await dialog.getByRole('button', { name: 'Close' }).click();
			await openings.goTo(0, 'phase');
			await page.keyboard.press('F6');
			expect(await page.locator('.grid :focus').count()).toBe(0);
		});

		it('folds and selects columns from their headings', async () => {
			await openings.goTo(0, 'quantity');
			await page.keyboard.press('ArrowUp');
			await page.keyboard.press('Enter');
			await openings.announced.getByText('4 cells selected, Quantity of C-1 to Quantity of C-4').waitFor();
			await page.keyboard.press('ArrowUp');
			await page.keyboard.press('Enter');
			await openings.header('location').waitFor({ state: 'detached' });
			await page.keyboard.press('Enter');
			await openings.header('location').waitFor();
		});
	});

	it('complained of nothing', () => {
		expect(driven.one.troubles).toEqual([]);
	});
});
