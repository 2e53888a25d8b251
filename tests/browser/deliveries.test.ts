/** Packing lists: read before they are taken in, explained by keyboard, typed by hand, all of it taken back. */
import { describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, seriousFindings } from './browser.ts';
import { drive } from './driven.ts';
import { DeliveriesPage } from './pages/deliveries-page.ts';

const job = 'Saltmarsh Pier Market Hall';
const truck = 'fixtures/deliveries/saltmarsh-truck-1.xlsx';

describe.skipIf(!hasBrowser)('deliveries', () => {
	const driven = drive();

	it('says what was read of a file before anything is taken in, and lets a column be chosen', async () => {
		const { page } = driven.one;
		const deliveries = new DeliveriesPage(page);
		await deliveries.open(job);
		await deliveries.choose(truck);
		await page.getByRole('heading', { name: 'No packing list yet' }).waitFor();
		expect(await deliveries.takeItIn.isDisabled()).toBe(true);
		await deliveries.reading.getByText(/^Columns: /u).click();
		const crate = deliveries.reading.getByRole('combobox', { name: /, Crate.*, is$/u });
		await crate.selectOption('');
		await deliveries.reading.getByText('left out by choice').waitFor();
		await crate.selectOption({ label: 'crate' });
		await deliveries.reading.getByText('chosen', { exact: true }).waitFor();
		expect(await seriousFindings(page)).toEqual([]);
		expect(await fitsWidth(page)).toBe(true);
		await deliveries.from('Northreach Shutter Works');
		await deliveries.takeItIn.click();
		await page.getByRole('heading', { name: '2 lines to explain' }).waitFor();
	});

	it('is explained by keyboard, and taken back by keyboard', async () => {
		const { page, troubles } = driven.one;
		const deliveries = new DeliveriesPage(page);
		const list = 'saltmarsh-truck-1.xlsx';
		// A guide as long as the opening is high, where the list doesn’t say what its sizes measure.
		expect(await deliveries.row(list, 17).first().innerText()).toContain('Asked');
		await deliveries.asked.first().focus();
		await page.keyboard.press('ArrowDown');
		await expect.poll(() => deliveries.asked.nth(1).getAttribute('aria-expanded')).toBe('true');
		await page.keyboard.press('ArrowUp');
		await page.keyboard.press('Enter');
		await page.getByRole('heading', { name: '1 line to explain' }).waitFor();
		// Accepted as it is proposed: 9'-0" is the size of the opening, and the guide is the one that is ordered.
		await expect.poll(() => deliveries.row(list, 17).first().innerText()).toContain('Exact');
		await expect
			.poll(() => deliveries.asked.first().evaluate((one) => one === document.activeElement))
			.toBe(true);
		await deliveries.written();
		await page.keyboard.press('n');
		await page.getByRole('heading', { name: 'Nothing to explain' }).waitFor();
		await page.keyboard.press('u');
		await page.getByRole('heading', { name: '1 line to explain' }).waitFor();
		await page.keyboard.press('u');
		await page.getByRole('heading', { name: '2 lines to explain' }).waitFor();
		expect(await deliveries.row(list, 17).first().innerText()).toContain('Asked');
		expect(troubles).toEqual([]);
	});

	it('opens kits and corrects what was misread in a dialog', async () => {
		const { page } = driven.one;
		const deliveries = new DeliveriesPage(page);
		await deliveries.written();
		await deliveries.asked.nth(1).click();
		await page.keyboard.press('k');
		const parts = page.getByRole('dialog');
		await parts.getByLabel('A kit with these parts in it').check();
		await parts.getByLabel('Find').fill('C-102 end cap');
		await parts
			.getByRole('checkbox', { name: /End cap/u })
			.first()
			.check();
		const quantity = parts.getByLabel(/in this kit/u).first();
		await quantity.fill('none');
		await parts.getByText('A quantity is a number above 0, such as 4.').waitFor();
		expect(await seriousFindings(page)).toEqual([]);
		await quantity.fill('1');
		await parts.getByRole('button', { name: 'Decide so' }).click();
		await page.getByRole('heading', { name: '1 line to explain' }).waitFor();
		await page.keyboard.press('u');
		await page.getByRole('heading', { name: '2 lines to explain' }).waitFor();

		await deliveries.written();
		await deliveries.asked.nth(1).click();
		await page.keyboard.press('r');
		const correction = page.getByRole('dialog');
		await correction.getByRole('button', { name: 'Read it so' }).click();
		await correction.getByText('Type what it really says.').waitFor();
		await correction.getByLabel('Mark', { exact: true }).fill('C-101');
		await correction.getByRole('button', { name: 'Read it so' }).click();
		await page.getByRole('heading', { name: '1 line to explain' }).waitFor();
		await page.getByText('read as “C-101”').first().waitFor();
		await page.getByRole('button', { name: /^Take back what was decided about line 22 of/u }).click();
		await page.getByRole('heading', { name: '2 lines to explain' }).waitFor();
	});

	it('knows the same truck again, and asks about the list of another job', async () => {
		const { page } = driven.one;
		const deliveries = new DeliveriesPage(page);
		await deliveries.choose(truck);
		await deliveries.from('Northreach Shutter Works');
		await page.getByText('The same list is here already').waitFor();
		expect(await deliveries.takeItIn.isDisabled()).toBe(true);
		await page.getByLabel('It is another truck with the same goods').check();
		await expect.poll(() => deliveries.takeItIn.isEnabled()).toBe(true);
		await page.getByRole('button', { name: 'Leave it' }).click();

		await deliveries.choose('fixtures/deliveries/kelpgate-truck-1.csv');
		await deliveries.from('Northreach Shutter Works');
		await page.getByText('It seems to be of another job').waitFor();
		expect(await deliveries.takeItIn.isDisabled()).toBe(true);
		await page.getByRole('button', { name: 'Leave it' }).click();
	});

	it('takes in what is ticked and typed', async () => {
		const { page, troubles } = driven.one;
		const deliveries = new DeliveriesPage(page);
		await page.getByRole('button', { name: 'No file? Tick and type what came' }).click();
		const dialog = page.getByRole('dialog');
		await dialog.getByLabel('What the list is called').fill('Truck 2, typed');
		await dialog.getByLabel('Find').fill('C-102 barrel');
		await dialog
			.getByRole('checkbox', { name: /Barrel/u })
			.first()
			.check();
		await dialog.getByLabel('Description, typed line 1').fill('Bench, oak');
		await dialog.getByRole('button', { name: 'Take in 2 lines' }).click();
		// Nothing is lost of what was typed.
		await dialog.getByText(/no quantity; write how many came/u).waitFor();
		await dialog.getByLabel('Quantity, typed line 1').fill('1');
		expect(await seriousFindings(page)).toEqual([]);
		await dialog.getByRole('button', { name: 'Take in 2 lines' }).click();
		await dialog.waitFor({ state: 'hidden' });
		await page.getByRole('heading', { name: '3 lines to explain' }).waitFor();
		expect(await deliveries.row('Truck 2, typed', 1).first().innerText()).toContain('Exact');
		expect(await seriousFindings(page)).toEqual([]);
		expect(troubles).toEqual([]);
	});
});
