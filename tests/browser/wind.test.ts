/** The wind aid in Chromium: from the opening to its design pressure, and back by undo. */
import { beforeAll, describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { WindDialog } from './pages/wind-dialog.ts';

const job = 'Saltmarsh Pier Market Hall';

/** Exterior marks of the invented job, 10 ft × 10 ft without a pressure and 12 ft × 10 ft with 25 psf; and an interior one. */
const withoutPressure = 'F-402';
const withPressure = 'F-401';
const interior = 'C-101';
/** The note that F-402 has. */
const note = 'Wind pressure to come from the engineer';

/** The columns are far from the first ones: getting there takes a while. */
const patiently = { timeout: 20_000 };

describe.skipIf(!hasBrowser)('wind pressure', () => {
	const driven = drive();
	let openings: OpeningsPage;
	let wind: WindDialog;

	beforeAll(async () => {
		openings = new OpeningsPage(driven.one.page);
		wind = new WindDialog(driven.one.page);
		await openings.open(job);
	});

	it('of an interior opening is the partition minimum', async () => {
		await wind.select(interior);
		await driven.one.page.getByText('the interior partition minimum of the shop book, 5 psf').waitFor();
		expect(await wind.opener.count()).toBe(0);
		await picture(driven.one.page, 'wind-interior');
	});

	it('goes into the row only when confirmed, with a sentence in the note; undo takes both back', async () => {
		const { troubles } = driven.one;
		const row = await wind.open(withoutPressure);
		await wind.dialog.getByText('ASCE 7-16', { exact: true }).waitFor();
		expect(await wind.field('Top of the opening').inputValue()).toBe('10');
		// 10 · 10/3 = 33.33, taken down.
		expect(await wind.field('Effective wind area').inputValue()).toBe('33.3');
		await wind.dialog.getByText('Still needed: Basic wind speed').waitFor();
		expect(await wind.takeOver.count()).toBe(0);

		await wind.fill('115');
		// Kh = 2.01 (20/900)^(2/9.5) = 0.901885; qh = 0.00256 · 0.901885 · 0.85 · 115² = 25.954
		// share = log(3.33)/log(50) = 0.307506; GCp = 0.907748 inward, −1.215496 outward; GCpi 0.18
		// p = 25.954 · 1.087748 = 28.23; 25.954 · −1.395496 = −36.22; 0.6 · 36.22 = 21.73, taken up
		expect(await wind.figure('Velocity pressure')).toBe('26.0 psf');
		expect(await wind.figure('Inward')).toBe('28.2 psf');
		expect(await wind.figure('Outward')).toBe('−36.2 psf');
		expect(await wind.figure('allowable level')).toBe('21.8 psf');

		const open = () => wind.takeOver.isEnabled();
		expect(await open()).toBe(false);
		await wind.confirmed.check();
		expect(await open()).toBe(false);
		await wind.dialog.getByText('To take it over, write the engineer’s name or reference.').waitFor();
		await wind.engineer.fill('A. Petrel, letter 12');
		expect(await open()).toBe(true);
		await wind.confirmed.uncheck();
		expect(await open()).toBe(false);
		await wind.confirmed.check();

		// Another case needs another word.
		await wind.field('Basic wind speed').fill('116');
		expect(await wind.confirmed.isChecked()).toBe(false);
		expect(await open()).toBe(false);
		await wind.engineer.press('Enter');
		expect(await wind.dialog.isVisible()).toBe(true);
		await wind.field('Basic wind speed').fill('115');
		await wind.confirmed.check();
		await wind.engineer.press('Enter');
		await wind.dialog.waitFor({ state: 'hidden' });

		await openings.saved();
		await expect.poll(() => openings.text(row, 'designPressure'), patiently).toBe('21.8 psf');
		const sentence =
			'Design pressure 21.8 psf at allowable level (ASCE 7-16, 115 mph, exposure C, mean roof height 20 ft, top of the opening 10 ft, Kzt 1, ground at 0 ft, enclosed, zone 5, effective wind area 33.3 ft²), confirmed by A. Petrel, letter 12.';
		await expect.poll(() => openings.text(row, 'note'), patiently).toBe(`${note} ${sentence}`);
		await openings.button('Undo').click();
		await expect.poll(() => openings.text(row, 'designPressure'), patiently).toBe('');
		await expect.poll(() => openings.text(row, 'note'), patiently).toBe(note);
		await openings.button('Redo').click();
		await expect.poll(() => openings.text(row, 'designPressure'), patiently).toBe('21.8 psf');
		await openings.button('Undo').click();
		await openings.saved();
		expect(troubles).toEqual([]);
	});

	it('keeps what was said of the place for the next opening, and asks again what is its own', async () => {
		await wind.open(withPressure);
		expect(await wind.field('Basic wind speed').inputValue()).toBe('115');
		// 12 · 12/3.
		expect(await wind.field('Effective wind area').inputValue()).toBe('48');
		expect(await wind.field('5: at a corner').isChecked()).toBe(false);
		await wind.field('4: away from corners').check();
		await wind.dialog.getByText('The row has 25 psf now').waitFor();
		await wind.close();
	});

	it('says beside a figure what would be right', async () => {
		await wind.open(withPressure);
		await wind.field('Mean roof height').fill('61');
		await wind.alert('this ends at 60 ft').waitFor();
		expect(await wind.field('Mean roof height').getAttribute('aria-invalid')).toBe('true');
		await wind.field('Mean roof height').fill('9');
		await wind.alert('above the mean roof height of 9 ft').waitFor();
		await wind.field('Basic wind speed').fill('fast');
		await wind.alert('"fast" is not a plain number').waitFor();
		await wind.close();
	});

	it('closes by Escape without a change, back where it was opened', async () => {
		const row = await wind.open(withPressure);
		await wind.fill('140');
		await wind.confirmed.check();
		await driven.one.page.keyboard.press('Escape');
		await wind.dialog.waitFor({ state: 'hidden' });
		expect(await wind.opener.evaluate((button) => button === document.activeElement)).toBe(true);
		await expect.poll(() => openings.text(row, 'designPressure'), patiently).toBe('25 psf');
	});

	it('is for metric jobs in metres, with the constants of SI', async () => {
		const one = await person(driven.browser, driven.program.address);
		await new OpeningsPage(one.page).open('Kelpgate Ferry Terminal');
		const metric = new WindDialog(one.page);
		await metric.open('KF-07');
		// 3.6 · 3.6/3 = 4.32 m² (46.50 ft²).
		expect(await metric.field('Effective wind area, m²').inputValue()).toBe('4.32');
		await metric.fill('50');
		await metric.field('Mean roof height h, m').fill('6');
		// Kh = 2.01 (6/274.32)^(2/9.5) = 0.898876; qh = 0.613 · 0.898876 · 0.85 · 50² = 1170.9 Pa
		// share = log(4.650)/log(50) = 0.392858; GCp− = −1.4 + 0.6 · 0.392858 = −1.164285; p− = 1170.9 · −1.344285 = −1574.0
		// 0.6 · 1574.0 = 944.4 Pa, taken up
		expect(await metric.figure('Velocity pressure')).toBe('1.17 kPa');
		expect(await metric.figure('Outward')).toBe('−1.57 kPa');
		expect(await metric.figure('allowable level')).toBe('0.95 kPa');
		await one.context.close();
	});

	it('nothing serious for axe in light and dark; fits laptop and phone', async () => {
		for (const [width, dark] of [
			['wide', false],
			['wide', true],
			['laptop', false],
			['phone', false]
		] satisfies [Width, boolean][]) {
			const one = await person(driven.browser, driven.program.address, { width, dark });
			await new OpeningsPage(one.page).open(job);
			const dialog = new WindDialog(one.page);
			await dialog.open(withPressure);
			await dialog.fill('115');
			await picture(one.page, `wind-result-${String(widths[width])}${dark ? '-dark' : ''}`);
			await dialog.dialog.getByText('Working, line by line').click();
			await picture(one.page, `wind-${String(widths[width])}${dark ? '-dark' : ''}`);
			expect(await seriousFindings(one.page, dark ? ['color-contrast'] : [])).toEqual([]);
			expect(await fitsWidth(one.page)).toBe(true);
			const fits = await dialog.dialog.evaluate((box) => box.scrollWidth <= box.clientWidth);
			expect(fits).toBe(true);
			await one.context.close();
		}
	});
});
