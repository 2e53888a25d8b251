/** Our own look of the grid component, and the parts of it that are used. */
import {
	CellStyleModule,
	ClientSideRowModelModule,
	ColumnApiModule,
	CustomEditorModule,
	EventApiModule,
	PinnedRowModule,
	RenderApiModule,
	RowApiModule,
	RowStyleModule,
	ScrollApiModule,
	themeQuartz,
	TooltipModule
} from 'ag-grid-community';

const thin = { color: 'var(--rule)', width: '1px', style: 'solid' } as const;
const firm = { color: 'var(--rule-firm)', width: '1px', style: 'solid' } as const;

export const theme = themeQuartz.withParams({
	accentColor: 'var(--chalk)',
	backgroundColor: 'var(--paper)',
	dataBackgroundColor: 'var(--sheet)',
	foregroundColor: 'var(--ink)',
	textColor: 'var(--ink)',
	borderColor: 'var(--rule)',
	chromeBackgroundColor: 'var(--paper)',
	headerBackgroundColor: 'var(--paper)',
	headerTextColor: 'var(--ink-quiet)',
	headerFontWeight: 500,
	headerFontSize: 'var(--small)',
	fontFamily: 'var(--face)',
	fontSize: 'var(--text)',
	cellHorizontalPadding: '8px',
	columnBorder: thin,
	headerColumnBorder: thin,
	rowBorder: thin,
	wrapperBorder: false,
	wrapperBorderRadius: '0px',
	borderRadius: '0px',
	rowHoverColor: 'transparent',
	selectedRowBackgroundColor: 'transparent',
	pinnedRowBackgroundColor: 'var(--worked)',
	pinnedRowFontWeight: 600,
	pinnedRowBorder: firm,
	pinnedColumnBorder: firm,
	cellEditingBorder: { color: 'var(--chalk)', width: '2px', style: 'solid' },
	cellEditingShadow: 'none',
	focusShadow: 'none',
	tooltipBackgroundColor: 'var(--sheet)',
	tooltipTextColor: 'var(--ink)'
});

export const modules = [
	CellStyleModule,
	ClientSideRowModelModule,
	ColumnApiModule,
	CustomEditorModule,
	EventApiModule,
	PinnedRowModule,
	RenderApiModule,
	RowApiModule,
	RowStyleModule,
	ScrollApiModule,
	TooltipModule
];
