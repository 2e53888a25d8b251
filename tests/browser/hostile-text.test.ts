/**
 * Text full of markup wherever people type text or send files: pages show it as text. Nothing of it runs, nothing is asked
 * of another place, and the content security policy, as it is really sent, has nothing to complain about.
 */
import type { BrowserContext, Page } from 'playwright';
import { beforeAll, describe, expect, it } from 'vitest';
import { usualView } from '../../src/lib/changes/sheet-view.ts';
import { roleIds } from '../../src/lib/changes/roles.ts';
import { trueOpening } from '../../src/lib/fieldwork/sample-measures.ts';
import { partIdFor } from '../../src/lib/takeoff/parts.ts';
import { addressOf, allRoutes } from '../storage/routes.ts';
import { addRow, counter, edit, setCell } from '../storage/services.ts';
import { hasBrowser, person, type Person } from './browser.ts';
import { openOffice, password } from './office.ts';
import { OpeningsPage } from './pages/openings-page.ts';
import { OrdersPage } from './pages/orders-page.ts';
import { ViewPanels } from './pages/view-panels.ts';

/** Each sets `ran` where it is taken for more than text, or asks something of another place. */
const image = '<img src=x onerror=ran=1>';
const script = '"><script>ran=2</script>';
const endings = `</title></textarea></script><script>ran=3</script><svg onload="ran=4">`;
const address = 'javascript:ran=5';
const elsewhere = '<link rel=stylesheet href=//elsewhere.example/x><iframe src="javascript:top.ran=6">';
const template = `{@html "<b>"}\${ran=7}'-(ran=8)-'`;

const jobName = `${image} ${endings}`;
const personName = `${script} ${image}`;

interface Complaints {
	/** Of the policy, as the page is told of them. */
	readonly violations: string[];
	/** Requests that went to another place. */
	readonly elsewhere: string[];
}

async function watch(context: BrowserContext, own: string): Promise<Complaints> {
	const complaints: Complaints = { violations: [], elsewhere: [] };
	await context.exposeFunction('tellViolation', (text: string) => complaints.violations.push(text));
	await context.addInitScript(() => {
		document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, sourceFile }) => {
			const { tellViolation } = window as unknown as { tellViolation: (text: string) => void };
			tellViolation(`${violatedDirective} ${blockedURI} ${sourceFile}`);
		});
	});
	context.on('request', (request) => {
		const url = request.url();
		if (!url.startsWith(`${own}/`) && !/^(?:blob|data):/u.test(url)) complaints.elsewhere.push(url);
	});
	return complaints;
}

const ran = (page: Page): Promise<unknown> =>
	page.evaluate(() => (window as unknown as { ran?: unknown }).ran ?? null);

/** Names of what a policy allows, by directive. */
function policyOf(header: string): Map<string, string[]> {
	const parts = header.split(';').map((part) => part.trim().split(/\s+/u));
	return new Map(parts.map(([name = '', ...sources]) => [name, sources]));
}

describe.skipIf(!hasBrowser)('text full of markup', () => {
	const opened = openOffice();
	let someone: Person;
	let complaints: Complaints;
	let values: Record<string, string>;

	const origin = (): string => opened.office.program.address;
	const headers = () => ({ origin: origin(), accept: 'application/json' });

	async function post(by: Person, path: string, data: unknown): Promise<Record<string, unknown>> {
		const answer = await by.context.request.post(path, { data, headers: headers() });
		if (!answer.ok()) throw new Error(`${path}: ${answer.status()} ${await answer.text()}`);
		return (await answer.json()) as Record<string, unknown>;
	}

	async function join(dark = false): Promise<Person> {
		const { office } = opened;
		const email = `quill-${dark ? 'dark' : 'light'}@tern-gannet.example`;
		const path = await office.invite(personName, email, roleIds);
		const joining = await office.stranger({ dark });
		await post(joining, `/api${path.replace('/invitation/', '/invitations/')}`, {
			name: personName,
			password
		});
		return joining;
	}

	beforeAll(async () => {
		const { office } = opened;
		someone = await join();
		complaints = await watch(someone.context, origin());
		const { id } = await post(someone, '/api/jobs', { name: jobName, measures: 'imperial' });
		const job = String(id);
		const typed = { location: endings, phase: template, note: `${elsewhere}\n${address}` };
		await post(
			someone,
			`/api/jobs/${job}/edits`,
			edit(
				[
					addRow('c1', null, { ...counter(image), ...typed }),
					addRow('c2', 'c1', { ...counter(address), ...typed, note: script })
				],
				`${script} added`
			)
		);
		await post(someone, `/api/jobs/${job}/bids`, { title: `${endings}${image}` });
		await post(someone, `/api/jobs/${job}/edits`, edit([setCell('c2', 'note', script, elsewhere)], image));
		await post(someone, '/api/views', { name: `${script}${image}`, view: usualView });
		const list = `Mark,Description,Qty shipped\r\n${image},"${endings.replaceAll('"', '""')}",1\r\n${address},"Guide, left",2\r\n`;
		const sent = await someone.context.request.post(`/api/jobs/${job}/deliveries`, {
			headers: headers(),
			multipart: {
				ours: 'yes',
				file: { name: `${image}'.csv`, mimeType: 'text/csv', buffer: Buffer.from(list) }
			}
		});
		expect([sent.ok(), await sent.text()]).toEqual([true, expect.any(String)]);
		const { id: delivery } = (await sent.json()) as { id: string };
		const order = await bought(job);
		await siteRecords(job, delivery);
		const path = await office.invite(`${image}${script}`, 'ebba@tern-gannet.example', ['installer']);
		values = {
			job,
			bid: '1',
			token: path.split('/').at(-1) ?? '',
			order,
			delivery,
			opening: 'c1.1',
			part: partIdFor(`${image}.1|guide|left|`, 1)
		};
	});

	/** An order of a supplier with such a name, sent for such a reason, and answered. @returns its id. */
	async function bought(job: string): Promise<string> {
		const { page } = someone;
		await page.goto('/suppliers');
		await page
			.getByRole('button', { name: /^Change/u })
			.first()
			.click();
		await page.getByLabel('Name', { exact: true }).fill(`${image}${script}`);
		await page.keyboard.press('Enter');
		await page.getByRole('heading', { name: `${image}${script}`, exact: true }).waitFor();
		const orders = new OrdersPage(page);
		await page.goto(`/jobs/${job}/orders`);
		const number = await orders.write();
		await orders.changeLine(1, { note: `${script}${template}` });
		await orders.line(1).getByText(script).waitFor();
		await orders.release(endings);
		await orders.takeIn(
			`${image}.csv`,
			`Your order: ${number}\nOrder line,Quantity,Finish\n1,2,${address}\n`
		);
		await orders.differences().first().waitFor();
		await page.getByRole('checkbox', { name: 'Choose all that are not decided' }).check();
		await page.getByLabel('Why, or what is to be put right').fill(`${script}${image}`);
		await orders.button(/^Send back/u).click();
		await orders.told(/are sent back\./u);
		return decodeURIComponent(new URL(page.url()).pathname.split('/').at(-1) ?? '');
	}

	/** What was counted off the truck, and the measure of the first opening. */
	async function siteRecords(job: string, deliveryId: string): Promise<void> {
		const counts = ['damaged', 'wrong'].map((condition) => ({
			countId: `count-${condition}`,
			deliveryId,
			line: null,
			crate: script,
			description: `${image}${condition}`,
			amounts: { whole: '0', damaged: '0', wrong: '0', [condition]: '1' },
			note: `${endings}${template}`,
			photoIds: [],
			countedAt: '2026-12-01T09:30:00Z'
		}));
		await post(someone, `/api/jobs/${job}/counts`, { counts });
		await post(someone, `/api/jobs/${job}/measures`, {
			measureId: 'measure-hostile',
			openingKey: 'c1.1',
			readings: trueOpening(120, 48, { left: 'groutedBlock', right: 'groutedBlock' }),
			note: `${image}${script}`,
			measuredAt: '2026-12-01T09:30:00.000Z'
		});
	}

	const pages = () =>
		allRoutes()
			.filter(({ page }) => page)
			.map(({ route }) => addressOf(route, values));

	async function visit(page: Page, path: string): Promise<string> {
		const answer = await page.goto(path.endsWith('/compare') ? `${path}?first=1&second=now` : path);
		await page.waitForLoadState('networkidle');
		expect([path, await ran(page)]).toEqual([path, null]);
		const links = await page
			.locator('[href], [src], [action]')
			.evaluateAll((all) =>
				all
					.flatMap((one) => ['href', 'src', 'action'].map((name) => one.getAttribute(name) ?? ''))
					.filter((text) => /^\s*javascript:|elsewhere\.example/iu.test(text))
			);
		expect([path, links]).toEqual([path, []]);
		return answer?.headers()['content-security-policy'] ?? '';
	}

	function expectQuiet(troubles: readonly string[], { violations, elsewhere: asked }: Complaints): void {
		expect({ violations, asked, troubles }).toEqual({ violations: [], asked: [], troubles: [] });
	}

	it('is watched: a script of the page itself is refused and told', async () => {
		const stranger = await opened.office.stranger();
		const told = await watch(stranger.context, origin());
		await stranger.page.goto('/sign-in');
		await stranger.page.evaluate((html) => {
			document.body.insertAdjacentHTML('beforeend', html);
		}, `${image}<iframe src="//elsewhere.example/"></iframe>`);
		await expect
			.poll(() => told.violations.map((text) => text.split(' ')[0]).sort())
			.toEqual(['frame-src', 'script-src-attr']);
		expect(await ran(stranger.page)).toBeNull();
		await stranger.context.close();
	});

	it('is shown as text on every page, under a policy that runs no script but our own', async () => {
		const { page, troubles } = someone;
		for (const path of pages()) {
			const policy = policyOf(await visit(page, path));
			const scripts = policy.get('script-src') ?? [];
			expect([
				path,
				scripts.filter((source) => !/^'(?:self|nonce-[^']+|sha256-[^']+)'$/u.test(source))
			]).toEqual([path, []]);
			expect(scripts).toContain("'self'");
			for (const name of ['object-src', 'base-uri', 'frame-src', 'frame-ancestors'])
				expect([path, name, policy.get(name)]).toEqual([path, name, ["'none'"]]);
			for (const name of ['default-src', 'connect-src', 'worker-src', 'form-action'])
				expect([path, name, policy.get(name)]).toEqual([path, name, ["'self'"]]);
		}
		await visit(page, `/jobs/${values.job ?? ''}/history`);
		const said = await page.locator('body').innerText();
		expect(said).toContain(`${script} added`);
		await visit(page, '/people');
		expect(await page.locator('body').innerText()).toContain(`${image}${script}`);
		await visit(page, `/jobs/${values.job ?? ''}/deliveries`);
		expect(await page.locator('body').innerText()).toContain(image);
		await visit(page, '/suppliers');
		expect(await page.locator('body').innerText()).toContain(`${image}${script}`);
		await visit(page, `/jobs/${values.job ?? ''}/orders/${values.order ?? ''}`);
		for (const text of [`${image}${script}`, `${script}${template}`, endings, `${script}${image}`])
			expect(await page.locator('body').innerText()).toContain(text);
		await visit(page, `/jobs/${values.job ?? ''}/site/damage/${values.delivery ?? ''}`);
		expect(await page.locator('body').innerText()).toContain(`${image}damaged`);
		expectQuiet(troubles, complaints);
	});

	it('is text in the sheet, its panels, and what is told of others, in light and in dark', async () => {
		for (const dark of [false, true]) {
			const one = dark ? await join(true) : someone;
			const told = dark ? await watch(one.context, origin()) : complaints;
			const other = await person(opened.office.browser, origin());
			const email = 'quill-light@tern-gannet.example';
			await opened.office.signIn(other, email);
			const toldOther = await watch(other.context, origin());
			const path = `/jobs/${values.job ?? ''}/openings`;
			await Promise.all([visitSheet(one.page, path), visitSheet(other.page, path)]);
			const openings = new OpeningsPage(one.page);
			expect(await openings.text(0, 'mark')).toBe(image);
			await openings.goTo(0, 'mark');
			for (const tab of await one.page.getByRole('tab').all()) {
				await tab.click();
				await one.page.waitForLoadState('networkidle');
			}
			const views = new ViewPanels(one.page);
			await views.open('Views');
			await views.close();
			await views.open('Columns');
			await views.close();

			const elsewhereSheet = new OpeningsPage(other.page);
			await elsewhereSheet.goTo(1, 'location');
			await elsewhereSheet.type(`${script}${dark ? 'dark' : 'light'}`, 'Enter');
			await elsewhereSheet.saved();
			await expect.poll(() => openings.text(1, 'location')).toBe(`${script}${dark ? 'dark' : 'light'}`);

			const downloaded = async (ask: () => Promise<void>): Promise<string | null> => {
				const [file] = await Promise.all([one.page.waitForEvent('download'), ask()]);
				return file.failure();
			};
			for (const what of ['Material list', 'Takeoff workbook'])
				expect(await downloaded(() => openings.takeOut(what))).toBeNull();
			await openings.takeOut('Print');
			expect(
				await downloaded(() =>
					one.page.getByRole('dialog').getByRole('button', { name: 'Make the PDF' }).click()
				)
			).toBeNull();
			for (const { page } of [one, other]) expect(await ran(page)).toBeNull();
			expectQuiet(one.troubles, told);
			expectQuiet(other.troubles, toldOther);
			await other.context.close();
		}
	});

	async function visitSheet(page: Page, path: string): Promise<void> {
		await page.goto(path);
		await new OpeningsPage(page).ready();
	}

	it('in an address is text, too', async () => {
		const { page } = await opened.office.stranger();
		const told = await watch(page.context(), origin());
		const inPath = encodeURIComponent(`${endings}${image}`);
		for (const path of [
			`/sign-in?to=${encodeURIComponent(address)}`,
			`/sign-in?to=${inPath}`,
			`/invitation/${inPath}`,
			`/invitation/${values.token ?? ''}`
		])
			await visit(page, path);
		await opened.office.signIn(
			{ page, context: page.context(), troubles: [] },
			'quill-light@tern-gannet.example'
		);
		for (const path of [
			`/${inPath}`,
			`/jobs/${inPath}/openings`,
			`/jobs/${values.job ?? ''}/bids/${inPath}`,
			`/jobs/${values.job ?? ''}/history?row=${inPath}`
		])
			await visit(page, path);
		expect(told).toEqual({ violations: [], elsewhere: [] });
		await page.context().close();
	});
});
