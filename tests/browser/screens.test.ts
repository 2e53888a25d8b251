/** Every screen at three widths and in light and dark: it fits, it can be read, and axe finds nothing serious. */
import type { Page } from 'playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { DeliveriesPage } from './pages/deliveries-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { ScheduleDialog } from './pages/schedule-dialog.ts';

const job = 'Saltmarsh Pier Market Hall';

interface Screen {
	readonly name: string;
	readonly open: (page: Page) => Promise<void>;
}

async function place(page: Page, name: string, heading: string): Promise<void> {
	await new OpeningsPage(page).open(job);
	await page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name, exact: true }).click();
	await page.getByRole('heading', { name: heading, exact: true }).first().waitFor();
}

const screens: readonly Screen[] = [
	{
		name: 'jobs',
		open: async (page) => {
			await page.goto('/');
			await page.getByRole('link', { name: job, exact: true }).waitFor();
		}
	},
	{
		name: 'openings',
		open: async (page) => {
			await new OpeningsPage(page).open(job);
			await page
				.getByRole('img', { name: /elevation/iu })
				.or(page.getByLabel('Elevation'))
				.first()
				.waitFor();
		}
	},
	{
		name: 'openings-checks',
		open: async (page) => {
			const openings = new OpeningsPage(page);
			await openings.open(job);
			await page.getByRole('tab', { name: 'Checks' }).click();
			await page.getByText('What would clear it').first().waitFor();
		}
	},
	{
		name: 'openings-working',
		open: async (page) => {
			const openings = new OpeningsPage(page);
			await openings.open(job);
			await page.getByRole('tab', { name: 'Results' }).click();
			await page.getByRole('tabpanel').locator('dd button').first().click();
			await page.getByText('Comes from').waitFor();
		}
	},
	{
		name: 'at-work',
		open: async (page) => {
			const openings = new OpeningsPage(page);
			await openings.open(job);
			await (await openings.cell(1, 'mark')).click();
			for (const key of ['Shift+ArrowDown', 'Shift+ArrowDown', 'Control+f']) await page.keyboard.press(key);
			await page.keyboard.type('steel');
			await page.getByText(/^\d+ of \d+$/u).waitFor();
		}
	},
	{
		name: 'schedule',
		open: async (page) => {
			const openings = new OpeningsPage(page);
			await openings.open(job);
			const schedule = new ScheduleDialog(page);
			await schedule.open();
			await schedule.choose('fixtures/schedules/saltmarsh-pier.xlsx');
		}
	},
	{
		name: 'columns',
		open: async (page) => {
			const openings = new OpeningsPage(page);
			await openings.open(job);
			await openings.unfoldTools();
			await openings.button('Columns').click();
			await page.getByRole('dialog').waitFor();
		}
	},
	{ name: 'takeoff', open: (page) => place(page, 'Takeoff', 'Takeoff') },
	{
		name: 'takeoff-working',
		open: async (page) => {
			await place(page, 'Takeoff', 'Takeoff');
			await page.locator('dd button').first().click();
			await page.getByRole('complementary', { name: 'Working' }).waitFor();
			await page.getByText('Comes from').waitFor();
		}
	},
	{
		name: 'price',
		open: async (page) => {
			await place(page, 'Price', 'Price');
			await page
				.getByRole('row', { name: /C-101 / })
				.getByRole('button')
				.first()
				.click();
			await page.getByText('Comes from').waitFor();
		}
	},
	{
		name: 'deliveries',
		open: async (page) => {
			await place(page, 'Deliveries', 'Deliveries');
			await page.getByRole('heading', { name: 'Line by line' }).waitFor();
		}
	},
	{
		name: 'shop-book',
		open: async (page) => {
			await page.goto('/shop-book');
			await page.getByText(/\d+ of \d+ rules/u).waitFor();
		}
	},
	{
		name: 'not-found',
		open: async (page) => {
			await page.goto('/jobs/nothing-here/openings');
			await page.getByRole('heading', { name: 'There is nothing at this address' }).waitFor();
		}
	}
];

describe.skipIf(!hasBrowser)('screens', () => {
	const driven = drive();

	beforeAll(async () => {
		const { page } = driven.one;
		await place(page, 'Deliveries', 'Deliveries');
		await new DeliveriesPage(page).takeIn('fixtures/deliveries/saltmarsh-truck-1.xlsx');
	});

	it('axe tells of a picture without words and of words that can hardly be read', async () => {
		const { page, context } = await person(driven.browser, driven.program.address);
		await screens[0]?.open(page);
		await page.evaluate(() => {
			document
				.querySelector('main')
				?.insertAdjacentHTML('beforeend', '<img src="/favicon.svg"><p id="faint">hardly to be read</p>');
			document.getElementById('faint')?.setAttribute('style', 'color: #bbb; background: #fff');
		});
		const found = (await seriousFindings(page)).map((finding) => finding.split(':')[0]).sort();
		expect(found).toEqual(['color-contrast', 'image-alt']);
		expect((await seriousFindings(page, ['color-contrast'])).map((finding) => finding.split(':')[0])).toEqual(
			['color-contrast']
		);
		await context.close();
	});

	for (const screen of screens) {
		it(`${screen.name}: nothing serious for axe, in light and dark`, async () => {
			for (const dark of [false, true]) {
				const { page, context } = await person(driven.browser, driven.program.address, { dark });
				await screen.open(page);
				await picture(page, `${screen.name}-1440${dark ? '-dark' : ''}`);
				// Only the colours differ in the dark.
				expect(await seriousFindings(page, dark ? ['color-contrast'] : [])).toEqual([]);
				await context.close();
			}
		});

		it(`${screen.name}: fits a laptop and a phone without scrolling the page sideways`, async () => {
			for (const width of ['laptop', 'phone'] satisfies Width[]) {
				const { page, context } = await person(driven.browser, driven.program.address, { width });
				await screen.open(page);
				await picture(page, `${screen.name}-${String(widths[width])}`, width === 'phone');
				expect(await fitsWidth(page)).toBe(true);
				await context.close();
			}
		});
	}

	it('high contrast, chosen once, stays and passes axe', async () => {
		const { page, context } = await person(driven.browser, driven.program.address);
		const openings = new OpeningsPage(page);
		await openings.open(job);
		await page.getByLabel('Screen').selectOption('contrast');
		await openings.reload();
		expect(await page.locator('html').getAttribute('data-screen')).toBe('contrast');
		await picture(page, 'openings-1440-contrast');
		expect(await seriousFindings(page, ['color-contrast'])).toEqual([]);
		await context.close();
	});
});
