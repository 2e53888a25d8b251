/** A truck is counted on a phone: with signal and without, twice and by several people, with a photo that is far too large. */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import type { CountSheet } from '../../src/lib/changes/site.ts';
import { fitsWidth, hasBrowser, person, picture, seriousFindings, type Person } from './browser.ts';
import { openOffice } from './office.ts';
import { CountPage } from './pages/count-page.ts';
import { OpeningsPage } from './pages/openings-page.ts';

const job = 'Saltmarsh Pier Market Hall';
const list = 'saltmarsh-truck-2.csv';
/** What the list calls itself. */
const number = 'PL-4502';

/** A photo of some 40 MB, made in the browser: noise can’t be packed. Invented. */
async function takeLargePhoto(form: Locator): Promise<number> {
	return form.locator('input[type=file]').evaluate(async (input: HTMLInputElement) => {
		const canvas = document.createElement('canvas');
		canvas.width = 5400;
		canvas.height = 4000;
		const pen = canvas.getContext('2d');
		if (!pen) throw new Error('nothing to draw with');
		const noise = pen.createImageData(canvas.width, canvas.height);
		const points = new Uint32Array(noise.data.buffer);
		for (let i = 0; i < points.length; i++) points[i] = (Math.random() * 0xffffff) | 0xff000000;
		pen.putImageData(noise, 0, 0);
		const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 1));
		if (!blob) throw new Error('no photo');
		const files = new DataTransfer();
		files.items.add(new File([blob], 'IMG_0042.jpg', { type: 'image/jpeg' }));
		input.files = files.files;
		input.dispatchEvent(new Event('change', { bubbles: true }));
		return blob.size;
	});
}

/** Counts as the office has them. */
async function inOffice(page: Page): Promise<CountSheet['counts']> {
	const [, id = '', delivery = ''] = /jobs\/([^/]+)\/site\/count\/([^/#]+)/u.exec(page.url()) ?? [];
	const reply = await page.request.get(`/jobs/${id}/site/count/${delivery}/__data.json`);
	// The data of a page names each value by its place in a list.
	const { nodes } = (await reply.json()) as { nodes: { data: unknown[] }[] };
	const values = nodes.at(-1)?.data ?? [];
	const read = (at: unknown): unknown => {
		const value = typeof at === 'number' ? (at < 0 ? null : values[at]) : at;
		if (Array.isArray(value)) return value.map(read);
		if (typeof value !== 'object' || value === null) return value;
		return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, read(inner)]));
	};
	return (read(0) as { sheet: CountSheet }).sheet.counts;
}

describe.skipIf(!hasBrowser)('counting on site', () => {
	const opened = openOffice();

	/** An installer with a phone. */
	async function installer(name: string): Promise<Person & { readonly email: string }> {
		const { office } = opened;
		const joined = await office.join(name, ['installer']);
		await joined.context.close();
		const phone = await person(office.browser, office.program.address, { width: 'phone' });
		await office.signIn(phone, joined.email);
		return { ...phone, email: joined.email };
	}

	beforeAll(async () => {
		const { owner, program } = opened.office;
		await new OpeningsPage(owner.page).open(job);
		const [, id = ''] = /jobs\/([^/]+)/u.exec(owner.page.url()) ?? [];
		const file = { name: list, mimeType: 'text/csv', buffer: readFileSync(`fixtures/deliveries/${list}`) };
		const taken = await owner.context.request.post(`/api/jobs/${id}/deliveries`, {
			multipart: { file, ours: 'yes', supplierId: 'none' },
			headers: { origin: program.address }
		});
		expect(taken.status()).toBe(200);
	});

	it('counts with one tap, splits by condition, and makes a photo of 40 MB small', async () => {
		const { page, context, troubles } = await installer('Inga');
		const count = new CountPage(page);
		await count.open(job, number);
		await count.crate('2');
		await count.allHere(6).click();
		await count.line(6).getByText('2 whole', { exact: true }).waitFor();
		await count.says('Everything is in the office.');

		const form = await count.form(7);
		await form.getByRole('button', { name: 'One more damaged' }).click();
		await form.getByText('2 in all, as listed').waitFor();
		await form.getByLabel('Note').fill('bent at the foot');
		expect(await takeLargePhoto(form)).toBeGreaterThan(36 * 1024 * 1024);
		await form.getByRole('img', { name: 'Photo 1 of Guide' }).waitFor({ timeout: 60_000 });
		await picture(page, 'count-form-390', true);
		await count.keep(form);
		await count.says('Everything is in the office.');
		await count.line(7).getByText('1 whole, 1 damaged').waitFor();
		await count
			.line(7)
			.getByText(/Inga Lisle/u)
			.waitFor();
		// The photo is shown as the office has it, and is small.
		const photo = count.line(7).getByRole('img');
		await expect.poll(() => photo.getAttribute('src')).toContain('/photos/');
		const kept = await page.request.get((await photo.getAttribute('src')) ?? '');
		expect(kept.headers()['content-type']).toBe('image/jpeg');
		expect((await kept.body()).byteLength).toBeLessThan(6 * 1024 * 1024);
		expect(troubles).toEqual([]);
		await context.close();
	});

	it('tells a negative count, half a piece and two too many', async () => {
		const { page, context } = await installer('Ivo');
		const count = new CountPage(page);
		await count.open(job, number);
		await count.crate('3');
		const form = await count.form(9);
		await form.getByRole('textbox', { name: 'Whole' }).fill('-3');
		await form.getByText('a count is 0 or more').first().waitFor();
		await form.getByRole('button', { name: 'Keep this count' }).click();
		await form.getByRole('alert').getByText('-3 whole can’t be: a count is 0 or more.').waitFor();
		await form.getByRole('textbox', { name: 'Whole' }).fill('1.5');
		await form.getByText('counted in whole pieces').first().waitFor();
		await form.getByRole('textbox', { name: 'Whole' }).fill('4');
		await form.getByText('4 in all: 2 more than listed').waitFor();
		await count.keep(form);
		await count.line(9).getByText('2 more than listed').waitFor();
		await context.close();
	});

	it('keeps counts without signal, over a reload, and sends each once when there is signal', async () => {
		const { page, context } = await installer('Runa');
		const count = new CountPage(page);
		await count.open(job, number);
		const before = (await inOffice(page)).length;
		await count.crate('4');
		await context.setOffline(true);
		await count.allHere(12).click();
		await count.allHere(13).click();
		await count.says('2 counts are on this phone only; they go to the office when there is signal.');
		await count.line(13).getByText('on this phone only').waitFor();
		await picture(page, 'count-no-signal-390', true);

		// Back, but the office does not answer; the page is put away and opened again.
		await context.route('**/api/**/counts', (route) => route.abort());
		await context.setOffline(false);
		await page.reload();
		await count.says(/2 counts are on this phone only/u);
		await count.line(12).getByText('on this phone only').waitFor();

		// The first answer is lost on the way: the phone sends the same again.
		await context.unroute('**/api/**/counts');
		let lost = 0;
		await context.route('**/api/**/counts', async (route) => {
			if (lost > 0) return route.continue();
			lost++;
			await route.fetch();
			return route.abort();
		});
		await count.office.getByRole('button', { name: 'Try now' }).click();
		await count.says('Everything is in the office.');
		expect(lost).toBe(1);
		expect(await inOffice(page)).toHaveLength(before + 2);
		await context.close();
	});

	it('keeps what is half counted when the phone puts the page away', async () => {
		const { page, context } = await installer('Teal');
		const count = new CountPage(page);
		await count.open(job, number);
		await count.crate('1');
		const form = await count.form(4);
		await form.getByRole('button', { name: 'One more wrong' }).click();
		await form.getByLabel('Note').fill('other size');
		await page.reload();
		const again = await count.form(4);
		await expect.poll(() => again.getByLabel('Note').inputValue()).toBe('other size');
		expect(await again.getByRole('textbox', { name: 'Wrong' }).inputValue()).toBe('1');
		await again.getByRole('button', { name: 'Leave it' }).click();
		const anew = await count.form(4);
		expect(await anew.getByLabel('Note').inputValue()).toBe('');
		await context.close();
	});

	it('never sends under the name of somebody else', async () => {
		const first = await installer('Wren');
		const { page, context } = first;
		const count = new CountPage(page);
		await count.open(job, number);
		await count.crate('1');
		await context.setOffline(true);
		await count.allHere(4).click();
		await count.says(/1 count is on this phone only/u);
		await context.route('**/api/**/counts', (route) => route.abort());
		await context.setOffline(false);
		const other = await opened.office.join('Plover', ['installer']);
		await other.context.close();
		await context.clearCookies();
		await opened.office.signIn(first, other.email);
		await page.goto('about:blank');
		await context.unroute('**/api/**/counts');
		await count.open(job, number);
		await count.says('1 of somebody else waits on this phone, until they sign in here.');
		await count.says('Everything is in the office.');
		expect((await inOffice(page)).some(({ by }) => by.startsWith('Plover'))).toBe(false);

		// The first is back: it goes under their name.
		await context.clearCookies();
		await opened.office.signIn(first, first.email);
		await page.goto('about:blank');
		await count.open(job, number);
		await expect
			.poll(async () =>
				(await inOffice(page)).filter(({ line }) => line === 4).map(({ by }) => by.split(' ')[0])
			)
			.toEqual(['Wren']);
		await context.close();
	});

	it('takes what is on no line, closes the truck, and collects the damage notes', async () => {
		const { page, context } = await installer('Odo');
		const count = new CountPage(page);
		await count.open(job, number);
		await count.crate('2');
		await page.getByRole('button', { name: 'Add something that is on no line' }).click();
		const form = page.getByRole('form', { name: 'Something on no line' });
		await form.getByLabel('What it is').fill('Chain hoist');
		await count.keep(form);
		await page.getByRole('button', { name: 'This truck is counted' }).click();
		const dialog = page.getByRole('dialog');
		await dialog.getByText(/^\s*Line /u).waitFor();
		await dialog.getByRole('button', { name: /^Nothing of (?:it|them) came/u }).click();
		await page.getByText('This truck is counted.').waitFor();
		await count.says('Everything is in the office.');
		expect(await page.getByRole('button', { name: /^All .* here/u }).count()).toBe(0);

		await page.getByRole('link', { name: /^Damage notes to sign/u }).click();
		await page.getByRole('heading', { name: /^\d+ notes$/u }).waitFor();
		const notes = page.getByRole('listitem');
		await notes.filter({ hasText: 'bent at the foot' }).getByText('1 damaged').waitFor();
		await notes.filter({ hasText: 'Chain hoist' }).getByText('on no line of the list').waitFor();
		await page.getByLabel('Delivered on').fill('2026-12-28');
		await page.getByText('2027-01-02').first().waitFor();
		await picture(page, 'damage-390', true);
		const [file] = await Promise.all([
			page.waitForEvent('download'),
			page.getByRole('link', { name: 'As a PDF file' }).click()
		]);
		expect(file.suggestedFilename()).toBe('Saltmarsh Pier Market Hall damage notes.pdf');
		expect(await page.getByText(/\$|€|price/iu).count()).toBe(0);
		await context.close();
	});

	it.each(['light', 'dark', 'contrast'] as const)('can be read on a small phone: %s', async (screen) => {
		const { page, context } = await installer('Piet');
		await page.setViewportSize({ width: 360, height: 640 });
		const count = new CountPage(page);
		const look = async (name: string): Promise<void> => {
			await picture(page, `${name}-360-${screen}`, true);
			expect(await fitsWidth(page)).toBe(true);
			expect(await seriousFindings(page)).toEqual([]);
			const small = await page
				.locator('main :is(button, .button, summary, input):visible')
				.evaluateAll((all) =>
					all
						.filter((one) => one.getAttribute('type') !== 'file')
						.filter((one) => one.getBoundingClientRect().height < 44)
						.map((one) => one.textContent)
				);
			expect(small).toEqual([]);
		};
		await count.site(job);
		await page.getByLabel('Screen').selectOption(screen);
		await look('site');
		await count.open(job, number);
		await look('count');
		await count.crate('2');
		const shut = page.getByRole('button', { name: 'Open the count again' });
		if (await shut.isVisible()) await shut.click();
		await count.form(7);
		await page.getByText('Before you unload').click();
		await look('crate');
		await page.getByRole('link', { name: /^Damage notes to sign/u }).click();
		await page.getByRole('heading', { name: 'Concealed damage' }).waitFor();
		await look('damage');
		await context.close();
	});
});
