/** A job entered without the mouse; results as worked by hand for the demo shop book (docs of the shop book: invented). */
import { describe, expect, it } from 'vitest';
import { hasBrowser } from './browser.ts';
import { drive } from './driven.ts';
import { JobsPage } from './pages/jobs-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';

describe.skipIf(!hasBrowser)('entering a job by keyboard', () => {
	const driven = drive();

	it('takes two openings, refuses a length in place, undoes, and shows all of it after a reload', async () => {
		const { page, troubles } = driven.one;
		const jobs = new JobsPage(page);
		const openings = new OpeningsPage(page);
		await jobs.open();
		await jobs.make('Pier 7 counters');
		await openings.ready();

		// Opening A of the demo shop book: 10'-0" × 4'-0", counter slat on the face of grouted block.
		await openings.addByKeyboard();
		await openings.typeRow([
			['mark', 'A'],
			['quantity', '2'],
			['location', 'Fish dock'],
			['phase', '1']
		]);
		await openings.focusedIs('openingWidth');
		await openings.type(`10'-x`);
		await openings.underCell.getByText('Not read:').waitFor();
		expect(await openings.underCell.innerText()).toMatch(/Not read: .+ write /u);
		const editor = page.getByRole('textbox', { name: 'Opening width' });
		expect(await editor.inputValue()).toBe(`10'-x`);
		expect(await editor.getAttribute('aria-invalid')).toBe('true');
		await page.keyboard.press('Control+a');
		await page.keyboard.type('120');
		await openings.underCell.getByText(`Read as 10'-0"`).waitFor();
		await page.keyboard.press('Tab');
		await openings.typeRow([
			['openingHeight', '4 ft'],
			['sill', 'counter'],
			['sillHeight', '36'],
			['curtain', 'counter-sl'],
			['finish', 'mill'],
			['hood', 'steel'],
			['mounting', 'face'],
			['guide', 'counter-f'],
			['leftSubstrate', 'grouted'],
			['rightSubstrate', 'grouted'],
			['headSubstrate', 'grouted'],
			['fixing', 'standard'],
			['operation', 'tube'],
			['driveSide', 'right']
		]);
		await openings.focusedIs('controls');
		await openings.saved();

		// Worked by hand: guide distance 120 + 2 × 0.25; curtain 120.5 + 2 × 1.25; barrel span 120.5 + 2 × 2;
		// guide 48 + 2; 46 rows; 123 in × 69 in = 58.94 ft²; 12.34 lb-ft × 1.1 × 1.25 = 16.97; anchors 4 + 4 + 2 + 2;
		// coil 61.9 + 10.25 + 45.0 + 7; shipping 188.3 lb; 11.75 h of the installers and 2 h of the electrician.
		expect(await openings.results()).toMatchObject({
			'Guide distance': `10'-0 1/2"`,
			'Curtain width': `10'-3"`,
			'Bracket distance': `10'-4 1/2"`,
			'Guide length': `4'-2"`,
			'Curtain rows': '46',
			'Curtain area': '58.94 ft²',
			Barrel: '3.5 in',
			'Bracket size': '10"',
			'Torque needed': '16.97 lb-ft',
			Anchors: '12',
			'Hood pieces': '1',
			'Hood supports': '0',
			'Coil weight': '124.2 lb',
			'Shipping weight': '188.3 lb',
			'Labour hours': '13.75 h'
		});

		// Opening B, every cell again by keyboard.
		await openings.addByKeyboard();
		await openings.typeRow([
			['mark', 'B'],
			['quantity', ''],
			['location', ''],
			['phase', ''],
			['openingWidth', `16'`],
			['openingHeight', `9'-0"`],
			['sill', 'floor'],
			['sillHeight', '0'],
			['curtain', 'heavy'],
			['finish', ''],
			['hood', 'steel'],
			['mounting', 'face'],
			['guide', 'store-f'],
			['leftSubstrate', 'concrete'],
			['rightSubstrate', 'stud'],
			['headSubstrate', ''],
			['fixing', 'standard'],
			['operation', 'tube'],
			['driveSide', 'left']
		]);
		await openings.focusedIs('controls');
		await openings.saved();
		// By hand: 192 + 2 × 0.5; 68 rows; 107.0 × 1.1 × 1.25 = 147.1; anchors 6 + 10 + 4 + 4; 769.3 lb.
		expect(await openings.results()).toMatchObject({
			'Guide distance': `16'-1"`,
			'Curtain rows': '68',
			'Curtain area': '185.82 ft²',
			Barrel: '4.5 in',
			'Bracket size': '16"',
			'Torque needed': expect.stringMatching(/^147\.1\d lb-ft$/u) as string,
			Anchors: '24',
			'Hood pieces': '2',
			'Hood supports': '1',
			'Shipping weight': '769.3 lb'
		});

		// Undo takes the hand of B away again, redo brings it back.
		expect(await openings.text(1, 'driveSide')).toBe('left');
		await page.keyboard.press('Control+z');
		await expect.poll(() => openings.text(1, 'driveSide')).toBe('needed');
		await page.keyboard.press('Control+Shift+z');
		await expect.poll(() => openings.text(1, 'driveSide')).toBe('left');

		await openings.reload();
		expect(await openings.text(0, 'mark')).toBe('A');
		expect(await openings.text(1, 'mark')).toBe('B');
		expect(await openings.text(0, 'openingWidth')).toBe(`10'-0"`);
		expect(await openings.text(1, 'openingHeight')).toBe(`9'-0"`);
		expect(troubles).toEqual([]);
	});

	it('opens the working of a result, follows it inwards and comes back', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		await openings.button('Worked out').click();
		await (await openings.cell(0, 'guideDistance')).click();
		const panel = page.getByRole('tabpanel');
		await panel.getByText('openingWidth + wallOffsetLeft + wallOffsetRight').waitFor();
		await panel.getByRole('button', { name: 'Opening width' }).click();
		await panel.getByRole('heading', { name: 'Opening width' }).waitFor();
		await panel.getByRole('button', { name: 'Back' }).click();
		await panel.getByRole('heading', { name: 'Guide distance' }).waitFor();
		await page.locator('.ag-cell-focus').focus();
		await page.keyboard.press('ArrowRight');
		await panel.getByRole('heading', { name: 'Curtain width' }).waitFor();
		await openings.button('Both').click();
	});

	it('keeps a refused entry in its cell when left by a click, and never stores it', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		await openings.button('Both').click();
		await (await openings.cell(0, 'openingHeight')).click();
		await page.keyboard.type('four');
		await (await openings.cell(1, 'openingWidth')).click();
		await expect.poll(() => openings.text(0, 'openingHeight')).toBe('four');
		await page.getByRole('button', { name: /1 entry not read/u }).waitFor();
		await openings.reload();
		expect(await openings.text(0, 'openingHeight')).toBe(`4'-0"`);
	});

	it('duplicates, gives one opening its own row, and deletes with a way back', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		await (await openings.cell(0, 'mark')).click();
		await openings.button('Own row').click();
		await expect.poll(() => openings.text(1, 'mark')).toBe('A.1');
		expect(await openings.text(1, 'openingWidth')).toBe(`10'-0"`);
		await (await openings.cell(0, 'mark')).click();
		await openings.button('Delete').click();
		await expect.poll(() => openings.text(0, 'mark')).toBe('B');
		await openings.saved();
		await openings.button('Undo').click();
		await expect.poll(() => openings.text(0, 'mark')).toBe('A');
		expect(await openings.text(1, 'mark')).toBe('A.1');
		expect(await openings.text(2, 'mark')).toBe('B');
	});

	it('pastes a table as one edit and lists what was refused', async () => {
		const { page } = driven.one;
		const openings = new OpeningsPage(page);
		await (await openings.cell(2, 'openingWidth')).click();
		await page.evaluate(() => {
			const data = new DataTransfer();
			data.setData('text/plain', `15'-0"\t8'-0"\nwide\t7'-0"\n`);
			document.activeElement?.dispatchEvent(
				new ClipboardEvent('paste', { clipboardData: data, bubbles: true })
			);
		});
		const dialog = page.getByRole('dialog');
		await dialog.getByText('3 cells went in, 1 were refused').waitFor();
		await dialog.getByRole('cell', { name: 'wide', exact: true }).waitFor();
		await dialog.getByRole('button', { name: 'Close' }).click();
		expect(await openings.text(2, 'openingWidth')).toBe(`15'-0"`);
		expect(await openings.text(3, 'openingHeight')).toBe(`7'-0"`);
		await openings.saved();
		await openings.button('Undo').click();
		await expect.poll(() => openings.text(2, 'openingWidth')).toBe(`16'-0"`);
	});
});
