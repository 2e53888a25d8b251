/** What a person chooses to see of the sheet: any quantity, some of the rows, and both under a name. */
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { hasBrowser, person, picture, seriousFindings } from './browser.ts';
import { drive } from './driven.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { ViewPanels } from './pages/view-panels.ts';

const pier = 'Saltmarsh Pier Market Hall';

describe.skipIf(!hasBrowser)('what to see of the sheet', () => {
	const driven = drive();

	async function sheetOf(page: Page): Promise<{ openings: OpeningsPage; panels: ViewPanels }> {
		const openings = new OpeningsPage(page);
		await openings.open(pier);
		return { openings, panels: new ViewPanels(page) };
	}

	/** Waits until the sheet has a column, or has it no more, wherever it is scrolled to. */
	const shows = (openings: OpeningsPage, column: string, there: boolean): Promise<void> =>
		expect
			.poll(async () => (await (await openings.cell(0, column)).count()) > 0, { timeout: 20_000 })
			.toBe(there);

	/** Waits until the server has the view as it is. */
	const remembered = async (openings: OpeningsPage, change: () => Promise<unknown>): Promise<void> => {
		const kept = openings.page.waitForResponse(
			(response) => response.request().method() === 'PUT' && response.url().endsWith('/view')
		);
		await change();
		expect((await kept).status()).toBe(200);
	};

	it('takes any quantity of the rule book as a column, found by its words', async () => {
		const { page, troubles } = driven.one;
		const { openings, panels } = await sheetOf(page);
		await shows(openings, 'liftingIndex', false);
		await panels.open('Columns');
		// Nothing is unfolded: one box, for the column that is chosen in the list.
		expect(await panels.dialog.getByRole('checkbox').count()).toBe(1);
		await picture(page, 'columns');
		await remembered(openings, () => panels.turnColumn('lifting index', 'Lifting index', true));
		await panels.shownColumns.getByText('Lifting index').waitFor();
		expect(await seriousFindings(page)).toEqual([]);
		await picture(page, 'columns-found');
		await panels.close();
		await shows(openings, 'liftingIndex', true);
		expect(troubles).toEqual([]);
	});

	it('is arranged by keys', async () => {
		const { page } = driven.one;
		const panels = new ViewPanels(page);
		await panels.open('Columns');
		const names = (): Promise<string[]> => panels.shownColumns.getByRole('option').allInnerTexts();
		const first = (text: string | undefined): string => text?.split('\n')[0]?.trim() ?? '';
		const before = (await names()).map(first);
		expect(before[0]).toBe('Checks');
		await panels.shownColumns.focus();
		for (const key of ['Home', 'ArrowDown', 'ArrowDown', 'Alt+ArrowUp']) await page.keyboard.press(key);
		await expect.poll(async () => (await names()).map(first).slice(1, 3)).toEqual([before[2], before[1]]);
		// It stays chosen where it went, and cannot pass what stays in place.
		expect(await panels.dialog.getByRole('button', { name: 'Up', exact: true }).isDisabled()).toBe(true);
		await page.keyboard.press('Alt+ArrowDown');
		await expect.poll(async () => (await names()).map(first)).toEqual(before);
		await panels.dialog.getByRole('checkbox', { name: 'Stays in place' }).check();
		await expect.poll(async () => (await names()).map(first)[1]).toBe(before[2]);
		await panels.dialog.getByRole('checkbox', { name: 'Stays in place' }).uncheck();
		await expect.poll(async () => (await names()).map(first)).toEqual(before);
		await panels.close();
	});

	it('is there again after a reload, and in another browser', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		const panels = new ViewPanels(page);
		await panels.open('Views');
		await panels.save('Lifting');
		await panels.saved('Lifting').waitFor();
		await panels.use('Weights');
		await shows(openings, 'liftingIndex', false);
		await panels.open('Views');
		await remembered(openings, () => panels.use('Lifting'));
		await shows(openings, 'liftingIndex', true);
		await openings.reload();
		await shows(openings, 'liftingIndex', true);

		const other = await person(driven.browser, driven.program.address);
		const theirs = await sheetOf(other.page);
		await shows(theirs.openings, 'liftingIndex', true);
		await theirs.panels.open('Views');
		await theirs.panels.saved('Lifting').waitFor();
		expect(await seriousFindings(other.page)).toEqual([]);
		await picture(other.page, 'views');
		await other.context.close();
	});

	it('is saved over another view only after a question; renamed, deleted and brought back', async () => {
		const { page } = driven.one;
		const panels = new ViewPanels(page);
		await panels.open('Views');
		await panels.save('LIFTING');
		await panels.dialog.getByText('Lifting is there already.').waitFor();
		await panels.dialog.getByRole('button', { name: 'Replace it' }).click();
		await panels.saved('LIFTING').waitFor();
		await panels.dialog.getByRole('button', { name: 'Bring it back' }).click();
		await panels.dialog.getByText('Lifting is as it was.').waitFor();

		await panels.saved('Lifting').getByRole('button', { name: 'Rename Lifting' }).click();
		await panels.dialog.getByRole('textbox', { name: 'New name of Lifting' }).fill('By hand 50% / lift.');
		await page.keyboard.press('Enter');
		await panels.saved('By hand 50% / lift.').waitFor();
		await panels
			.saved('By hand')
			.getByRole('button', { name: /^Delete/u })
			.click();
		await panels.dialog.getByText('None yet.').waitFor();
		// The focus stands on what takes it back.
		await page.keyboard.press('Enter');
		await panels.saved('By hand 50% / lift.').waitFor();
		await panels.close();
	});

	it('shows only the openings with a stop, and all of them again', async () => {
		const { page, troubles } = driven.one;
		const openings = new OpeningsPage(page);
		const panels = new ViewPanels(page);
		const all = await panels.rowCount();
		expect(all).toMatch(/^\d+ rows$/u);
		await panels.rowsBy('Stops');
		await expect.poll(() => panels.rowCount()).toMatch(new RegExp(`^\\d+ of ${all} shown$`, 'u'));
		const shown = Number((await panels.rowCount()).split(' ')[0]);
		expect(shown).toBeGreaterThan(0);
		expect(shown).toBeLessThan(Number(all.split(' ')[0]));
		for (let row = 0; row < Math.min(shown, 8); row++)
			expect(await openings.text(row, 'checks')).toMatch(/\bstops?\b/u);
		expect(await seriousFindings(page)).toEqual([]);
		await picture(page, 'stops-only');
		// It is remembered like everything else of a view.
		await openings.reload();
		await expect.poll(() => panels.rowCount()).toBe(`${shown} of ${all} shown`);
		await panels.rows.getByRole('button', { name: 'Show all rows' }).click();
		await expect.poll(() => panels.rowCount()).toBe(all);
		await panels.open('Views');
		await panels.use('Stops only');
		await expect.poll(() => panels.rowCount()).toBe(`${shown} of ${all} shown`);
		expect(troubles).toEqual([]);
	});
});
