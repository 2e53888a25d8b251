/** Schedules as they arrive, in the browser: questions answered by keyboard, and one that comes again. All invented. */
import { describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings } from './browser.ts';
import { drive } from './driven.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { ScheduleDialog } from './pages/schedule-dialog.ts';

const headings =
	'Mark,Qty,Width,Height,Curtain,Hood,Mounting,Guide,Left wall,Right wall,Fixing,Operation,Hand,Seen from,Location';
/** Opening A of the demo book under another mark. */
const line = (mark: string, quantity: string, width: string, location = ''): string =>
	`${mark},${quantity},"${width.replaceAll('"', '""')}","4'-0""",counter-slat,steel-24ga,face of wall,counter-face,grouted block,grouted block,standard,tube motor,left,coil side,${location}`;

/** As it came first: a title above, a mark twice, a total below. */
const first = {
	name: 'pier-market.csv',
	text: [
		'Saltmarsh Pier Market Hall,,,',
		'ALL DIMENSIONS IN INCHES UNLESS NOTED,,,',
		headings,
		line('C-101', '4', `120`, 'Stall 1'),
		line('C-102', '1', `8'-6"`, 'Stall 5'),
		headings,
		line('C-103', '2', '96', 'Stall 6'),
		line('C-103', '1', '98', 'Stall 8'),
		line('C-104', '1', 'as drawn', 'Stall 9'),
		'Total,9,,'
	].join('\n')
};

/** As it came again: C-101 fewer and wider, C-102 gone, C-105 new, C-104 as a size. */
const again = {
	name: 'pier-market-rev-2.csv',
	text: [
		'Saltmarsh Pier Market Hall,,,',
		'Revision 2,,,',
		'ALL DIMENSIONS IN INCHES UNLESS NOTED,,,',
		headings,
		line('C-101', '4', `11'-0"`, 'Stall 1'),
		line('C-103', '1', `8'-2"`, 'Stall 8'),
		line('C-104', '1', '84', 'Stall 9'),
		line('C-105', '2', '72', 'Stall 10')
	].join('\n')
};

describe.skipIf(!hasBrowser)('a schedule as it arrives', () => {
	const driven = drive();

	it('is read as far as it can be, and asks the rest; answered by keyboard', async () => {
		const { page, troubles } = driven.one;
		const jobs = new JobsPage(page);
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		await jobs.open();
		await jobs.make('Market hall, as it arrives');
		await openings.ready();
		await schedule.open();
		await schedule.choose(first);
		expect(await schedule.bringIn.isDisabled()).toBe(true);
		const question = schedule.question(/C-103/u);
		await question.getByRole('button', { name: 'Show row 8' }).press('Enter');
		// The line it is about has the focus.
		expect(await page.evaluate(() => document.activeElement?.getAttribute('data-line'))).toBe('8');
		expect(await schedule.row(10).innerText()).toContain('left out');
		await schedule.answerByKeyboard(/C-103/u, 0);
		await expect.poll(() => schedule.row(7).innerText()).toContain('left out');
		// An answered question stays where it is, and so does the focus.
		expect(
			await question
				.getByRole('radio')
				.first()
				.evaluate((radio) => radio === document.activeElement)
		).toBe(true);
		expect(await seriousFindings(page)).toEqual([]);
		await picture(page, 'import-questions');
		await schedule.bringIn.focus();
		await page.keyboard.press('Enter');
		await page.getByText(/rows brought in/u).waitFor();
		expect(await openings.text(2, 'openingWidth')).toBe(`8'-2"`);
		expect(troubles).toEqual([]);
	});

	it('says that it is read as before, and forgets that when asked to', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		const numbered = (text: string): string => text.replace('Location', 'Ref 7');
		await schedule.open();
		await schedule.choose({ name: 'other-kind.csv', text: numbered(again.text) });
		await schedule.assign('O', 'location');
		await expect.poll(() => schedule.field('O').inputValue()).toBe('location');
		await expect.poll(() => schedule.bringIn.isEnabled()).toBe(true);
		await schedule.bringIn.click();
		await page
			.getByText(/rows brought in/u)
			.last()
			.waitFor();
		await openings.button('Undo').click();

		await schedule.open();
		await schedule.choose({ name: 'other-kind.csv', text: numbered(again.text) });
		await schedule.dialog.getByText('for files like this').waitFor();
		expect(await schedule.field('O').inputValue()).toBe('location');
		await schedule.dialog.getByRole('button', { name: 'Forget that and read it afresh' }).click();
		await expect.poll(() => schedule.field('O').inputValue()).toBe('');
		expect(await schedule.dialog.getByText('for files like this').count()).toBe(0);
		await schedule.dialog.getByRole('button', { name: 'Close' }).click();
	});

	it('that comes again shows what it changes and costs, makes what is ticked, and one undo brings all back', async () => {
		const { page, troubles } = driven.one;
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		const price = async (): Promise<string> => {
			await page.getByRole('link', { name: 'Price', exact: true }).click();
			const sum = page.getByRole('row', { name: /^Price /u }).last();
			const text = await sum.innerText();
			await page.getByRole('link', { name: 'Openings', exact: true }).click();
			await openings.ready();
			return /\$[\d,.]+/u.exec(text)?.[0] ?? text;
		};
		const before = await price();
		await schedule.open();
		await schedule.choose(again);
		await schedule.change(/Add C-105: 2 of 6'-0"/u).waitFor();
		expect(await schedule.total('as it stands').innerText()).toContain(before);
		// Removing is offered, not ticked; what is new and what differs is.
		expect(await schedule.change(/^Remove C-102/u).isChecked()).toBe(false);
		expect(await schedule.change(/^Add C-105/u).isChecked()).toBe(true);
		expect(await schedule.change(/^Opening width: 10'-0" becomes/u).isChecked()).toBe(true);
		const untouched = await schedule.total('with what is ticked').innerText();
		await schedule.change(/^Remove C-102/u).focus();
		await page.keyboard.press('Space');
		await expect.poll(() => schedule.total('with what is ticked').innerText()).not.toBe(untouched);
		const announced = /\$[\d,.]+/u.exec(await schedule.total('with what is ticked').innerText())?.[0];
		expect(await seriousFindings(page)).toEqual([]);
		await schedule.total('difference').scrollIntoViewIfNeeded();
		await picture(page, 'import-again-wide');
		await schedule.bringIn.click();
		await schedule.dialog.waitFor({ state: 'hidden' });
		await expect.poll(() => openings.text(0, 'openingWidth')).toBe(`11'-0"`);
		expect(await openings.text(1, 'mark')).toBe('C-103');
		expect(await openings.text(3, 'mark')).toBe('C-105');
		expect(await price()).toBe(announced);

		await openings.button('Undo').click();
		await expect.poll(() => openings.text(0, 'openingWidth')).toBe(`10'-0"`);
		expect(await openings.text(1, 'mark')).toBe('C-102');
		expect(await price()).toBe(before);
		expect(troubles).toEqual([]);
	});

	it('shows both values when someone changed a cell meanwhile', async () => {
		const { page } = driven.one;
		const schedule = new ScheduleDialog(page);
		await schedule.open();
		await schedule.choose(again);
		await schedule.change(/^Opening width: 10'-0" becomes/u).waitFor();
		const other = await person(driven.browser, driven.program.address);
		const theirs = new OpeningsPage(other.page);
		await theirs.open('Market hall, as it arrives');
		await (await theirs.cell(0, 'openingWidth')).dblclick();
		await other.page.keyboard.press('Control+A');
		await theirs.type(`10'-6"`, 'Enter');
		await theirs.saved();
		await other.context.close();
		await schedule.bringIn.click();
		const cell = schedule.dialog
			.getByRole('table', { name: 'Yours and theirs' })
			.getByRole('row', { name: /Opening width of C-101/u });
		expect(await cell.innerText()).toMatch(/11'-0".*10'-6"/su);
		await schedule.change(/^Opening width: 10'-6" becomes/u).waitFor();
		await schedule.dialog.getByRole('button', { name: 'Close' }).click();
	});

	it('takes a whole tender, every question answered by keyboard, and finds nothing to change the next time', async () => {
		const { page, troubles } = driven.one;
		const jobs = new JobsPage(page);
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		const file = 'fixtures/schedules/ugly/market-hall-tender.xlsx';
		// Questions and lines: market-hall-tender.xlsx.expected.json.
		const answerAll = async (): Promise<void> => {
			await schedule.answerByKeyboard(/rough openings/u, 0);
			await schedule.answerByKeyboard(/A count stands/u, 0);
			await schedule.answerByKeyboard(/several marks/u, 1);
			await schedule.answerByKeyboard(/S-205 stands/u, 1);
			await schedule.answerByKeyboard(/ALTERNATE/u, 0);
			await schedule.row(18).getByRole('button', { name: `Use 10'-4"` }).press('Enter');
			await schedule.row(18).getByRole('button').waitFor({ state: 'detached' });
			expect(await schedule.row(18).innerText()).toContain(`10'-4"`);
		};
		await jobs.open();
		await jobs.make('A whole tender');
		await openings.ready();
		await schedule.open();
		await schedule.choose(file);
		await picture(page, 'import-tender');
		await answerAll();
		expect(await schedule.row(15).innerText()).toContain('held');
		expect(await schedule.row(24).innerText()).toContain('left out');
		// Lines that are left out can be folded away by their reason.
		await schedule.dialog.getByRole('button', { name: /^struck through/u }).press('Space');
		await expect.poll(() => schedule.row(24).count()).toBe(0);
		expect(await seriousFindings(page)).toEqual([]);
		await picture(page, 'import-tender-answered');
		await expect.poll(() => schedule.bringIn.isEnabled()).toBe(true);
		await schedule.bringIn.press('Enter');
		await page
			.getByText(/rows brought in/u)
			.last()
			.waitFor();

		await schedule.open();
		await schedule.choose(file);
		await schedule.dialog.getByText('for files like this').waitFor();
		await schedule.answerByKeyboard(/A count stands/u, 0);
		await schedule.answerByKeyboard(/several marks/u, 1);
		await schedule.answerByKeyboard(/S-205 stands/u, 1);
		await schedule.answerByKeyboard(/ALTERNATE/u, 0);
		await schedule.row(18).getByRole('button', { name: `Use 10'-4"` }).press('Enter');
		await schedule.dialog.getByText(/\b0 changed, 0 new, 0 not in the file/u).waitFor();
		expect(await schedule.bringIn.isDisabled()).toBe(true);
		await schedule.dialog.getByRole('button', { name: 'Close' }).click();
		expect(troubles).toEqual([]);
	});

	it.each(['laptop', 'phone'] as const)('can be read on a %s', async (width) => {
		const { page, context, troubles } = await person(driven.browser, driven.program.address, { width });
		const openings = new OpeningsPage(page);
		const schedule = new ScheduleDialog(page);
		await openings.open('Market hall, as it arrives');
		await schedule.open();
		await schedule.choose(again);
		await schedule.change(/^Add C-105/u).waitFor();
		expect(await fitsWidth(page)).toBe(true);
		expect(await seriousFindings(page)).toEqual([]);
		await picture(page, `import-again-${width}`);
		await schedule.total('difference').scrollIntoViewIfNeeded();
		await picture(page, `import-again-${width}-foot`);
		expect(troubles).toEqual([]);
		await context.close();
	});
});
