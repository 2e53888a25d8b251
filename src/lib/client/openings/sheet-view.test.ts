/** The view of the sheet on its way to the server: nothing is lost, and the last one is the last to arrive. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { usualView, type SheetView } from '../../changes/sheet-view.ts';
import { SheetViewState } from './sheet-view.svelte.ts';

/** As much of a browser's storage as is used; `full` refuses to keep anything. */
class Shelf {
	readonly kept = new Map<string, string>();
	full = false;

	getItem(key: string): string | null {
		return this.kept.get(key) ?? null;
	}
	setItem(key: string, text: string): void {
		if (this.full) throw new Error('no room');
		this.kept.set(key, text);
	}
	removeItem(key: string): void {
		this.kept.delete(key);
	}
}

type Answer = { status: number; message?: string } | 'noConnection';

let tab: Shelf;
let browser: Shelf;
let screen: EventTarget & { visibilityState: string };
/** What was sent, in order. */
let sent: SheetView[];
/** How the next requests are answered; 200 when there is none left. */
let answers: Answer[];

beforeEach(() => {
	vi.useFakeTimers();
	[tab, browser] = [new Shelf(), new Shelf()];
	screen = Object.assign(new EventTarget(), { visibilityState: 'visible' });
	[sent, answers] = [[], []];
	vi.stubGlobal('sessionStorage', tab);
	vi.stubGlobal('localStorage', browser);
	vi.stubGlobal('document', screen);
	vi.stubGlobal('fetch', (path: string, init: { method: string; body: string }) => {
		expect([init.method, path]).toEqual(['PUT', '/api/jobs/pier/view']);
		sent.push(JSON.parse(init.body) as SheetView);
		const answer = answers.shift() ?? { status: 200 };
		if (answer === 'noConnection') return Promise.reject(new TypeError('fetch failed'));
		return Promise.resolve(Response.json({ message: answer.message }, { status: answer.status }));
	});
});

afterEach(() => {
	vi.useRealTimers();
	vi.unstubAllGlobals();
});

const compact: SheetView = { ...usualView, rowHeight: 'compact' };
const comfortable: SheetView = { ...usualView, rowHeight: 'comfortable' };
const key = 'coilwright.view.pier';

function opened(last: SheetView | null = compact): { state: SheetViewState; leave: () => void } {
	const state = new SheetViewState('pier', last);
	return { state, leave: state.open() };
}

describe('a sheet that is opened', () => {
	it('stands as it was left, and sends nothing', async () => {
		const { state } = opened(comfortable);
		await vi.runAllTimersAsync();
		expect(state.current).toEqual(comfortable);
		expect(state.remembered).toBe(true);
		expect(sent).toEqual([]);
	});

	it('has the usual view the first time', () => {
		expect(opened(null).state.current).toEqual(usualView);
	});

	it('goes on with what an earlier page of the tab could not send', async () => {
		tab.setItem(key, JSON.stringify(comfortable));
		const { state } = opened(compact);
		expect(state.current).toEqual(comfortable);
		expect(state.remembered).toBe(false);
		await vi.runAllTimersAsync();
		expect(sent).toEqual([comfortable]);
		expect(state.remembered).toBe(true);
		expect(tab.kept.size).toBe(0);
	});

	it.each([
		['no JSON', '{'],
		['no view', '{"side":"left"}']
	])('passes over what it can’t read: %s', (_, text) => {
		tab.setItem(key, text);
		expect(opened(comfortable).state.current).toEqual(comfortable);
	});

	it('takes the columns that only this browser knew, once, where the server has none', async () => {
		browser.setItem('coilwright.columns', '{"coilWeight":false,"fixing":true}');
		const { state } = opened(null);
		expect(state.current).toEqual({ ...usualView, choice: { coilWeight: false, fixing: true } });
		await vi.runAllTimersAsync();
		expect(sent).toEqual([state.current]);
		expect(new SheetViewState('dock', null).current).toEqual(usualView);
	});

	it('leaves those columns where they are when the server has a view', () => {
		browser.setItem('coilwright.columns', '{"coilWeight":false}');
		expect(opened(comfortable).state.current).toEqual(comfortable);
		expect(browser.kept.size).toBe(1);
	});

	it.each(['{}', '[1]', '{"coilWeight":"no"}', 'x'])('begins with the usual view after %s', (text) => {
		browser.setItem('coilwright.columns', text);
		expect(opened(null).state.current).toEqual(usualView);
	});
});

describe('a view that changes', () => {
	it('is sent once it has been quiet for a while, whole', async () => {
		const { state } = opened();
		for (const width of [100, 110, 120]) state.change({ widths: { location: width } });
		expect(sent).toEqual([]);
		expect(state.remembered).toBe(false);
		await vi.runAllTimersAsync();
		expect(sent).toEqual([{ ...compact, widths: { location: 120 } }]);
		expect(state.remembered).toBe(true);
	});

	it('is not sent when it is the same', async () => {
		const { state } = opened();
		const before = state.current;
		state.use({ ...compact });
		await vi.runAllTimersAsync();
		expect(state.current).toBe(before);
		expect(sent).toEqual([]);
	});

	it('goes after the one on its way, so that the last one is kept', async () => {
		let answerFirst = (): void => undefined;
		const { state } = opened();
		vi.stubGlobal('fetch', (_: string, { body }: { body: string }) => {
			sent.push(JSON.parse(body) as SheetView);
			const answer = (): Response => Response.json({});
			return sent.length > 1
				? Promise.resolve(answer())
				: new Promise<Response>((resolve) => (answerFirst = () => resolve(answer())));
		});
		state.change({ side: 'typed' });
		await vi.advanceTimersByTimeAsync(5000);
		state.change({ side: 'worked' });
		await vi.advanceTimersByTimeAsync(5000);
		expect(sent.map(({ side }) => side)).toEqual(['typed']);
		answerFirst();
		await vi.runAllTimersAsync();
		expect(sent.map(({ side }) => side)).toEqual(['typed', 'worked']);
		expect(state.remembered).toBe(true);
	});

	it('is sent again until the server has it, and is in the tab meanwhile', async () => {
		answers = ['noConnection', { status: 500 }, { status: 429 }];
		const { state } = opened();
		state.use(comfortable);
		await vi.advanceTimersByTimeAsync(450);
		expect(sent).toHaveLength(1);
		expect(state.remembered).toBe(false);
		expect(JSON.parse(tab.getItem(key) ?? '')).toEqual(comfortable);
		await vi.runAllTimersAsync();
		expect(sent).toEqual(Array(4).fill(comfortable));
		expect(state.remembered).toBe(true);
		expect(state.trouble).toBeNull();
		expect(tab.kept.size).toBe(0);
	});

	it('says why the server will not keep it, stays as it is, and is kept once it is right again', async () => {
		answers = [{ status: 413, message: 'This view is 302 kB large.' }];
		const { state } = opened();
		state.use(comfortable);
		await vi.runAllTimersAsync();
		expect(state.trouble).toBe('This view is 302 kB large.');
		expect(state.current).toEqual(comfortable);
		expect(sent).toHaveLength(1);
		state.use({ ...comfortable, side: 'typed' });
		await vi.runAllTimersAsync();
		expect(state.trouble).toBeNull();
		expect(state.remembered).toBe(true);
	});

	it('lasts in memory where the browser keeps nothing', async () => {
		tab.full = true;
		answers = ['noConnection'];
		const { state } = opened();
		state.use(comfortable);
		await vi.runAllTimersAsync();
		expect(state.current).toEqual(comfortable);
		expect(sent).toEqual([comfortable, comfortable]);
		vi.stubGlobal('sessionStorage', undefined);
		vi.stubGlobal('localStorage', undefined);
		expect(opened(null).state.current).toEqual(usualView);
	});
});

describe('a sheet that is left', () => {
	it('sends at once what waits', async () => {
		const { state, leave } = opened();
		state.use(comfortable);
		leave();
		await vi.advanceTimersByTimeAsync(0);
		expect(sent).toEqual([comfortable]);
		expect(tab.kept.size).toBe(0);
	});

	it('does so when its tab goes out of sight', async () => {
		const { state } = opened();
		state.use(comfortable);
		screen.visibilityState = 'hidden';
		screen.dispatchEvent(new Event('visibilitychange'));
		await vi.advanceTimersByTimeAsync(0);
		expect(sent).toEqual([comfortable]);
	});

	it('leaves to the next one what could not be sent, and never sends over it', async () => {
		answers = ['noConnection'];
		const first = opened();
		first.state.use(comfortable);
		first.leave();
		await vi.runAllTimersAsync();
		expect(sent).toHaveLength(1);
		const second = opened(compact);
		expect(second.state.current).toEqual(comfortable);
		second.state.change({ side: 'typed' });
		await vi.runAllTimersAsync();
		expect(sent.at(-1)).toEqual({ ...comfortable, side: 'typed' });
		expect(sent).toHaveLength(2);
	});
});
