import { describe, expect, it } from 'vitest';
import { engineOf } from '../../../../tests/opening-rows.ts';
import { sheetViewSchema, usualView, type SheetView } from '../../changes/sheet-view.ts';
import { inputIds } from '../../takeoff/inputs.ts';
import { ColumnCatalog } from '../grid/column-layout.ts';
import {
	canMove,
	columnGroups,
	columnTitles,
	findColumns,
	freezeColumn,
	moveColumn,
	switchColumns,
	usualColumns
} from './column-list.ts';
import { firstViews } from './first-views.ts';

const { quantities } = engineOf();
const groups = columnGroups(quantities);
const catalog = new ColumnCatalog(quantities);
const columns = new Map(groups.flatMap((group) => group.columns).map((column) => [column.id, column]));

/** The columns that the sheet shows in a view, where no unusual input holds anything. */
const shownIn = (view: SheetView): string[] =>
	catalog.lay(view, new Set(), false).flatMap((group) => group.columns.map(({ id }) => id));

function listed(...ids: string[]) {
	return ids.map((id) => {
		const column = columns.get(id);
		if (!column) throw new Error(`${id} is not listed`);
		return column;
	});
}

describe('the list of columns', () => {
	it('has every quantity of the rule book and every input but the mark, once', () => {
		const ids = groups.flatMap((group) => group.columns.map(({ id }) => id));
		expect(new Set(ids).size).toBe(ids.length);
		expect([...ids].sort()).toEqual(
			[...quantities.map(({ id }) => id), ...inputIds.filter((id) => id !== 'mark'), 'checks'].sort()
		);
	});

	it('has a title for each, the mark too', () => {
		const titles = columnTitles(quantities);
		for (const id of [...columns.keys(), 'mark']) expect(titles.get(id), id).toBeTruthy();
	});

	it.each([
		['Coil weight', 'coilWeight'],
		['coilweight', 'coilWeight'],
		['  LEFT   wall ', 'leftSubstrate'],
		['f′c of concrete', 'leftWallStrength'],
		['Barrel', 'barrel']
	])('is searched by title, id and sentence: %s', (text, id) => {
		expect(findColumns(groups, text).map((column) => column.id)).toContain(id);
	});

	it('is searched by chapter', () => {
		const labour = quantities.filter(({ chapter }) => chapter === 7).map(({ id }) => id);
		expect(findColumns(groups, 'labour').map(({ id }) => id)).toEqual(expect.arrayContaining(labour));
	});

	it('gives first what begins with the text, and only what has all its words', () => {
		const found = findColumns(groups, 'curtain w');
		expect(found.slice(0, 2).map(({ title }) => title)).toEqual(
			expect.arrayContaining(['Curtain width', 'Curtain weight'])
		);
		for (const { id, title, sentence, group } of found) {
			const all = `${title} ${id} ${sentence} ${group}`.toLowerCase();
			expect(all).toContain('curtain');
			expect(all).toContain('w');
		}
		expect(findColumns(groups, 'no such column')).toEqual([]);
	});
});

describe('choosing columns', () => {
	it('shows any quantity, also when its side or its group was out of sight', () => {
		const view: SheetView = { ...usualView, side: 'typed', folded: ['Labour', 'Size'] };
		const group = columns.get('labourHours')?.group ?? '';
		expect(group).toBe('Labour');
		const next = switchColumns(view, listed('labourHours'), true);
		expect(shownIn(view)).not.toContain('labourHours');
		expect(shownIn(next)).toContain('labourHours');
		expect(next).toMatchObject({ side: 'both', folded: ['Size'] });
	});

	it('leaves the side alone where it is not in the way', () => {
		const view: SheetView = { ...usualView, side: 'worked' };
		expect(switchColumns(view, listed('checks', 'coilWeight'), true).side).toBe('worked');
		expect(switchColumns(view, listed('fixing'), false).side).toBe('worked');
	});

	it('takes a column away, and what is not shown does not stay in place either', () => {
		const next = switchColumns({ ...usualView, frozen: ['checks', 'location'] }, listed('location'), false);
		expect(shownIn(next)).not.toContain('location');
		expect(next.frozen).toEqual(['checks']);
	});

	it('moves a column by one place, back again, and never past an end', () => {
		const shown = shownIn(usualView);
		const at = shown.indexOf('openingWidth');
		const moved = moveColumn(usualView, shown, 'openingWidth', 1);
		const expected = [...shown];
		expected.splice(at, 2, shown[at + 1] ?? '', 'openingWidth');
		expect(shownIn(moved)).toEqual(expected);
		expect(shownIn(moveColumn(moved, expected, 'openingWidth', -1))).toEqual(shown);
		expect(canMove(usualView, shown, shown.at(-1) ?? '', 1)).toBe(false);
		expect(moveColumn(usualView, shown, shown.at(-1) ?? '', 1)).toBe(usualView);
	});

	it('keeps the mark first, and what stays in place apart from what moves', () => {
		const shown = shownIn(usualView);
		expect(shown.slice(0, 2)).toEqual(['mark', 'checks']);
		for (const [id, step] of [
			['mark', 1],
			['checks', -1],
			['checks', 1],
			[shown[2] ?? '', -1],
			['notShown', 1]
		] as const)
			expect(canMove(usualView, shown, id, step), `${id} by ${step}`).toBe(false);
	});

	it('keeps a column in place, and no more of them than a view holds', () => {
		const frozen = freezeColumn(usualView, 'location', true);
		expect(frozen.frozen).toEqual(['checks', 'location']);
		expect(shownIn(frozen).slice(0, 3)).toEqual(['mark', 'checks', 'location']);
		expect(freezeColumn(frozen, 'location', false).frozen).toEqual(['checks']);
		let view = usualView;
		for (const { id } of quantities.slice(0, 30)) view = freezeColumn(view, id, true);
		expect(sheetViewSchema.safeParse(view).success).toBe(true);
	});

	it('goes back to the usual columns, with the same rows', () => {
		const filter = { text: 'pier', checks: 'stop', values: {} } as const;
		const changed: SheetView = {
			...moveColumn(usualView, shownIn(usualView), 'openingWidth', 1),
			choice: { openingWidth: false, liftingIndex: true },
			widths: { location: 300 },
			side: 'worked',
			rowHeight: 'comfortable',
			filter
		};
		expect(usualColumns(changed)).toEqual({ ...usualView, rowHeight: 'comfortable', filter });
	});
});

describe('the views to begin with', () => {
	it.each(firstViews)('$name is a view of columns that there are', ({ view }) => {
		expect(sheetViewSchema.parse(view)).toEqual(view);
		for (const id of Object.keys(view.choice)) expect(columns.has(id), id).toBe(true);
	});

	it('show what their names say, beside the mark and its checks', () => {
		const shown = (name: string): string[] => {
			const found = firstViews.find((one) => one.name === name);
			if (!found) throw new Error(`there is no view ${name}`);
			return shownIn(found.view);
		};
		expect(shown('Usual')).toEqual(shownIn(usualView));
		expect(shown('Sizes and walls')).toEqual(
			expect.arrayContaining(['mark', 'checks', 'openingWidth', 'openingHeight', 'leftSubstrate'])
		);
		expect(shown('Sizes and walls')).not.toContain('coilWeight');
		expect(shown('Weights')).toEqual(
			expect.arrayContaining(['curtainWeight', 'coilWeight', 'shippingWeight'])
		);
		expect(shown('Weights')).not.toContain('leftSubstrate');
		expect(shown('Anchors')).toEqual(expect.arrayContaining(['anchorTotal', 'fixing', 'useGuideLeft']));
		expect(firstViews.find(({ name }) => name === 'Stops only')?.view.filter.checks).toBe('stop');
	});
});
