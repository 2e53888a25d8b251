/** What became of a job, bringing it back as a copy, and its bids: by people, at three widths, in light and dark. */
import type { Page } from 'playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { BidsPage } from './pages/bids-page.ts';
import { HistoryPage } from './pages/history-page.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';

const demo = 'Saltmarsh Pier Market Hall';
const looked = 'Saltmarsh Pier, looked at';

describe.skipIf(!hasBrowser)('history and bids', () => {
	const driven = drive();
	let page: Page;
	let openings: OpeningsPage;
	let history: HistoryPage;
	let bids: BidsPage;

	beforeAll(async () => {
		({ page } = driven.one);
		openings = new OpeningsPage(page);
		history = new HistoryPage(page);
		bids = new BidsPage(page);
		// A job to look at in all widths, with a bid and some changes since.
		await begin(looked);
		await bids.open(looked);
		await bids.freeze(1, 'To the owner, first round');
		await openings.open(looked);
		await change(0, 'quantity', '7');
		await change(1, 'openingWidth', '12-6');
	});

	/** A job of its own: the demo, copied. */
	async function begin(name: string): Promise<void> {
		const jobs = new JobsPage(page);
		await jobs.open();
		await jobs.copy(demo, name);
		await openings.open(name);
	}

	async function change(row: number, column: string, text: string): Promise<void> {
		await openings.goTo(row, column);
		await openings.type(text, 'Enter');
		await openings.saved();
	}

	it('tells who changed what from what to what, and of one opening alone', async () => {
		await begin('Told of');
		// The second row of the demo is an opening of the first that differs; the fourth is another mark.
		const [mark, own, other] = [
			await openings.text(0, 'mark'),
			await openings.text(1, 'mark'),
			await openings.text(3, 'mark')
		];
		expect(own.startsWith(`${mark}.`)).toBe(true);
		const quantity = await openings.text(0, 'quantity');
		const [ownPlace, place] = [await openings.text(1, 'location'), await openings.text(3, 'location')];
		await change(0, 'quantity', '9');
		await change(1, 'location', 'Fish dock');
		await change(3, 'location', 'North aisle');
		await history.open('Told of');
		expect(await history.entries.count()).toBe(4);
		const told = async (at: number): Promise<string> =>
			(await history.entries.nth(at).innerText()).replace(/\s+/gu, ' ');
		const from = (text: string): string => (text === '' ? 'empty' : text);
		expect(await told(0)).toContain(`${other} Location ${from(place)} → to North aisle`);
		expect(await told(1)).toContain(`${own} Location ${from(ownPlace)} → to Fish dock`);
		expect(await told(2)).toContain(`${mark} Quantity ${quantity} → to 9`);
		expect(await told(2)).toContain('You, at this machine, change 1');

		await openings.open('Told of');
		await openings.goTo(0, 'mark');
		await page.getByRole('tab', { name: 'Results' }).click();
		await page.getByRole('link', { name: `History of ${mark}` }).click();
		await history.ready(`History of ${mark}`);
		expect([await history.entries.count(), await told(0)]).toEqual([
			2,
			expect.stringContaining(`${own} Location`)
		]);
		await page.getByRole('link', { name: 'Show all of the job' }).click();
		await history.ready('History');
		await history.choose('What', 'The job itself');
		await page.getByText('Make the job as a copy').waitFor();
		expect(await history.entries.count()).toBe(1);
		expect(driven.one.troubles).toEqual([]);
	});

	it('copies the job as it stood after a change, and as of a date and time', async () => {
		await begin('Brought back');
		const before = await openings.text(0, 'quantity');
		await change(0, 'quantity', '9');
		await change(0, 'quantity', '11');
		await history.open('Brought back');
		await history.bringBack(1, 'As it was after the first');
		expect(await openings.text(0, 'quantity')).toBe('9');
		await history.open('Brought back');
		await history.bringBack(0, 'As it was made');
		expect(await openings.text(0, 'quantity')).toBe(before);

		await history.open('Brought back');
		await page.getByRole('button', { name: 'Copy the job as of a date and time' }).click();
		await page.getByLabel('Date and time').fill('2001-03-03T14:05');
		await page.getByText('At that moment there was nothing of this job yet.').waitFor();
		await page.getByLabel('Date and time').fill('2999-03-03T14:05');
		await page.getByText('The last change by then').waitFor();
		await history.makeCopy('As it is at last');
		expect(await openings.text(0, 'quantity')).toBe('11');
		// The job that was copied is as it was.
		await openings.open('Brought back');
		expect(await openings.text(0, 'quantity')).toBe('11');
		expect(driven.one.troubles).toEqual([]);
	});

	it('freezes bids, shows them as they were, and says what changed since', async () => {
		await begin('Bid for');
		const mark = await openings.text(0, 'mark');
		await bids.open('Bid for');
		await page.getByText('None yet. Freezing keeps').waitFor();
		await bids.freeze(1, 'First round');
		const price = (await bids.bid(1).locator('td').last().innerText()).trim();
		expect(price).toMatch(/^\$[\d,]+\.\d\d$/u);
		await openings.open('Bid for');
		await change(0, 'quantity', '9');
		await bids.open('Bid for');
		await bids.freeze(2, 'Second round');
		expect((await bids.bid(2).locator('td').last().innerText()).trim()).not.toBe(price);

		await bids.read(1, 'First round');
		await page.getByText(price, { exact: true }).first().waitFor();
		await page.getByRole('button', { name: `Quantities of ${mark}`, exact: true }).click();
		await page.getByRole('dialog').getByText('Guide distance', { exact: true }).waitFor();
		await page.keyboard.press('Escape');

		await bids.open('Bid for');
		await bids.compare(1, 2);
		const changed = page.getByRole('row', { name: new RegExp(`^${mark} Quantity`, 'u') });
		expect(await changed.locator('td').last().innerText()).toBe('9');
		const differing = page.getByRole('row', { name: new RegExp(`^${mark} \\$`, 'u') });
		expect(await differing.locator('td').last().innerText()).toMatch(/^[+-]\$[\d,]+\.\d\d$/u);
		await bids.open('Bid for');
		await bids.compare(2, 'now');
		await page.getByText('The openings are the same, cell by cell.').waitFor();
		await page.getByRole('heading', { name: 'Price: no difference' }).waitFor();
		expect(driven.one.troubles).toEqual([]);
	});

	const screens: readonly { readonly name: string; readonly open: (page: Page) => Promise<void> }[] = [
		{ name: 'history', open: (on) => new HistoryPage(on).open(looked) },
		{
			name: 'history-copy',
			open: async (on) => {
				await new HistoryPage(on).open(looked);
				await on.getByRole('button', { name: 'Copy as it stood then, after change 2' }).click();
				await on.getByText('Right after this change').waitFor();
			}
		},
		{
			name: 'bids',
			open: async (on) => {
				await new BidsPage(on).open(looked);
				await on.getByRole('heading', { name: 'Bids', exact: true }).scrollIntoViewIfNeeded();
			}
		},
		{
			name: 'bid',
			open: async (on) => {
				const page = new BidsPage(on);
				await page.open(looked);
				await page.read(1, 'To the owner, first round');
			}
		},
		{
			name: 'bids-compared',
			open: async (on) => {
				const page = new BidsPage(on);
				await page.open(looked);
				await page.compare(1, 'now');
				// The one opening whose quantities differ stands open.
				await on.getByRole('row', { name: /^Guide distance / }).waitFor();
			}
		}
	];

	for (const screen of screens) {
		it(`${screen.name}: nothing serious for axe in light and dark, and fits a laptop and a phone`, async () => {
			for (const dark of [false, true]) {
				const { page: wide, context } = await person(driven.browser, driven.program.address, { dark });
				await screen.open(wide);
				await picture(wide, `${screen.name}-1440${dark ? '-dark' : ''}`);
				expect(await seriousFindings(wide, dark ? ['color-contrast'] : [])).toEqual([]);
				await context.close();
			}
			for (const width of ['laptop', 'phone'] satisfies Width[]) {
				const { page: narrow, context } = await person(driven.browser, driven.program.address, { width });
				await screen.open(narrow);
				await picture(narrow, `${screen.name}-${String(widths[width])}`, width === 'phone');
				expect(await fitsWidth(narrow)).toBe(true);
				await context.close();
			}
		});
	}
});
