/** What became of a line or part, in a word and a mark of its own. */
import type { LineState } from '../../delivery/line.ts';
import type { MarkName } from '../parts/marks.ts';

export const stateWords: Record<LineState, string> = {
	exact: 'Exact',
	short: 'Short',
	over: 'Over',
	wrong: 'Wrong',
	notListed: 'Not listed',
	notOrdered: 'Not ordered',
	damaged: 'Damaged',
	backordered: 'Backordered',
	substituted: 'Substituted'
};

export const stateMarks: Record<LineState, MarkName> = {
	exact: 'right',
	short: 'short',
	over: 'over',
	wrong: 'wrong',
	notListed: 'absent',
	notOrdered: 'extra',
	damaged: 'damaged',
	backordered: 'later',
	substituted: 'note'
};
