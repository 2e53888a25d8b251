/** The shop book as it is read: nothing of the demo book is missing, and every row can be read. */
import { describe, expect, test } from 'vitest';
import { demoPriceBook, demoTechnicalBook } from '../../shopbook/demo/demo-book.ts';
import { pricePages, technicalPages } from './tables.ts';

const technical = technicalPages(demoTechnicalBook);
const prices = pricePages(demoPriceBook);

const page = (id: string) => {
	const found = technical.find((table) => table.id === id);
	if (!found) throw new Error(`no table ${id}`);
	return found;
};

test.each([...technical, ...prices].map((table) => [table.id, table] as const))(
	'%s has a heading for every value, no heading twice, and a source',
	(id, { headings, rows }) => {
		expect(new Set(headings).size).toBe(headings.length);
		expect(rows.length).toBeGreaterThan(0);
		for (const { values, source } of rows) {
			expect(values).toHaveLength(headings.length);
			expect(values.join(' ')).not.toMatch(/undefined|NaN|\[object/u);
			if (id !== 'price-shares') expect(source?.text ?? '').not.toBe('');
		}
	}
);

describe('what the engineering looks up', () => {
	test('lengths an anchor is bought in stand as a list', () => {
		const { headings, rows } = page('anchors');
		const anchor = demoTechnicalBook.fixings[0]?.anchors[0];
		expect(rows[0]?.values[headings.indexOf('Lengths, in')]).toBe(anchor?.lengths.join(', '));
	});

	test.each(['holePatterns', 'lifts', 'motorCurrents', 'conductors', 'breakers'])('%s', (id) => {
		for (const { key, title, source } of page(id).rows) {
			expect(key).not.toBe('');
			expect(title).not.toBe('');
			expect(source).not.toBeNull();
		}
	});

	test('a published row that is from memory says so', () => {
		const rows = [...page('motorCurrents').rows, ...page('breakers').rows];
		for (const { source } of rows)
			expect(source?.basis).toBe(source?.text.includes('from memory') ? 'fromMemory' : 'published');
		expect(rows.some(({ source }) => source?.basis === 'fromMemory')).toBe(true);
	});

	test('the editions are those of the book', () => {
		expect(page('standards').rows.map(({ values }) => values[0])).toEqual(
			Object.values(demoTechnicalBook.standards)
		);
	});

	test('conditions are yes or no', () => {
		const walls = page('substrates');
		const at = walls.headings.indexOf('Needs a tested report');
		expect(walls.rows.map(({ values }) => values[at])).toEqual(
			demoTechnicalBook.substrates.map(({ needsTestedReport }) => (needsTestedReport ? 'yes' : 'no'))
		);
	});

	test('an anchor’s price says which and how long', () => {
		const anchors = prices.find(({ id }) => id === 'price-anchors')?.rows ?? [];
		for (const { key } of anchors) expect(key).toMatch(/^[\w-]+, [a-z ]+, [\d.]+ in$/u);
	});
});
