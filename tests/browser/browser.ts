/** Chromium for the tests, and what is expected of every page in it. */
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright';

const debian = '/usr/bin/chromium';
const executable = existsSync(debian) ? debian : chromium.executablePath();

/** Without a browser the tests are skipped; with CI=true that is a failure (see tests/run.mjs). */
export const hasBrowser = existsSync(executable) || process.env.CI === 'true';

export const openBrowser = (): Promise<Browser> =>
	chromium.launch({
		executablePath: executable,
		args: [
			'--no-sandbox',
			'--disable-gpu',
			'--disable-quic',
			'--no-first-run',
			'--disable-background-networking',
			'--disable-component-update',
			'--disable-sync'
		]
	});

export const widths = { wide: 1440, laptop: 1024, phone: 390 } as const;
export type Width = keyof typeof widths;

/** A person at one screen. `troubles` collects what the page complains about in the console. */
export interface Person {
	readonly context: BrowserContext;
	readonly page: Page;
	readonly troubles: string[];
}

export async function person(
	browser: Browser,
	address: string,
	{ width = 'wide', dark = false }: { width?: Width; dark?: boolean } = {}
): Promise<Person> {
	const phone = width === 'phone';
	const context = await browser.newContext({
		baseURL: address,
		viewport: { width: widths[width], height: phone ? 844 : width === 'laptop' ? 768 : 900 },
		hasTouch: phone,
		isMobile: phone,
		colorScheme: dark ? 'dark' : 'light',
		acceptDownloads: true,
		locale: 'en-GB'
	});
	context.setDefaultTimeout(15_000);
	const page = await context.newPage();
	const troubles: string[] = [];
	page.on('pageerror', (error) => troubles.push(error.message));
	page.on('console', (message) => {
		// A server that was stopped on purpose is no trouble of the page.
		const expected = /Failed to load resource: (?:net::|the server responded with a status of (?:409|422))/u;
		if (message.type() === 'error' && !expected.test(message.text())) troubles.push(message.text());
	});
	return { context, page, troubles };
}

/** Serious and critical findings of axe, one line each; by all its rules when none is named. */
export async function seriousFindings(page: Page, rules: readonly string[] = []): Promise<string[]> {
	// No page has frames, so axe runs in the page as a whole; what passes is not told one by one. Each is half of its time.
	const axe = new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });
	const { violations } = await (rules.length > 0 ? axe.withRules([...rules]) : axe).analyze();
	return violations
		.filter(({ impact }) => impact === 'serious' || impact === 'critical')
		.flatMap(({ id, help, nodes }) =>
			nodes.map(
				(node) => `${id}: ${help} at ${node.target.map(String).join(' ')} ${node.failureSummary ?? ''}`
			)
		);
}

/** True when the page itself cannot be scrolled sideways. */
export const fitsWidth = (page: Page): Promise<boolean> =>
	page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth);

const tallestPicture = 2600;

/**
 * With `PICTURES=yes`, a picture in `test-results` to look at; not compared with anything. With `tall`, what is below
 * the window too, up to a height.
 */
export async function picture(page: Page, name: string, tall = false): Promise<void> {
	if (process.env.PICTURES !== 'yes') return;
	await mkdir('test-results', { recursive: true });
	const path = join('test-results', `${name}.png`);
	if (!tall) {
		await page.screenshot({ path });
		return;
	}
	const { width, height } = await page.evaluate(() => ({
		width: document.documentElement.clientWidth,
		height: document.documentElement.scrollHeight
	}));
	const clip = { x: 0, y: 0, width, height: Math.min(height, tallestPicture) };
	await page.screenshot({ path, fullPage: true, clip });
}
