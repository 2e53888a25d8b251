/** The orders of a job as somebody in purchasing makes them: planned, written, released, answered, decided, revised. */
import type { Page } from 'playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { OrdersPage } from './pages/orders-page.ts';

const demo = 'Saltmarsh Pier Market Hall';
const job = 'Saltmarsh Pier, ordered';
const lot = 'Northreach Shutter Works, phase 1, release 1';

describe.skipIf(!hasBrowser)('orders', () => {
	const driven = drive();
	let page: Page;
	let orders: OrdersPage;
	let address = '';
	let number = '';

	beforeAll(async () => {
		({ page } = driven.one);
		orders = new OrdersPage(page);
		const jobs = new JobsPage(page);
		await jobs.open();
		await jobs.copy(demo, job);
	});

	it('a phase is planned, and the list says by when what has to be sent', async () => {
		await orders.open(job);
		expect(await orders.openItems().first().innerText()).toContain('no start planned');
		// Long past, so that it is overdue whenever this runs.
		await orders.planPhase('1', '2020-06-15');
		const first = orders.openItems().first();
		await first.getByText('2020-05-01').waitFor();
		expect(await first.innerText()).toMatch(/overdue, \d+ days ago/u);
		// Monday 2020-06-15 less 3 days is Friday 06-12; less 42 days is Friday 2020-05-01.
		expect(await first.innerText()).toContain('2020-05-01');
		expect(await first.innerText()).toContain('Northreach Shutter Works');
	});

	it('an order is written, its line priced, and goes out for a reason', async () => {
		number = await orders.write(lot);
		address = new URL(page.url()).pathname;
		await orders.changeLine(1, { price: '12 dollars' });
		await orders.told('A price is a number from 0');
		await orders.button('Leave it').click();
		await orders.changeLine(1, { price: '4321.5', note: 'as told by telephone' });
		await orders.line(1).getByText('4321.50', { exact: true }).waitFor();
		// Nothing goes out by itself.
		await orders.button('Release it anyway').click();
		await orders.told('Write why it goes out all the same.');
		await orders.release('The fitter measures on Monday.');
		await page.getByText('Went out although something held it:').waitFor();
		expect(await orders.button(/^Change line/u).count()).toBe(0);
		const file = page.waitForEvent('download');
		await orders.button(/^UBL order$/u).click();
		expect((await file).suggestedFilename()).toBe(
			`${job.replaceAll(',', '')} order ${number} revision 1.xml`
		);
	});

	it('an answer is taken in, and every difference signed off or sent back', async () => {
		// An answer to some other order.
		await orders.takeIn('other.csv', 'Your order: ZZZZZ-01\nOrder line,Quantity\n1,2\n');
		await orders.told('is no order of this job');
		// A day that can be read two ways is asked, and nothing is kept until then.
		await orders.takeIn('doubt.csv', `Your order: ${number}\nOrder line,Promised date\n1,03/04/2020\n`);
		await page.getByRole('heading', { name: 'What is not certain in doubt.csv' }).waitFor();
		expect(await orders.differences().count()).toBe(0);
		await page.getByLabel('03/04 is').selectOption('dayFirst');
		await orders.button('Read it again so').click();
		await orders.differences().first().waitFor();
		// One line is answered, all others are missing.
		const before = await orders.differences().count();
		expect(before).toBeGreaterThan(10);
		await page.getByRole('checkbox', { name: 'Choose all that are not decided' }).check();
		await orders.button(/^Send back/u).click();
		await orders.told('Write what the supplier is to put right');
		await page.getByLabel('Why, or what is to be put right').fill('Answer every line.');
		await orders.button(/^Send back/u).click();
		await orders.told(`${before} differences are sent back.`);
		await orders
			.button(/^Open again/u)
			.first()
			.click();
		await orders.told('1 difference is open again.');
		await orders.place();
		const items = await orders.openItems().allInnerTexts();
		expect(items.filter((text) => text.includes('Sent back'))).not.toHaveLength(0);
	});

	it('a takeoff that went on shows what the next revision would change, before it is written', async () => {
		const openings = new OpeningsPage(page);
		await openings.open(job);
		await (await openings.cell(0, 'openingWidth')).click();
		await page.keyboard.type('13-0');
		await page.keyboard.press('Enter');
		await openings.saved();
		await page.goto(address);
		await page.getByRole('heading', { name: 'What revision 2 would change' }).waitFor();
		await page.getByText(/^Out of step with the takeoff in \d+ things?\./u).waitFor();
		await orders.button('Write revision 2').click();
		await page.getByRole('heading', { name: `Order ${number}, revision 2`, level: 1 }).waitFor();
		await page.getByText(/\d+ changes against revision 1/u).click();
		await orders.button('Take revision 2 back').click();
		await page.getByRole('heading', { name: `Order ${number}`, exact: true, level: 1 }).waitFor();
	});

	for (const width of Object.keys(widths) as Width[])
		it.each([false, true])(`looks right at ${width} width, dark %s`, async (dark) => {
			const one = await person(driven.browser, driven.program.address, { width, dark });
			try {
				const list = address.slice(0, address.lastIndexOf('/'));
				for (const [name, path, heading] of [
					['orders', list, 'Orders'],
					['order', address, `Order ${number}`]
				] as const) {
					await one.page.goto(path);
					await one.page.getByRole('heading', { name: heading, exact: true, level: 1 }).waitFor();
					await picture(one.page, `${name}-${width}-${dark ? 'dark' : 'light'}`, true);
					expect(await fitsWidth(one.page)).toBe(true);
					expect(await seriousFindings(one.page)).toEqual([]);
				}
				expect(one.troubles).toEqual([]);
			} finally {
				await one.context.close();
			}
		});
});
