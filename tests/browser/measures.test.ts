/** Field measure in Chromium: typed on a phone, held against the drawing at once, kept without signal, taken into the sheet. */
import { beforeAll, describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { MeasurePage } from './pages/measure-page.ts';

const job = 'Saltmarsh Pier Market Hall';
/** 10'-0" × 4'-0" on the face of grouted block; one of four of its mark. */
const opening = 'C-101.1';

const sizes = {
	'Width at the sill': '120',
	'Width at half height': `10'-0 1/8"`,
	'Width at the head': `10' 0 1/16`,
	'Height at the left': `4'-0 3/8"`,
	'Height at the right': '48 3/8',
	// √(120² + 48.375²) = 129.384
	'Diagonal, bottom left to top right': '129 3/8',
	'Diagonal, bottom right to top left': '129 3/8',
	'Rise of the sill to the right': '0',
	Headroom: `4'`,
	'Side room at the left': '24',
	'Side room at the right': '24',
	'Wall at the left': '',
	'Wall at the right': ''
} as const;

async function fillAll(measure: MeasurePage): Promise<void> {
	for (const [label, text] of Object.entries(sizes))
		if (text === '') await measure.field(label).selectOption('groutedBlock');
		else await measure.field(label).fill(text);
	// Out of the wall the left jamb leans 1/4 in away over 48 in: 1/192 in for each inch of height.
	await measure.plumb('left', [
		['0', '0', '0'],
		['48', '0', '-1/4']
	]);
	await measure.plumb('right', [
		['0', '0', '0'],
		['48', '0', '0']
	]);
}

describe.skipIf(!hasBrowser)('field measure', () => {
	const driven = drive();
	let measure: MeasurePage;

	beforeAll(async () => {
		measure = new MeasurePage(driven.one.page);
		await measure.list(job);
	});

	it('lists every opening, and says of each that it is to be measured', async () => {
		await measure.entry(opening).getByText('Not measured').waitFor();
		await picture(driven.one.page, 'measure-list', true);
	});

	it('holds what is typed against the drawing while it is typed', async () => {
		await measure.open(opening);
		await measure.begin();
		await fillAll(measure);
		await measure.outcome.getByText('stop before anything is drilled').waitFor();
		await measure.finding('Height, left').getByText(`+3/8"`).waitFor();
		await measure.finding('Width').getByText('Within').waitFor();
		await driven.one.page.getByText(/Guides 3\/8" longer/u).waitFor();
		// Guide 48 3/8 + 2 = 50 3/8, anchors from 4 to 46 3/8: every (50 3/8 − 8)/3 = 14 1/8. The gap is height/192:
		// 4/192 = 0.021, 18.125/192 = 0.094, 32.25/192 = 0.168, 46.375/192 = 0.242, each rounded up to a sixteenth.
		const shims = driven.one.page.getByRole('table', { name: 'Left guide' }).locator('tbody tr');
		await expect
			.poll(async () => (await shims.allInnerTexts()).map((text) => text.split(/\s*\t\s*/u)))
			.toEqual([
				['1', '4"', '0.021 in', '1/16"'],
				['2', '18 1/8"', '0.094 in', '1/8"'],
				['3', '32 1/4"', '0.168 in', '3/16"'],
				['4', `3'-10 3/8"`, '0.242 in', '1/4"']
			]);
		await driven.one.page.getByRole('group', { name: 'Shims', exact: true }).waitFor();
		await picture(driven.one.page, 'measure-live', true);
	});

	it('refuses at the field what can’t be, with what would be right, and saves nothing', async () => {
		await measure.field('Width at the sill').fill('3048');
		await measure.form.getByText('write 3048 mm if that is what the tape says').waitFor();
		expect(await measure.field('Width at the sill').getAttribute('aria-invalid')).toBe('true');
		await measure.save();
		await measure.form.getByText('One entry is not right yet').waitFor();
		await measure.field('Width at the sill').fill('3048 mm');
		await measure.form.getByText(`= 10'-0"`, { exact: true }).first().waitFor();
		await measure.field('Diagonal, bottom left').fill('60');
		await measure.finding('Skew').getByText('Stop').waitFor();
		await measure.field('Diagonal, bottom left').fill('129 3/8');
	});

	it('keeps what is typed over a reload', async () => {
		await driven.one.page.reload();
		await measure.form.waitFor();
		await driven.one.page.getByText('Taken up again').waitFor();
		expect(await measure.field('Height at the left').inputValue()).toBe(`4'-0 3/8"`);
	});

	it('keeps a measure on the phone without signal, and sends it when there is', async () => {
		const { context, page } = driven.one;
		await measure.outcome.waitFor();
		await context.setOffline(true);
		await measure.save();
		await page.getByText('on this phone, not in the office yet').waitFor();
		await measure.office.getByText('1 measure is on this phone only').waitFor();
		await context.setOffline(false);
		await measure.office.getByText('Everything is in the office.').waitFor();
		await page.getByText('All measures of this opening').waitFor();
		await picture(page, 'measure-kept', true);
	});

	it('takes the measured sizes into a row of its own, shown first', async () => {
		const { page } = driven.one;
		const sheet = page.getByRole('region', { name: 'Into the sheet' });
		await sheet.getByText(`Opening height: 4'-0" → 4'-0 3/8"`).waitFor();
		await sheet.getByText('gets a row of its own').waitFor();
		await sheet.getByRole('button', { name: 'Take these into the sheet' }).click();
		await measure.finding('Height, left').getByText('Within').waitFor();
		await measure.outcome.getByText('within tolerance of the drawing').waitFor();
		await page.getByRole('link', { name: 'All openings' }).click();
		await measure
			.entry(opening)
			.getByText('Teal')
			.or(measure.entry(opening).locator('.state'))
			.first()
			.waitFor();
		expect(driven.one.troubles).toEqual([]);
	});

	it('nothing serious for axe in light and dark; fits desk and phone', { timeout: 240_000 }, async () => {
		for (const [width, dark] of [
			['wide', false],
			['wide', true],
			['laptop', false],
			['phone', false]
		] satisfies [Width, boolean][]) {
			const one = await person(driven.browser, driven.program.address, { width, dark });
			const there = new MeasurePage(one.page);
			await there.list(job);
			const name = `${String(widths[width])}${dark ? '-dark' : ''}`;
			expect(await seriousFindings(one.page, dark ? ['color-contrast'] : [])).toEqual([]);
			expect(await fitsWidth(one.page)).toBe(true);
			await picture(one.page, `measure-list-${name}`, true);
			await there.open('C-101.2');
			await there.begin();
			await fillAll(there);
			await there.outcome.waitFor();
			await picture(one.page, `measure-form-${name}`, true);
			expect(await seriousFindings(one.page, dark ? ['color-contrast'] : [])).toEqual([]);
			expect(await fitsWidth(one.page)).toBe(true);
			await one.context.close();
		}
	});
});
