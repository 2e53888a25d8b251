/** What every group of browser tests needs, started before it and closed after it. */
import type { Browser } from 'playwright';
import { afterAll, beforeAll } from 'vitest';
import { openBrowser, person, type Person } from './browser.ts';
import { Program } from './program.ts';

export interface Driven {
	readonly program: Program;
	readonly browser: Browser;
	/** A person at a wide screen. */
	readonly one: Person;
}

/** Call it at the top of a `describe`; its fields are there once the tests run. */
export function drive(): Driven {
	const driven: Partial<{ -readonly [K in keyof Driven]: Driven[K] }> = {};
	beforeAll(async () => {
		const [program, browser] = await Promise.all([Program.start(), openBrowser()]);
		Object.assign(driven, { program, browser, one: await person(browser, program.address) });
	});
	afterAll(async () => {
		await driven.browser?.close();
		await driven.program?.close();
	});
	return driven as Driven;
}
