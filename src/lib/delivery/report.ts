/** The comparison as rows of text, for the terminal and delimited text. The comparison itself is the JSON. */
import type { Comparison } from './comparison.ts';

/** A heading row, then one row a line; parts that are on no list come last. */
export function comparisonRows({ lines }: Comparison): string[][] {
	return [
		[
			'List',
			'Line',
			'Mark',
			'Description',
			'State',
			'Unit',
			'Listed',
			'Ordered',
			'Here',
			'What',
			'Matched by',
			'Proposal',
			'Part ids'
		],
		...lines.map((line) => [
			line.delivery ?? '',
			line.line === null ? '' : String(line.line),
			line.mark ?? '',
			line.description,
			line.state,
			line.unit,
			line.amounts.listed,
			line.ordered ?? '',
			line.received ?? '',
			line.text,
			line.how,
			line.proposals[0]?.reason ?? '',
			line.partIds.join(' ')
		])
	];
}

/** A heading row, then one row a task of an opening. */
export function readinessRows({ openings }: Comparison): string[][] {
	return [
		['Opening', 'Mark', 'Task', 'Clear to start', 'What holds it'],
		...openings.flatMap(({ openingId, mark, tasks }) =>
			tasks.map(({ task, clear, holds }) => [openingId, mark, task, clear ? 'yes' : 'no', holds.join(' ')])
		)
	];
}
