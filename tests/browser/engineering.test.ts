/** The engineering in Chromium: beside an opening, and of the whole job. */
import { beforeAll, describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { EngineeringPanel } from './pages/engineering-panel.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { TakeoffPage } from './pages/takeoff-page.ts';

const job = 'Saltmarsh Pier Market Hall';

/** Marks of the invented job: by tube motor, and pushed up by hand. */
const byMotor = 'S-202';
const byHand = 'S-205';

describe.skipIf(!hasBrowser)('beside an opening', () => {
	const driven = drive();
	let panel: EngineeringPanel;

	beforeAll(async () => {
		await new OpeningsPage(driven.one.page).open(job);
		panel = new EngineeringPanel(driven.one.page);
	});

	it('is reached by keyboard', async () => {
		const { page } = driven.one;
		await panel.tab('Results').focus();
		await page.keyboard.press('ArrowRight');
		await panel.holding.waitFor();
		expect(await panel.tab('Engineering').getAttribute('aria-selected')).toBe('true');
	});

	it('opens the working of every number, and is found again where it was left', async () => {
		const { page } = driven.one;
		await panel.open(byMotor);
		await panel.held('Used, of 1', 'Right bracket').focus();
		await page.keyboard.press('Enter');
		expect(await panel.working.innerText()).toMatch(/^Use of the anchors, right bracket/u);
		await panel.tab('Engineering').click();
		const drop = page.getByRole('tabpanel').locator('dl > div').filter({ hasText: 'Voltage drop' }).first();
		await drop.scrollIntoViewIfNeeded();
		const before = await drop.boundingBox();
		await drop.getByRole('button').click();
		expect(await panel.working.innerText()).toBe('Voltage drop');
		await panel.tab('Engineering').click();
		await panel.holding.waitFor();
		const after = await drop.boundingBox();
		expect(Math.abs((after?.y ?? 0) - (before?.y ?? 9999))).toBeLessThan(4);
	});

	it('cuts the anchor of either side, and its sizes open their working', async () => {
		const { page } = driven.one;
		await panel.open(byMotor);
		const anchor = panel.figure('Anchor');
		await anchor.getByRole('button', { name: 'right', exact: true }).click();
		await anchor.getByRole('button', { name: 'bracket', exact: true }).click();
		await anchor.getByRole('img', { name: `Anchor of the right bracket of ${byMotor}` }).waitFor();
		await anchor.getByRole('button', { name: /^Length bought: / }).focus();
		await page.keyboard.press('Enter');
		expect(await panel.working.innerText()).toBe('Anchor length right');
	});

	it('has the torque as a picture, as words and as a table', async () => {
		await panel.open(byHand);
		const torque = panel.figure('Torque over the travel');
		await torque.getByRole('img', { name: /springs balance it closed and open/u }).waitFor();
		await torque.getByText('As a table').click();
		const rows = torque.getByRole('table').getByRole('row');
		expect(await rows.count()).toBe(12);
		// Where the travel begins and ends, curtain and springs are the same.
		for (const at of [1, 11]) {
			const [curtain, springs] = await rows.nth(at).locator('td').allInnerTexts();
			expect(curtain).toBe(springs);
		}
		expect(await panel.figure('Hand force over the travel').getByText('Limit', { exact: true }).count()).toBe(
			1
		);
	});

	it('warns of the springs, and leaves the circuit to an electrician', async () => {
		const { page } = driven.one;
		await panel.open(byHand);
		await page.getByText('Wound springs store energy that can kill').first().waitFor();
		expect(await page.getByText('For a licensed electrician to confirm').count()).toBe(0);
		await panel.open(byMotor);
		await page.getByText('For a licensed electrician to confirm.').waitFor();
		expect(driven.one.troubles).toEqual([]);
	});

	for (const mark of [byMotor, byHand])
		it(`${mark}: nothing serious for axe in light and dark; fits laptop and phone`, async () => {
			for (const [width, dark] of [
				['wide', false],
				['wide', true],
				['laptop', false],
				['phone', false]
			] satisfies [Width, boolean][]) {
				const one = await person(driven.browser, driven.program.address, { width, dark });
				await new OpeningsPage(one.page).open(job);
				await new EngineeringPanel(one.page).open(mark);
				await picture(
					one.page,
					`engineering-${mark}-${String(widths[width])}${dark ? '-dark' : ''}`,
					width === 'phone'
				);
				expect(await seriousFindings(one.page, dark ? ['color-contrast'] : [])).toEqual([]);
				expect(await fitsWidth(one.page)).toBe(true);
				await one.context.close();
			}
		});
});

describe.skipIf(!hasBrowser)('of the whole job', () => {
	const driven = drive();
	let takeoff: TakeoffPage;

	beforeAll(async () => {
		await new OpeningsPage(driven.one.page).open(job);
		takeoff = new TakeoffPage(driven.one.page);
		await takeoff.open();
	});

	it('has a row for every mark, those with stops first', async () => {
		const rows = takeoff.section('Holding').locator('tbody tr');
		const stops = await rows.evaluateAll((all) => all.map((row) => row.querySelector('li') !== null));
		expect(stops[0]).toBe(true);
		expect(stops).toEqual([...stops].sort((a, b) => Number(b) - Number(a)));
		const drives = await takeoff.marks('Drives and circuits');
		const springs = await takeoff.marks('Springs');
		const lifting = await takeoff.marks('Lifting');
		expect(drives).toContain(byMotor);
		expect(springs).toContain(byHand);
		expect([...drives, ...springs].sort()).toEqual([...lifting].sort());
	});

	it('opens the working of a number, and gives the focus back', async () => {
		const { page, troubles } = driven.one;
		const figure = takeoff.section('Lifting').getByRole('row', { name: byMotor }).getByRole('button').first();
		await figure.focus();
		await page.keyboard.press('Enter');
		await takeoff.working.getByRole('heading', { name: 'Coil weight' }).waitFor();
		await takeoff.working.getByText(byMotor).waitFor();
		await page.keyboard.press('Escape');
		await takeoff.working.waitFor({ state: 'hidden' });
		expect(await figure.evaluate((button) => button === document.activeElement)).toBe(true);
		expect(troubles).toEqual([]);
	});

	it('counts anchors of one length with the same working', async () => {
		const { page } = driven.one;
		const row = takeoff.section('Anchors by wall').locator('tbody tr').first();
		const guides = row.getByRole('button').first();
		const shown = await guides.innerText();
		await guides.click();
		await takeoff.working.locator('td.figure').first().waitFor();
		const shares = await takeoff.working.locator('td.figure').allInnerTexts();
		// `3 × 4` for a mark of three openings, `4` for one.
		const sum = shares
			.map((text) => text.split('×').reduce((product, part) => product * Number(part), 1))
			.reduce((a, b) => a + b, 0);
		expect(String(sum)).toBe(shown);
		await page.keyboard.press('Escape');
	});
});
