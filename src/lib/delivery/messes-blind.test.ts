/**
 * The ugly packing lists of `fixtures/deliveries/messes-blind`: written, with their readings, by somebody who had not seen
 * how the reader and the matcher work, after both were made. Their first figures stand in the README of the folder.
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

describe('packing lists nobody had seen', () => {
	let all: readonly Outcome[] = [];

	beforeAll(async () => {
		all = await allOutcomes(messLists('messes-blind'));
		console.info(figures(all));
	});

	it('are 150 lines or more', () => {
		expect(all.length).toBeGreaterThanOrEqual(150);
	});

	it('of the lines that are sure, 90 in 100 or more are matched right without a question', () => {
		expect(shareRight(all)).toBeGreaterThanOrEqual(0.9);
	});

	it('have no line matched wrongly in silence: each is right, or asked about', () => {
		expect(wrongInSilence(all)).toEqual([]);
	});
});
