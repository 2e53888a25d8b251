/**
 * What the keys of the sheet do: one table for the key handler, the help sheet and the buttons. Keys are written as
 * they stand on the help sheet: `Ctrl+Shift+D`, `Alt+Up`. Cmd counts as Ctrl.
 */
export type CommandId =
	| 'undo'
	| 'redo'
	| 'copy'
	| 'cut'
	| 'paste'
	| 'clear'
	| 'fillDown'
	| 'fillRight'
	| 'fillSeries'
	| 'fillAll'
	| 'addOpening'
	| 'duplicateAsNewMark'
	| 'giveOwnRow'
	| 'insertAbove'
	| 'insertBelow'
	| 'moveUp'
	| 'moveDown'
	| 'deleteRows'
	| 'selectRow'
	| 'selectColumn'
	| 'selectAll'
	| 'deselect'
	| 'edit'
	| 'open'
	| 'find'
	| 'findNext'
	| 'findPrevious'
	| 'foldGroup'
	| 'hideColumn'
	| 'columnLeft'
	| 'columnRight'
	| 'widen'
	| 'narrow'
	| 'freeze'
	| 'sort'
	| 'filterByCell'
	| 'clearFilter'
	| 'rowHeight'
	| 'columns'
	| 'views'
	| 'leave'
	| 'keys';

export const keyGroups = ['Move', 'Type', 'Select', 'Change', 'Rows', 'Columns', 'Look'] as const;

/** A line of the help sheet. */
export interface KeyLine {
	readonly title: string;
	readonly keys: readonly string[];
	readonly group: (typeof keyGroups)[number];
}

export interface Command extends KeyLine {
	readonly id: CommandId;
	/** The keys mean this only while a cell is typed in. */
	readonly typing?: true;
	/** It changes the job: only for those who may. */
	readonly changes?: true;
}

// prettier-ignore
export const commands: readonly Command[] = [
	{ id: 'leave', group: 'Move', keys: ['F6'], title: 'Leave the sheet for what stands below it' },
	{ id: 'edit', group: 'Type', keys: ['F2'], title: 'Change what stands in the cell', changes: true },
	{ id: 'fillAll', group: 'Type', keys: ['Ctrl+Enter'], title: 'While typing: into all selected cells', typing: true, changes: true },
	{ id: 'open', group: 'Type', keys: [], title: 'On a worked-out cell: open its working' },
	{ id: 'selectRow', group: 'Select', keys: ['Shift+Space'], title: 'Whole rows' },
	{ id: 'selectColumn', group: 'Select', keys: ['Ctrl+Space'], title: 'Whole columns' },
	{ id: 'selectAll', group: 'Select', keys: ['Ctrl+A'], title: 'All cells shown' },
	{ id: 'deselect', group: 'Select', keys: ['Escape'], title: 'One cell again' },
	{ id: 'undo', group: 'Change', keys: ['Ctrl+Z'], title: 'Undo', changes: true },
	{ id: 'redo', group: 'Change', keys: ['Ctrl+Y', 'Ctrl+Shift+Z'], title: 'Redo', changes: true },
	{ id: 'copy', group: 'Change', keys: ['Ctrl+C'], title: 'Copy' },
	{ id: 'cut', group: 'Change', keys: ['Ctrl+X'], title: 'Cut', changes: true },
	{ id: 'paste', group: 'Change', keys: ['Ctrl+V'], title: 'Paste', changes: true },
	{ id: 'clear', group: 'Change', keys: ['Delete', 'Backspace'], title: 'Clear', changes: true },
	{ id: 'fillDown', group: 'Change', keys: ['Ctrl+D'], title: 'Fill down from the top cell, or from the one above', changes: true },
	{ id: 'fillRight', group: 'Change', keys: ['Ctrl+R'], title: 'Fill right from the first cell, or from the one before', changes: true },
	{ id: 'fillSeries', group: 'Change', keys: ['Ctrl+Shift+D'], title: 'Fill a series down', changes: true },
	{ id: 'find', group: 'Change', keys: ['Ctrl+F'], title: 'Find and replace' },
	{ id: 'findNext', group: 'Change', keys: ['F3'], title: 'Next found' },
	{ id: 'findPrevious', group: 'Change', keys: ['Shift+F3'], title: 'Previous found' },
	{ id: 'addOpening', group: 'Rows', keys: ['Ctrl+Enter'], title: 'Add an opening', changes: true },
	{ id: 'duplicateAsNewMark', group: 'Rows', keys: ['Ctrl+Shift+Enter'], title: 'Copy the row as the next free mark', changes: true },
	{ id: 'giveOwnRow', group: 'Rows', keys: ['Ctrl+Alt+Enter'], title: 'Give one opening of the mark its own row', changes: true },
	{ id: 'insertAbove', group: 'Rows', keys: ['Alt+Shift+Enter'], title: 'Insert above, as many as are selected', changes: true },
	{ id: 'insertBelow', group: 'Rows', keys: ['Alt+Enter'], title: 'Insert below, as many as are selected', changes: true },
	{ id: 'moveUp', group: 'Rows', keys: ['Alt+Up'], title: 'Move the rows up', changes: true },
	{ id: 'moveDown', group: 'Rows', keys: ['Alt+Down'], title: 'Move the rows down', changes: true },
	{ id: 'deleteRows', group: 'Rows', keys: ['Ctrl+Delete', 'Ctrl+Backspace'], title: 'Delete the rows', changes: true },
	{ id: 'columnLeft', group: 'Columns', keys: ['Alt+Shift+Left'], title: 'Move the column left' },
	{ id: 'columnRight', group: 'Columns', keys: ['Alt+Shift+Right'], title: 'Move the column right' },
	{ id: 'widen', group: 'Columns', keys: ['Alt+Right'], title: 'Wider' },
	{ id: 'narrow', group: 'Columns', keys: ['Alt+Left'], title: 'Narrower' },
	{ id: 'foldGroup', group: 'Columns', keys: ['F4'], title: 'Fold the group of columns, or unfold it' },
	{ id: 'hideColumn', group: 'Columns', keys: ['Shift+F4'], title: 'Hide the column' },
	{ id: 'freeze', group: 'Columns', keys: ['Shift+F8'], title: 'Keep the column in place beside the mark, or let it go' },
	{ id: 'columns', group: 'Columns', keys: [], title: 'Choose columns' },
	{ id: 'sort', group: 'Look', keys: ['F8'], title: 'Sort by the column: up, down, as stored' },
	{ id: 'filterByCell', group: 'Look', keys: ['F9'], title: 'Only rows with the text of the cell' },
	{ id: 'clearFilter', group: 'Look', keys: ['Shift+F9'], title: 'All rows again' },
	{ id: 'rowHeight', group: 'Look', keys: [], title: 'Compact or comfortable rows' },
	{ id: 'views', group: 'Look', keys: [], title: 'Saved views' },
	{ id: 'keys', group: 'Look', keys: ['F1', '?'], title: 'This list; ? where nothing can be typed' }
];

/** Keys that move; `motionFor` and the editors of the cells know them. */
// prettier-ignore
export const motions: readonly KeyLine[] = [
	{ group: 'Move', keys: ['Arrow keys'], title: 'Cell by cell' },
	{ group: 'Move', keys: ['Ctrl+arrow keys'], title: 'To the end of what is filled' },
	{ group: 'Move', keys: ['Home', 'End'], title: 'First and last cell of the row' },
	{ group: 'Move', keys: ['Ctrl+Home', 'Ctrl+End'], title: 'First and last cell of the sheet' },
	{ group: 'Move', keys: ['Page Up', 'Page Down'], title: 'A window further' },
	{ group: 'Type', keys: ['Enter', 'Shift+Enter'], title: 'Take it and go down, up; after Tab under where the Tabs began' },
	{ group: 'Type', keys: ['Tab', 'Shift+Tab'], title: 'Take it and go to the next input, to the one before' },
	{ group: 'Type', keys: ['Escape'], title: 'Leave the cell as it was' },
	{ group: 'Select', keys: ['Shift+arrow keys'], title: 'Cell by cell' },
	{ group: 'Select', keys: ['Ctrl+Shift+arrow keys'], title: 'To the end of what is filled' },
	{ group: 'Select', keys: ['Shift+Home', 'Shift+End'], title: 'To the end of the row' },
	{ group: 'Select', keys: ['Shift+Page Up', 'Shift+Page Down'], title: 'A window further' }
];

const byKeys = new Map<string, CommandId>(
	commands.flatMap(({ id, keys, typing }) => (typing ? [] : keys.map((key) => [key, id] as const)))
);

/** What a key event is called here; '' where it makes a character or belongs to an input method. */
type KeyPress = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey' | 'isComposing'>;

const names: Readonly<Record<string, string>> = {
	ArrowUp: 'Up',
	ArrowDown: 'Down',
	ArrowLeft: 'Left',
	ArrowRight: 'Right',
	PageUp: 'Page Up',
	PageDown: 'Page Down',
	' ': 'Space'
};

/** A key press in the words of the table: `Ctrl+Shift+D`. */
function pressed({ key, ctrlKey, metaKey, altKey, shiftKey }: KeyPress): string {
	const name = names[key] ?? (key.length === 1 ? key.toUpperCase() : key);
	// Where a sign stands on the keyboard differs: Shift is part of making it.
	const sign = key.length === 1 && key !== ' ' && key.toLowerCase() === key.toUpperCase();
	const held = [ctrlKey || metaKey ? 'Ctrl' : '', altKey ? 'Alt' : '', shiftKey && !sign ? 'Shift' : ''];
	return [...held.filter((word) => word !== ''), name].join('+');
}

/** The command of a key press in the sheet while nothing is typed; null where the keys mean none. */
export const commandFor = (event: KeyPress): CommandId | null =>
	event.isComposing ? null : (byKeys.get(pressed(event)) ?? null);

/** Whether a command changes the job, rather than how it is looked at. */
export const changesJob = (id: CommandId): boolean =>
	commands.some((command) => command.id === id && command.changes === true);

/** The keys of a command, for a button's title: `Ctrl+D`. */
export const keysOf = (id: CommandId): string => commands.find((command) => command.id === id)?.keys[0] ?? '';

export type Direction = 'up' | 'down' | 'left' | 'right';

/** A move of the active cell, or with `extend` of the far corner of the selection. */
export interface Motion {
	readonly direction: Direction;
	/** One cell, a window, to the end of what is filled, to the end of the row, to the corner of the sheet. */
	readonly reach: 'cell' | 'window' | 'filled' | 'row' | 'corner';
	readonly extend: boolean;
}

const arrows: Readonly<Record<string, Direction>> = {
	ArrowUp: 'up',
	ArrowDown: 'down',
	ArrowLeft: 'left',
	ArrowRight: 'right'
};
const ends: Readonly<Record<string, Direction>> = { Home: 'left', End: 'right' };
const windows: Readonly<Record<string, Direction>> = { PageUp: 'up', PageDown: 'down' };

/** The move that a key press asks for; null where it asks for none. */
export function motionFor(event: KeyPress): Motion | null {
	if (event.altKey || event.isComposing) return null;
	const extend = event.shiftKey;
	const far = event.ctrlKey || event.metaKey;
	const arrow = arrows[event.key];
	if (arrow) return { direction: arrow, reach: far ? 'filled' : 'cell', extend };
	const end = ends[event.key];
	if (end) return { direction: end, reach: far ? 'corner' : 'row', extend };
	const window = windows[event.key];
	return window && !far ? { direction: window, reach: 'window', extend } : null;
}
