/** The board of what can start, the list for a day and the chain of a part, as a person uses them. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, widths, type Width } from './browser.ts';
import { drive } from './driven.ts';
import { OpeningsPage } from './pages/openings-page.ts';

const jobName = 'Saltmarsh Pier Market Hall';

describe.skipIf(!hasBrowser)('what can start', () => {
	const driven = drive();
	let job = '';

	beforeAll(async () => {
		const { page } = driven.one;
		await new OpeningsPage(page).open(jobName);
		job = /\/jobs\/([^/]+)\//u.exec(page.url())?.[1] ?? '';
		// Two days of the plan, and a truck.
		const plans = [
			{ openingId: 'C-101.2', startsOn: '2026-12-01', release: 1, boughtAs: 'parts' },
			{ openingId: 'C-101.1', startsOn: '2026-12-02', release: 1, boughtAs: 'parts' }
		];
		const planned = await page.request.put(`/api/jobs/${job}/plan`, {
			data: { plans },
			headers: { origin: driven.program.address }
		});
		expect(planned.status()).toBe(200);
		const name = 'saltmarsh-truck-1.xlsx';
		const taken = await page.request.post(`/api/jobs/${job}/deliveries`, {
			multipart: {
				file: {
					name,
					mimeType: 'application/octet-stream',
					buffer: await readFile(join('fixtures', 'deliveries', name))
				}
			},
			headers: { origin: driven.program.address }
		});
		expect(taken.status()).toBe(200);
	});

	const board = async (page: Page): Promise<void> => {
		await page.goto(`/jobs/${job}/site/board`);
		await page.getByRole('heading', { name: 'What can start', exact: true }).waitFor();
	};
	const day = async (page: Page): Promise<void> => {
		await page.goto(`/jobs/${job}/site/board/day?day=2026-12-02`);
		await page.getByRole('heading', { name: 'What can start, up to 2026-12-02' }).waitFor();
	};
	const chain = async (page: Page): Promise<void> => {
		await page.goto(`/jobs/${job}/parts?find=C-101.2+guide+left`);
		await page.getByRole('heading', { name: 'Guide, left, C-101.2' }).waitFor();
	};

	it('says what holds each opening, and follows the way of dealing that is chosen', async () => {
		const { page } = driven.one;
		await board(page);
		const row = page.getByRole('row', { name: /^C-101\.2 / });
		await row.getByText('whole opening held: installer').click();
		await row.getByText('Not measured yet.').waitFor();
		await page.getByRole('combobox', { name: /^Show/u }).selectOption('start');
		await page.getByText('No opening is so.').waitFor();
		await page.getByRole('combobox', { name: /^Show/u }).selectOption('all');
		// First in the wanted order stands first.
		expect(await page.locator('tbody th').first().innerText()).toContain('C-101.2');
		await page.getByRole('link', { name: 'Follow this one' }).click();
		await page.waitForURL(/deal=most/u);
		await page
			.getByRole('region', { name: 'So that the most can start' })
			.getByText('The board follows this one.')
			.waitFor();
		await page.getByText(/No way of dealing lets more than 0 openings .*: proved\./u).waitFor();
		await page.getByRole('button', { name: 'Reckon what one more delivery would free' }).click();
		await page.getByText('No single promise and no single kind of part').waitFor();
	});

	it('lists a day with cautions and what holds each opening, to print', async () => {
		const { page } = driven.one;
		await day(page);
		await page.getByText(/^Springs hold energy/u).waitFor();
		await page.getByRole('rowheader', { name: /^C-101\.1 / }).waitFor();
		const waiting = page.waitForEvent('download');
		await page.getByRole('button', { name: 'Take the list as PDF' }).click();
		expect((await waiting).suggestedFilename()).toBe(`${jobName} can start 2026-12-02.pdf`);
		await page.getByLabel('Planned to start up to').fill('2026-12-01');
		await page.getByRole('heading', { name: 'What can start, up to 2026-12-01' }).waitFor();
		expect(await page.getByRole('rowheader', { name: /^C-101\.1 / }).count()).toBe(0);
	});

	it('goes from a part to its list, and finds it again by its id', async () => {
		const { page } = driven.one;
		await chain(page);
		await page.getByText('On no order yet.').waitFor();
		await page.getByRole('link', { name: 'saltmarsh-truck-1.xlsx' }).waitFor();
		const id = /\/parts\/(P-[^/]+)$/u.exec(page.url())?.[1] ?? '';
		await page.goto(`/jobs/${job}/site/board`);
		await page.getByLabel(/Part id, line of an order/u).fill(id.toLowerCase());
		await page.getByRole('button', { name: 'Find the part' }).click();
		await page.getByRole('heading', { name: 'Guide, left, C-101.2' }).waitFor();
	});

	const screens = [
		['start-board', board],
		['start-day', day],
		['part-chain', chain]
	] as const;
	it.each(screens)('%s: nothing serious for axe, and it fits every width', async (name, open) => {
		for (const dark of [false, true]) {
			const { page, context } = await person(driven.browser, driven.program.address, { dark });
			await open(page);
			await picture(page, `${name}-1440${dark ? '-dark' : ''}`);
			expect(await seriousFindings(page, dark ? ['color-contrast'] : [])).toEqual([]);
			await context.close();
		}
		for (const width of ['laptop', 'phone'] satisfies Width[]) {
			const { page, context } = await person(driven.browser, driven.program.address, { width });
			await open(page);
			await picture(page, `${name}-${String(widths[width])}`, width === 'phone');
			expect(await fitsWidth(page)).toBe(true);
			await context.close();
		}
	});
});
