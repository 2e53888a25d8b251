/** The columns of the sheet as the grid component takes them: row numbers, the mark, then what the layout says. */
import type { ColDef, ColGroupDef, IHeaderGroupComp, IHeaderGroupParams } from 'ag-grid-community';
import type { SheetView } from '../../changes/sheet-view.ts';
import { inputOf, isInputId, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { ListCellEditor, TextCellEditor, type EditorHost } from './cell-editors.ts';
import { CellView, gutterId, type CellHost, type GridRow } from './cell-view.ts';
import { checksId, type LaidColumn, type LaidGroup } from './column-layout.ts';

/** What the columns ask of the grid. */
export interface ColumnHost extends CellHost {
	editorOf(input: InputDefinition): EditorHost;
	mayEdit(): boolean;
	/** Narrow screens have no room for row numbers. */
	readonly narrow: boolean;
}

const widths: Partial<Record<string, number>> = {
	mark: 104,
	[checksId]: 162,
	openingNumber: 84,
	quantity: 80,
	location: 150,
	note: 180,
	curtain: 120,
	guide: 132,
	rightGuide: 132,
	hood: 126,
	controls: 120,
	leftSubstrate: 124,
	rightSubstrate: 124,
	headSubstrate: 124
} satisfies Partial<Record<InputId | typeof checksId, number>>;

export const usualWidth = (id: string): number => {
	if (widths[id] !== undefined) return widths[id];
	return !isInputId(id) ? 98 : inputOf(id).kind === 'length' ? 104 : 112;
};

export function columnsOf(
	groups: readonly LaidGroup[],
	view: SheetView,
	host: ColumnHost
): (ColDef<GridRow> | ColGroupDef<GridRow>)[] {
	return [
		...(host.narrow
			? []
			: [{ headerName: '', groupId: 'none', headerGroupComponent: GroupHeading, children: [gutter(host)] }]),
		...groups.map((group, at): ColGroupDef<GridRow> => ({
			headerName: group.title,
			groupId: `${group.title} ${at}`,
			headerClass: group.worked ? 'worked' : '',
			headerGroupComponent: GroupHeading,
			headerGroupComponentParams: { group },
			children: group.columns.map((column) => columnOf(column, view, host))
		}))
	];
}

const gutter = (host: ColumnHost): ColDef<GridRow> => ({
	colId: gutterId,
	headerName: 'Row',
	headerClass: 'gutter-heading',
	pinned: 'left',
	lockPinned: true,
	lockPosition: 'left',
	resizable: false,
	suppressNavigable: true,
	width: 46,
	minWidth: 30,
	cellClass: 'gutter',
	cellAriaRole: 'rowheader',
	cellRenderer: CellView,
	cellRendererParams: { host }
});

function columnOf({ id, frozen, worked }: LaidColumn, view: SheetView, host: ColumnHost): ColDef<GridRow> {
	const sorted = view.sort?.column === id ? `sorted-${view.sort.direction}` : '';
	const filtered = id in view.filter.values ? 'filtered' : '';
	const common: ColDef<GridRow> = {
		colId: id,
		headerName: host.text.titleOf(id),
		headerClass: [worked ? 'worked' : '', sorted, filtered].filter((name) => name !== ''),
		pinned: frozen ? 'left' : null,
		lockPinned: true,
		lockPosition: id === 'mark' ? 'left' : false,
		width: view.widths[id] ?? usualWidth(id),
		minWidth: 24,
		cellRenderer: CellView,
		cellRendererParams: { host }
	};
	if (isInputId(id)) return { ...common, ...inputColumn(inputOf(id), host) };
	if (id === checksId) return { ...common, cellClass: 'checks-cell' };
	const quantity = host.text.results.get(id);
	return {
		...common,
		headerTooltip: quantity?.sentence ?? '',
		cellClass: quantity?.kind === 'key' ? ['worked'] : ['worked', 'figure']
	};
}

function inputColumn(input: InputDefinition, host: ColumnHost): ColDef<GridRow> {
	const figure = input.kind !== 'text' && input.kind !== 'key';
	return {
		headerTooltip: input.sentence,
		editable: ({ node }) => !node.rowPinned && host.mayEdit(),
		cellEditor: input.kind === 'key' ? ListCellEditor : TextCellEditor,
		cellEditorParams: { host: host.editorOf(input) },
		cellClass: figure ? ['input', 'figure'] : ['input']
	};
}

/** Words for those who listen. */
function unseen(words: string): HTMLElement {
	const element = document.createElement('span');
	element.className = 'unseen';
	element.textContent = words;
	return element;
}

/** The title of a group; one that can be folded says how many columns are behind it. */
class GroupHeading implements IHeaderGroupComp {
	readonly #gui = document.createElement('span');

	init({ group }: IHeaderGroupParams<GridRow> & { readonly group?: LaidGroup }): void {
		const { title = '', behind = 0, foldable = false } = group ?? {};
		this.#gui.className = 'group-heading';
		this.#gui.textContent = title;
		if (title === '') this.#gui.append(unseen('no group'));
		if (!foldable) return;
		this.#gui.dataset.fold = title;
		this.#gui.title = `${behind > 0 ? 'Unfold' : 'Fold'} (F4)`;
		const more = document.createElement('span');
		more.className = 'group-fold';
		more.textContent = behind > 0 ? `+ ${behind} folded` : '−';
		if (behind === 0) more.ariaHidden = 'true';
		this.#gui.append(more, unseen(behind > 0 ? '' : ', unfolded'));
	}

	getGui(): HTMLElement {
		return this.#gui;
	}
}
