/**
 * `npm run bench:sheet`: the sheet of 5,000 openings in Chromium, on the built program. How long until a typed size is
 * painted with its results, a table is pasted, the job is open; whether rows are blank while scrolling; how much script
 * the page loads, and what of it before the first paint. Figures of one machine, beside an empty frame of the same run.
 */
import { gzipSync } from 'node:zlib';
import type { Page, Response } from 'playwright';
import type { Change } from '../../src/lib/changes/message.ts';
import { usualView } from '../../src/lib/changes/sheet-view.ts';
import { isUsual, usualResults } from '../../src/lib/client/grid/result-columns.ts';
import { inputs } from '../../src/lib/takeoff/inputs.ts';
import { openBrowser } from '../browser/browser.ts';
import { Program } from '../browser/program.ts';
import { openingA, openingB, openingC, typedRow } from '../opening-rows.ts';

const openings = 5_000;
const edits = 80;

const median = (values: readonly number[]): number =>
	[...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
const share = (values: readonly number[], part: number): number =>
	[...values].sort((a, b) => a - b)[Math.ceil(values.length * part) - 1] ?? Number.NaN;
const ms = (value: number): string => `${value.toFixed(value < 10 ? 1 : 0)} ms`;

async function jobOf(address: string, count: number): Promise<string> {
	const post = async (path: string, body: unknown, method = 'POST'): Promise<Record<string, unknown>> => {
		const answer = await fetch(`${address}${path}`, {
			method,
			headers: { 'content-type': 'application/json', origin: address },
			body: JSON.stringify(body)
		});
		if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
		return answer.status === 204 ? {} : ((await answer.json()) as Record<string, unknown>);
	};
	const { id } = await post('/api/jobs', { name: `${count} openings`, measures: 'imperial' });
	const kinds = [openingA, openingB, openingC];
	const changes = Array.from({ length: count }, (_, i): Change => ({
		kind: 'addRow',
		row: `r${i}`,
		after: i === 0 ? null : `r${i - 1}`,
		cells: typedRow({
			...(kinds[i % 3] ?? openingA),
			mark: `M-${i + 1}`,
			openingWidth: `${96 + ((i * 7) % 160)}"`,
			openingHeight: `${40 + ((i * 5) % 72)}"`
		}).cells
	}));
	await post(`/api/jobs/${String(id)}/edits`, { id: 'fill', title: 'Fill', changes });
	// A result before the sizes, so that both are in the window; the others follow behind what is typed.
	const typed = inputs.map(({ id }) => id).filter((input) => input !== 'mark' && isUsual(input));
	const results = usualResults.filter((result) => result !== 'curtainWidth');
	const view = {
		...usualView,
		order: ['mark', 'checks', 'curtainWidth', ...typed.slice(typed.indexOf('openingWidth')), ...results]
	};
	await post(`/api/jobs/${String(id)}/view`, view, 'PUT');
	return String(id);
}

/** In the page: when what has been done is on the screen, from an event on. */
const painted = `new Promise((resolve) => requestAnimationFrame(() => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => resolve(performance.now()); port2.postMessage(null); }))`;

async function focusCell(page: Page, row: number, column: string): Promise<void> {
	await page.locator(`[row-index="${row}"] [col-id="${column}"]`).first().click();
}

/** Types a width and takes it with Enter. @returns from the key press to the frame that shows other results, in ms */
async function commit(page: Page, row: number, text: string): Promise<number> {
	await page.keyboard.type(text);
	const measured = page.evaluate(
		`new Promise((resolve) => {
			const cell = () => document.querySelector('[row-index="${row}"] [col-id="curtainWidth"]')?.textContent;
			const before = cell();
			document.addEventListener('keydown', (event) => {
				const start = event.timeStamp;
				const look = () => ${painted}.then((at) => cell() === before && at - start < 5000 ? look() : resolve(cell() === before ? NaN : at - start));
				look();
			}, { capture: true, once: true });
		})`
	);
	await page.evaluate('0');
	await page.keyboard.press('Enter');
	return (await measured) as number;
}

const program = await Program.start();
const browser = await openBrowser();
const lines: (readonly [what: string, value: string, goal: string])[] = [];
try {
	const job = await jobOf(program.address, openings);
	const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
	await page.goto(program.address);
	await page.waitForLoadState('networkidle');

	// Opening the job, as a person does from the list of jobs or with a bookmark, in a browser that knows the program.
	const scripts: { at: number; bytes: number; name: string }[] = [];
	const began = { at: 0 };
	const take = (response: Response): void => {
		if (!response.url().endsWith('.js') || response.status() !== 200) return;
		const at = performance.now() - began.at;
		void response
			.body()
			.then((body) => scripts.push({ at, bytes: gzipSync(body).length, name: response.url() }));
	};
	page.on('response', take);
	const opened: number[] = [];
	let firstPaint = 0;
	for (let turn = 0; turn < 5; turn++) {
		scripts.length = 0;
		began.at = performance.now();
		await page.goto(`${program.address}/jobs/${job}/openings`);
		await page.locator('[row-index="0"] [col-id="curtainWidth"]').first().waitFor();
		const filled = await page.evaluate<number>(painted);
		opened.push(filled);
		firstPaint = await page.evaluate<number>(
			`performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0`
		);
	}
	lines.push([`job of ${openings} opened, results shown`, ms(median(opened)), '2 s']);
	lines.push(['… first paint', ms(firstPaint), '']);
	await page.waitForTimeout(500);
	const grid = scripts.filter(({ bytes }) => bytes > 120_000).sort((a, b) => b.bytes - a.bytes);
	const all = scripts.reduce((sum, { bytes }) => sum + bytes, 0);
	const largest = grid[0];
	const kB = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`;
	lines.push(['script of the page itself, compressed', kB(all - (largest?.bytes ?? 0)), '400 kB']);
	lines.push(['… and the grid with its component', kB(largest?.bytes ?? 0), '']);
	lines.push(['… which came', ms(largest?.at ?? Number.NaN), `after the first paint, ${ms(firstPaint)}`]);
	page.off('response', take);

	// An empty frame, for comparison.
	const frames: number[] = [];
	for (let i = 0; i < 30; i++)
		frames.push(
			await page.evaluate<number>(
				`(() => { const t = performance.now(); return ${painted}.then((at) => at - t); })()`
			)
		);
	lines.push(['an empty frame', ms(median(frames)), '']);

	// A keystroke that is taken.
	const times: number[] = [];
	await focusCell(page, 0, 'openingWidth');
	for (let i = 0; i < edits; i++) {
		const row = i % 20;
		if (row === 0 && i > 0) await focusCell(page, 0, 'openingWidth');
		times.push(await commit(page, row, `${90 + ((i * 13) % 97)}.5`));
	}
	lines.push(['typed size to its results on the screen, median', ms(median(times)), '50 ms']);
	lines.push(['… 95 of 100', ms(share(times, 0.95)), '']);
	await page.waitForTimeout(1000);

	// A table from the clipboard: 1,000 rows of 10 columns over what is there.
	await focusCell(page, 0, 'openingWidth');
	const pasted = await page.evaluate<number>(`(async () => {
		const texts = { sill: 'counter', sillHeight: '36"', curtain: 'counter-slat', hood: 'steel-24ga', mounting: 'faceOfWall', guide: 'counter-face', quantity: '2' };
		const ids = [...document.querySelectorAll('.ag-header-cell[col-id]')].map((head) => ({ id: head.getAttribute('col-id'), left: head.getBoundingClientRect().left })).sort((a, b) => a.left - b.left).map(({ id }) => id);
		const ten = ids.slice(ids.indexOf('openingWidth')).slice(0, 10);
		const wide = Array.from({ length: 1000 }, (_, i) => ten.map((id) => id === 'openingWidth' ? 100 + i % 150 + '"' : id === 'openingHeight' ? 50 + i % 60 + '"' : texts[id] ?? '').join('\\t')).join('\\r\\n');
		const data = new DataTransfer();
		data.setData('text/plain', wide);
		const cell = () => document.querySelector('[row-index="0"] [col-id="curtainWidth"]')?.textContent;
		const before = cell();
		const start = performance.now();
		document.activeElement.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
		for (;;) { const at = await ${painted}; if (cell() !== before) return at - start; if (at - start > 20000) return NaN; }
	})()`);
	lines.push(['paste of 1,000 × 10', ms(pasted), '1 s']);
	await page.waitForTimeout(3000);

	// Scrolling through all rows, a window a frame: rows missing from the frame that is painted.
	const blank = await page.evaluate<{ frames: number; missing: number; worst: number }>(`(async () => {
		const bar = document.querySelector('.ag-body-vertical-scroll-viewport');
		const rowsOf = () => [...document.querySelectorAll('[role="row"][row-index]:has([col-id="openingWidth"])')];
		const height = bar.clientHeight;
		let frames = 0, missing = 0, worst = 0;
		for (let top = 0; top < bar.scrollHeight - height; top += Math.round(height * 0.8)) {
			bar.scrollTop = top;
			await ${painted};
			const box = bar.getBoundingClientRect();
			const rows = rowsOf().map((row) => row.getBoundingClientRect()).filter((row) => row.bottom > box.top && row.top < box.bottom);
			const covered = rows.reduce((sum, row) => sum + Math.min(row.bottom, box.bottom) - Math.max(row.top, box.top), 0);
			const gap = box.height - covered;
			frames++;
			if (gap > 31) { missing++; worst = Math.max(worst, gap); }
		}
		return { frames, missing, worst };
	})()`);
	lines.push(['windows scrolled, with a row missing', `${blank.missing} of ${blank.frames}`, '0']);
	const memory = await page.evaluate<number>('performance.memory?.usedJSHeapSize ?? 0');
	lines.push(['memory of the page', `${(memory / 2 ** 20).toFixed(0)} MB`, '']);
} finally {
	await browser.close();
	await program.close();
}
const widths = [0, 1].map((i) => Math.max(...lines.map((line) => line[i]?.length ?? 0)));
for (const [what, value, goal] of lines)
	console.log(
		`${what.padEnd(widths[0] ?? 0)}  ${value.padStart(widths[1] ?? 0)}  ${goal === '' ? '' : `goal ${goal}`}`
	);
