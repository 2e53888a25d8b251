/** What stands in the panels beside the sheet when they are opened. */
import { render } from 'svelte/server';
import { describe, expect, it } from 'vitest';
import { engineOf } from '../../../../tests/opening-rows.ts';
import { everyRow, usualView, type RowFilter } from '../../changes/sheet-view.ts';
import ColumnChooser from './ColumnChooser.svelte';
import ColumnFilterDialog from './ColumnFilterDialog.svelte';
import FilterBar from './FilterBar.svelte';

const { quantities } = engineOf();
const boxes = (body: string): number => body.split('type="checkbox"').length - 1;
/** Text with tags and comments taken out and white space counted once. */
const plain = (body: string): string =>
	body
		.replace(/<!--.*?-->|<[^>]+>/gsu, '')
		.replace(/\s+/gu, ' ')
		.trim();

describe('the chooser of columns', () => {
	it('lays out no box for a column until its chapter is unfolded or it is searched', () => {
		expect(quantities.length).toBeGreaterThan(800);
		const { body } = render(ColumnChooser, {
			props: {
				open: true,
				quantities,
				view: usualView,
				shown: ['mark', 'checks', 'location', 'coilWeight'],
				onchange: () => undefined
			}
		});
		// The one box there is says whether the chosen column stays in place.
		expect(boxes(body)).toBe(1);
		expect(body.split('role="option"')).toHaveLength(4);
		expect(plain(body)).toContain('Checks Opening, stays in place');
		expect(plain(body)).toContain('Coil weight Weight and lifting');
	});
});

describe('the filter of rows', () => {
	const bar = (filter: RowFilter, shown: number, all: number): string =>
		plain(
			render(FilterBar, {
				props: {
					filter,
					shown,
					all,
					titleOf: (id: string) => (id === 'curtain' ? 'Curtain' : id),
					onchange: () => undefined,
					onvalues: () => undefined
				}
			}).body
		);

	it('says how many rows there are, and how many are shown', () => {
		expect(bar(everyRow, 40, 40)).toMatch(/ 40 rows$/u);
		expect(bar({ ...everyRow, checks: 'stop' }, 12, 40)).toContain('12 of 40 rows shown');
		expect(bar({ ...everyRow, text: 'x' }, 0, 1)).toContain('0 of 1 row shown');
		expect(bar({ ...everyRow, text: ' ' }, 5000, 5000)).toMatch(/ 5,000 rows$/u);
	});

	it('names the columns it filters by, with some of their texts', () => {
		const values = { curtain: ['counter-slat', '', 'heavy', 'grille', 'insulated'] };
		const text = bar({ ...everyRow, values }, 12, 40);
		expect(text).toContain('Curtain: counter-slat, blank, heavy and 2 more');
		expect(text).toContain('Take off the filter of Curtain');
	});
});

describe('the texts of a column', () => {
	it('are listed with their counts, also one that no row shows any more; 200 at once', () => {
		const values = Array.from({ length: 5000 }, (_, i) => ({ text: `C-${i}`, count: 1 }));
		const list = (chosen: string[] | null, of = values): string =>
			render(ColumnFilterDialog, {
				props: { open: true, title: 'Mark', values: of, chosen, onapply: () => undefined }
			}).body;
		expect(boxes(list(null))).toBe(200);
		expect(plain(list(null))).toContain('4800 more.');
		const few = plain(list(['gone'], [{ text: '', count: 3 }]));
		expect(few).toContain('blank 3 rows');
		expect(few).toContain('gone 0 rows');
	});
});
