/** Openings from a building model. The models in `fixtures/models` are invented; their README is what is expected. */
import { describe, expect, it } from 'vitest';
import { hasBrowser, picture, seriousFindings } from './browser.ts';
import { drive } from './driven.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { ModelDialog } from './pages/model-dialog.ts';
import { OpeningsPage } from './pages/openings-page.ts';

describe.skipIf(!hasBrowser)('openings from a building model', () => {
	const driven = drive();

	it('come in as chosen from a list that can be narrowed, as one edit', async () => {
		const { page, troubles } = driven.one;
		const jobs = new JobsPage(page);
		const openings = new OpeningsPage(page);
		const model = new ModelDialog(page);
		await jobs.open();
		await jobs.make('Market hall from its model');
		await openings.ready();
		await model.open();
		await model.choose('fixtures/models/market-hall-millimetres.ifc');
		expect(await model.marks()).toEqual(['D-101', 'D-102', 'O-7', 'S-201', 'D-201', 'D-202', 'D-203']);
		expect(await model.bringIn.isDisabled()).toBe(true);
		await picture(page, 'model-dialog');
		expect(await seriousFindings(page)).toEqual([]);

		await model.dialog.getByLabel('Storey').selectOption('Ground floor');
		expect(await model.marks()).toEqual(['D-101', 'D-102', 'O-7']);
		await model.dialog.getByLabel('Kind').selectOption('doors');
		expect(await model.marks()).toEqual(['D-101', 'D-102']);
		await model.dialog.getByRole('button', { name: 'Choose all 2 shown' }).click();
		await model.dialog.getByLabel('Storey').selectOption('all');
		await model.dialog.getByLabel('Kind').selectOption('all');
		await model.dialog.getByLabel('Find').fill('servery');
		// By keyboard: the box is reached and ticked without a mouse.
		await model.box('O-7').focus();
		await page.keyboard.press('Space');
		await model.dialog.getByText('3 openings of 7 chosen').waitFor();
		await model.bringIn.click();
		await page.getByText(/3 rows brought in/u).waitFor();
		expect(await openings.text(0, 'mark')).toBe('D-101');
		// 3048 mm is 10 ft.
		expect(await openings.text(0, 'openingWidth')).toBe(`10'-0"`);
		expect(await openings.text(2, 'mark')).toBe('O-7');
		expect(await openings.text(2, 'location')).toBe('Ground floor');
		expect(troubles).toEqual([]);
	});

	it('that are in the job already are said, and stay out unless they are asked for', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		const model = new ModelDialog(page);
		await model.open();
		await model.choose('fixtures/models/market-hall-millimetres.ifc');
		await model.box('D-101').check();
		await model.dialog.getByText('The job has D-101 already.').waitFor();
		expect(await model.bringIn.isDisabled()).toBe(true);
		await model.box('D-201').check();
		expect(await model.bringIn.innerText()).toBe('Bring in 1 opening');
		await model.bringIn.click();
		await page.getByText('1 row brought in').waitFor();
		expect(await openings.text(3, 'mark')).toBe('D-201');
		await openings.button('Undo').click();
		await openings.button('Undo').click();
		await page.getByRole('heading', { name: 'No openings yet' }).waitFor();
	});

	it('are refused in words from a file that is cut off', async () => {
		const { page } = driven.one;
		const model = new ModelDialog(page);
		await model.open();
		await model.choose({
			name: 'half.ifc',
			text: "ISO-10303-21;HEADER;FILE_SCHEMA(('IFC4'));ENDSEC;DATA;#1=IFCDO"
		});
		await model.dialog.getByText('half.ifc is not read: it ends in the middle').waitFor();
		await model.dialog.getByRole('button', { name: 'Close' }).click();
		await page.getByRole('heading', { name: 'No openings yet' }).waitFor();
	});
});
