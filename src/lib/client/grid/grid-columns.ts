/** The columns of the sheet: the mark in place, its checks, the inputs by group, the results by chapter. */
import type { ColDef, ColGroupDef, ICellRendererParams, IRowNode } from 'ag-grid-community';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { inputOf, inputs, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { countOf, countWords, severities } from '../parts/check-words.ts';
import { markElement } from '../parts/marks.ts';
import { ListCellEditor, TextCellEditor, type EditorHost } from './cell-editors.ts';
import type { CellText } from './cell-text.ts';
import { resultGroups } from './result-columns.ts';

export interface GridRow {
	readonly id: string;
}

export const checksId = 'checks';

/** What the columns ask of the grid. */
export interface ColumnHost {
	readonly text: CellText;
	readonly narrow: boolean;
	isShown(id: string): boolean;
	editorOf(input: InputDefinition): EditorHost;
}

type Columns = ColGroupDef<GridRow>[];

const widths: Partial<Record<InputId, number>> = {
	mark: 104,
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
};

/** The row of a cell; null for the totals. */
const rowOf = (data: GridRow | undefined, node: IRowNode<GridRow> | null | undefined): string | null =>
	data === undefined || node?.rowPinned ? null : data.id;

export function columnsOf(host: ColumnHost): Columns {
	const groups = [...new Set(inputs.map((input) => input.group))];
	return [
		{
			headerName: '',
			marryChildren: true,
			children: [
				{ ...inputColumn(inputOf('mark'), host), pinned: 'left', lockPinned: true },
				checksColumn(host)
			]
		},
		...groups.map((group): ColGroupDef<GridRow> => ({
			headerName: group,
			marryChildren: true,
			children: inputs
				.filter((input) => input.group === group && input.id !== 'mark' && input.id !== 'note')
				.map((input) => inputColumn(input, host))
		})),
		// Long text stands behind what is measured.
		{ headerName: '', children: [inputColumn(inputOf('note'), host)] },
		...resultGroups(host.text.sheet.engine.quantities).map((group): ColGroupDef<GridRow> => ({
			headerName: group.title,
			headerClass: 'worked',
			marryChildren: true,
			children: group.quantities.map((quantity) => resultColumn(quantity, host))
		}))
	];
}

function checksColumn({ text: { sheet }, narrow }: ColumnHost): ColDef<GridRow> {
	return {
		colId: checksId,
		headerName: 'Checks',
		pinned: narrow ? null : 'left',
		width: 162,
		cellClass: 'checks-cell',
		valueGetter: ({ data, node }) => {
			const row = rowOf(data, node);
			if (row === null) return '';
			const checks = sheet.checks(row);
			const words = severities
				.map((severity) => ({ severity, count: countOf(checks, severity) }))
				.filter(({ count }) => count > 0)
				.map(({ severity, count }) => countWords(count, severity));
			return words.length === 0 ? 'none' : words.join(', ');
		},
		cellRenderer: ({ data, node }: ICellRendererParams<GridRow>): HTMLElement | string => {
			const row = rowOf(data, node);
			return row === null ? '' : checkTally(sheet.checks(row));
		}
	};
}

function inputColumn(input: InputDefinition, host: ColumnHost): ColDef<GridRow> {
	const { text } = host;
	const { sheet } = text;
	const figure = input.kind !== 'text' && input.kind !== 'key';
	return {
		colId: input.id,
		headerName: input.title,
		headerTooltip: input.sentence,
		width: widths[input.id] ?? (input.kind === 'length' ? 104 : 112),
		hide: !host.isShown(input.id),
		editable: ({ node }) => !node.rowPinned,
		cellEditor: input.kind === 'key' ? ListCellEditor : TextCellEditor,
		cellEditorParams: { host: host.editorOf(input) },
		cellClass: figure ? ['input', 'figure'] : ['input'],
		cellClassRules: {
			refused: ({ data }) => data !== undefined && sheet.refusedEntry(data.id, input.id) !== null,
			needed: ({ data, node }) => {
				const row = rowOf(data, node);
				return row !== null && text.isNeeded(row, input);
			},
			inherited: ({ data, node }) => {
				const row = rowOf(data, node);
				return row !== null && sheet.inherited(row, input.id) !== null;
			},
			'own-mark': ({ data }) => input.id === 'mark' && data !== undefined && sheet.isOwnRow(data.id)
		},
		valueGetter: ({ data, node }) => {
			const row = rowOf(data, node);
			if (row !== null) return text.input(row, input);
			if (input.id === 'mark') return 'Totals';
			return input.id === 'quantity' ? String(sheet.allOpenings) : '';
		}
	};
}

function resultColumn(quantity: QuantityDefinition, host: ColumnHost): ColDef<GridRow> {
	const { text } = host;
	return {
		colId: quantity.id,
		headerName: quantity.title,
		headerTooltip: quantity.sentence,
		headerClass: 'worked',
		width: quantity.kind === 'key' ? 96 : 98,
		hide: !host.isShown(quantity.id),
		cellClass: quantity.kind === 'key' ? ['worked'] : ['worked', 'figure'],
		valueGetter: ({ data, node }) => {
			const row = rowOf(data, node);
			return row === null ? text.total(quantity) : text.result(row, quantity);
		}
	};
}

function checkTally(checks: Parameters<typeof countOf>[0]): HTMLElement {
	const tally = document.createElement('span');
	tally.className = 'tally';
	for (const severity of severities) {
		const count = countOf(checks, severity);
		if (count === 0 || (severity === 'note' && tally.childElementCount > 0)) continue;
		const part = document.createElement('span');
		part.className = `tally-part ${severity}`;
		part.append(markElement(severity), countWords(count, severity));
		tally.append(part);
	}
	if (tally.childElementCount === 0) tally.textContent = 'none';
	return tally;
}
