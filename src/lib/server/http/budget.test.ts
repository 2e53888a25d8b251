import { describe, expect, it } from 'vitest';
import { AtOnce, TokenBuckets } from './budget.ts';

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
