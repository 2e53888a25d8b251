/**
 * The ugly packing lists of `fixtures/deliveries/messes`. What each line means was worked out by hand beside each file,
 * before this code was written. Counted here: lines that are sure and matched right without a question, lines that are
 * right or asked about, and lines matched wrongly in silence: none.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { messLists } from '../../../tests/mess-fixtures.ts';
import {
	allOutcomes,
	figures,
	shareRight,
	wrongInSilence,
	type Outcome
} from '../../../tests/mess-outcomes.ts';

describe('the ugly packing lists', () => {
	let all: readonly Outcome[] = [];

	beforeAll(async () => {
		all = await allOutcomes(messLists());
		console.info(figures(all));
	});

	it('are 250 lines or more', () => {
		expect(all.length).toBeGreaterThanOrEqual(250);
	});

	it('of the lines that are sure, 95 in 100 or more are matched right without a question', () => {
		expect(shareRight(all)).toBeGreaterThanOrEqual(0.95);
	});

	it('have no line matched wrongly in silence: each is right, or asked about', () => {
		expect(wrongInSilence(all)).toEqual([]);
	});
});
