import { describe, expect, it } from 'vitest';
import { AtOnce, TokenBuckets, withinBudget, type Asked, type Asker } from './budget.ts';

describe('a bucket of ten that fills by two a second', () => {
	const buckets = (): TokenBuckets => new TokenBuckets({ most: 10, perSecond: 2 });
	const taken = (of: TokenBuckets, key: string, at: number, times: number): number[] =>
		Array.from({ length: times }, () => of.take(key, at));

	it('gives ten at once, then says how long to wait', () => {
		expect(taken(buckets(), 'a', 0, 12)).toEqual([...Array<number>(10).fill(0), 1, 1]);
	});

	it('has four again after two seconds, and never more than ten', () => {
		const of = buckets();
		taken(of, 'a', 0, 10);
		expect(taken(of, 'a', 2_000, 5)).toEqual([0, 0, 0, 0, 1]);
		expect(taken(of, 'a', 1_000_000, 11)).toEqual([...Array<number>(10).fill(0), 1]);
	});

	it('takes nothing for what it refuses', () => {
		const of = buckets();
		taken(of, 'a', 0, 40);
		expect(taken(of, 'a', 1_000, 3)).toEqual([0, 0, 1]);
	});

	it('is one for each key', () => {
		const of = buckets();
		taken(of, 'a', 0, 11);
		expect(of.take('b', 0)).toBe(0);
	});

	it('gives nothing away, and keeps going, when the clock is set back', () => {
		const of = buckets();
		taken(of, 'a', 10_000, 10);
		expect(of.take('a', 5_000)).toBe(1);
		expect(of.take('a', 6_000)).toBe(0);
	});

	it('waits whole seconds: three for a file every three seconds', () => {
		const of = new TokenBuckets({ most: 1, perSecond: 1 / 3 });
		expect(taken(of, 'a', 0, 2)).toEqual([0, 3]);
	});

	it('forgets who has not asked for long, and nobody else', () => {
		const of = buckets();
		taken(of, 'busy', 0, 10);
		for (let i = 0; i < 10_000; i++) of.take(`k${i}`, 0);
		of.take('another', 1_000);
		expect(of.take('busy', 1_000)).toBe(0);
		expect(taken(of, 'busy', 1_000, 2)).toEqual([0, 1]);
	});
});

describe('two at once', () => {
	it('lets a third in when one has left', () => {
		const atOnce = new AtOnce(2);
		const first = atOnce.enter('a');
		expect(atOnce.enter('a')).not.toBeNull();
		expect(atOnce.enter('a')).toBeNull();
		expect(atOnce.enter('b')).not.toBeNull();
		first?.();
		expect(atOnce.enter('a')).not.toBeNull();
		expect(atOnce.enter('a')).toBeNull();
	});
});

/** By the clock of this machine, but so that the answers do not depend on how fast it is. */
describe('what is asked of the program', () => {
	const asked = (method: string, route: string, headers: Record<string, string> = {}): Asked => ({
		method,
		route,
		headers: new Headers(headers)
	});
	const edits = asked('POST', '/api/jobs/[job]/edits');
	const file = asked('POST', '/api/jobs/[job]/edits', { 'content-type': 'multipart/form-data; boundary=x' });
	const look = asked('GET', '/jobs/[job]/openings');
	const person = (personId: string | null, address = '198.51.100.1'): Asker => ({
		personId,
		address,
		alone: false
	});
	const answered = (): Response => new Response('done');
	const ask = async (what: Asked, who: Asker): Promise<number> =>
		(await withinBudget(what, who, answered)).status;
	/** How often it was answered before it was refused; at most `most`. */
	async function timesUntilRefused(what: Asked, who: Asker, most: number): Promise<number> {
		for (let times = 0; times < most; times++) if ((await ask(what, who)) === 429) return times;
		return most;
	}

	it('is counted by person where somebody is signed in', async () => {
		expect(await timesUntilRefused(file, person('ada'), 1000)).toBeLessThan(1000);
		expect(await ask(file, person('ben'))).toBe(200);
		expect(await timesUntilRefused(edits, person('ada'), 100_000)).toBeLessThan(100_000);
		expect(await ask(edits, person('ben'))).toBe(200);
	});

	it('is counted by network address before anybody has signed in', async () => {
		const at = (address: string): Asker => person(null, address);
		expect(await timesUntilRefused(look, at('198.51.100.7'), 100_000)).toBeLessThan(100_000);
		expect(await ask(look, at('198.51.100.8'))).toBe(200);
	});

	it('is not counted where somebody looks, or is alone at the machine', async () => {
		expect(await timesUntilRefused(look, person('cyd'), 5000)).toBe(5000);
		expect(await timesUntilRefused(edits, { ...person('local'), alone: true }, 5000)).toBe(5000);
	});

	it('leaves room to answer the questions about a file one right after the other', async () => {
		const preview: Asked = { ...file, route: '/api/jobs/[job]/schedule/preview' };
		const twelve = await Promise.all(
			Array.from({ length: 12 }, () =>
				withinBudget(preview, person('dee'), async () => {
					await new Promise((resolve) => setTimeout(resolve, 20));
					return answered();
				})
			)
		);
		expect(twelve.map(({ status }) => status)).toEqual(Array<number>(12).fill(200));
		expect(await timesUntilRefused(preview, person('dee'), 60)).toBe(60);
	});

	it.each([
		'workbook',
		'print',
		'schedule',
		'model',
		'deliveries',
		'bids',
		'bids/compare',
		'restore',
		'copy'
	])('may be three times /%s at once, and again when one is done, however it ended', async (work) => {
		const heavy = asked('GET', `/api/jobs/[job]/${work}`);
		const who = person(`at ${work}`);
		const ends: ((how: 'well' | 'badly') => void)[] = [];
		const begin = () =>
			withinBudget(
				heavy,
				who,
				() =>
					new Promise<Response>((resolve, reject) => {
						ends.push((how) => {
							if (how === 'well') resolve(answered());
							else reject(new Error('it went wrong'));
						});
					})
			);
		const underWay = [begin(), begin(), begin()];
		const fourth = begin();
		expect(ends).toHaveLength(3);
		const refused = await fourth;
		expect([refused.status, refused.headers.get('retry-after')]).toEqual([429, '5']);
		expect(await ask(heavy, person(`another at ${work}`))).toBe(200);
		expect(await ask(look, who)).toBe(200);
		ends[0]?.('well');
		ends[1]?.('badly');
		expect((await underWay[0])?.status).toBe(200);
		await expect(underWay[1]).rejects.toThrow('it went wrong');
		const next = [begin(), begin()];
		expect((await begin()).status).toBe(429);
		for (const end of ends.slice(2)) end('well');
		for (const answer of [underWay[2], ...next]) expect((await answer)?.status).toBe(200);
	});
});
