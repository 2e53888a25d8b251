import { describe, expect, it } from 'vitest';
import { usualView, type SheetView } from '../../changes/sheet-view.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { ColumnCatalog, stepped, toggled, withOrder } from './column-layout.ts';

const quantity = (id: string, chapter: number): QuantityDefinition => ({
	id,
	title: id,
	kind: 'number',
	unit: '1',
	chapter,
	sentence: ''
});
const catalog = new ColumnCatalog([
	quantity('guideDistance', 2),
	quantity('rareOne', 2),
	quantity('curtainWeight', 6)
]);

const lay = (change: Partial<SheetView>, filled: readonly string[] = [], narrow = false) =>
	catalog.lay({ ...usualView, ...change }, new Set(filled), narrow);
const ids = (...laid: Parameters<typeof lay>): string[] =>
	lay(...laid).flatMap(({ columns }) => columns.map(({ id }) => id));

describe('the columns of a view', () => {
	it('are the mark, the checks, inputs by group, and the usual results', () => {
		const usual = ids({});
		expect(usual.slice(0, 4)).toEqual(['mark', 'checks', 'quantity', 'location']);
		expect(usual).not.toContain('openingNumber');
		expect(usual).not.toContain('rareOne');
		expect(usual.slice(-2)).toEqual(['guideDistance', 'curtainWeight']);
	});

	it('show any quantity that is chosen, and a rare input that holds something, unless it was switched off', () => {
		expect(ids({ choice: { rareOne: true } })).toContain('rareOne');
		expect(ids({}, ['feedLength'])).toContain('feedLength');
		expect(ids({ choice: { feedLength: false } }, ['feedLength'])).not.toContain('feedLength');
	});

	it('show one side only, always with the mark and the checks', () => {
		expect(ids({ side: 'worked' })).toEqual(['mark', 'checks', 'guideDistance', 'curtainWeight']);
		expect(ids({ side: 'typed' })).not.toContain('guideDistance');
	});

	it('stand in the order a person gave them; others stay behind the one they usually follow', () => {
		const moved = ids({ order: ['mark', 'checks', 'openingHeight', 'quantity'] });
		expect(moved.slice(0, 5)).toEqual(['mark', 'checks', 'openingHeight', 'sill', 'sillHeight']);
		expect(moved.indexOf('location')).toBe(moved.indexOf('quantity') + 1);
	});

	it('pass over columns that are not known, and keep their names', () => {
		const view = { ...usualView, order: ['fromAnotherBook', 'mark'], folded: ['Nothing'], frozen: ['gone'] };
		expect(
			catalog
				.lay(view, new Set(), false)
				.flatMap(({ columns }) => columns)
				.map(({ id }) => id)
		).toEqual(ids({ frozen: [] }));
		expect(withOrder(view, ['mark', 'quantity']).order).toEqual(['mark', 'quantity', 'fromAnotherBook']);
	});

	it('fold a group to its first column, also where it stands in two places', () => {
		const size = lay({ folded: ['Size'] }).find(({ title }) => title === 'Size');
		expect(size?.columns.map(({ id }) => id)).toEqual(['openingWidth']);
		// Height, sill and sill height; the rare ones are not shown anyway.
		expect(size?.behind).toBe(3);
		const apart = ids({
			folded: ['Size'],
			order: ['mark', 'checks', 'openingHeight', 'quantity', 'openingWidth']
		});
		expect(apart).toContain('openingHeight');
		expect(apart).not.toContain('openingWidth');
	});

	it('keep frozen columns beside the mark; on a narrow screen only the mark', () => {
		const frozen = lay({ frozen: ['checks', 'openingWidth'] }).filter((group) => group.frozen);
		expect(frozen.flatMap(({ columns }) => columns).map(({ id }) => id)).toEqual([
			'mark',
			'checks',
			'openingWidth'
		]);
		const narrow = lay({ frozen: ['checks', 'openingWidth'] }, [], true).filter((group) => group.frozen);
		expect(narrow.flatMap(({ columns }) => columns).map(({ id }) => id)).toEqual(['mark']);
	});
});

describe('moving a column by a step', () => {
	const columns = ['mark', 'checks', 'a', 'b'].map((id, at) => ({
		id,
		group: '',
		worked: false,
		frozen: at < 2
	}));

	it('changes places with its neighbour, never over the mark or the edge of what stays in place', () => {
		expect(stepped(columns, 'b', -1)).toEqual(['mark', 'checks', 'b', 'a']);
		expect(stepped(columns, 'a', -1)).toBeNull();
		expect(stepped(columns, 'checks', -1)).toBeNull();
		expect(stepped(columns, 'b', 1)).toBeNull();
	});
});

it('a list takes an item in and out', () => {
	expect(toggled(['a'], 'b')).toEqual(['a', 'b']);
	expect(toggled(['a', 'b'], 'a')).toEqual(['b']);
});
