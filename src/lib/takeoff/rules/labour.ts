/** Chapter 7: hours by task and trade, from the tasks of the shop book; no factors. */
import type { RuleDefinition } from '../../rulebook/definition.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { trades } from '../../shopbook/words.ts';
import { arithmetic, chapter, shop } from './rule.ts';

/** Ids of the rules a task gives. */
export const taskRuleIds = (key: string) =>
	({ crew: `${key}Crew`, minutes: `${key}Minutes`, hours: `${key}Hours` }) as const;

const sum = (terms: readonly string[], nothing: string): string =>
	terms.length === 0 ? nothing : terms.join(' + ');

export function labourRules(book: TechnicalBook): RuleDefinition[] {
	const tasks = book.tasks.flatMap((task) => {
		const id = taskRuleIds(task.key);
		return chapter(7, [
			{
				id: id.crew,
				title: `${task.title}: crew`,
				unit: '1',
				kind: 'count',
				formula: task.crew,
				sentence: 'People who work at it together.',
				source: task.source
			},
			{
				id: id.minutes,
				title: `${task.title}: crew-minutes`,
				unit: 'min',
				formula: task.crewMinutes,
				sentence: 'Minutes the crew works at it.',
				source: task.source
			},
			{
				id: id.hours,
				title: `${task.title}: hours`,
				unit: 'h',
				formula: `${id.minutes} * ${id.crew}`,
				sentence: `Crew-minutes times crew, ${task.trade}.`,
				source: task.source
			}
		]);
	});
	const byTrade = trades.map((trade) => ({
		id: `${trade}Hours`,
		title: `Hours, ${trade}`,
		unit: 'h',
		formula: sum(
			book.tasks.filter((task) => task.trade === trade).map((task) => taskRuleIds(task.key).hours),
			'0 * hour'
		),
		sentence: 'All tasks of this trade for one opening.',
		source: arithmetic
	}));
	const liftMinutes = sum(
		book.tasks.filter((task) => task.lift).map((task) => taskRuleIds(task.key).minutes),
		'0 * minute'
	);
	return [
		...tasks,
		...chapter(7, [
			...byTrade,
			{
				id: 'labourHours',
				title: 'Labour hours',
				unit: 'h',
				formula: sum(
					trades.map((trade) => `${trade}Hours`),
					'0 * hour'
				),
				sentence: 'All trades for one opening, no factors.',
				source: arithmetic
			},
			{
				id: 'liftTime',
				title: 'Time on a lift',
				unit: 'h',
				formula: `if(known(workHeight), if(workHeight > shop.reachHeight, ${liftMinutes}, 0 * minute), unknown)`,
				sentence: 'Crew time of the tasks done from a lift where the work is higher than the shop’s reach.',
				source: shop
			}
		])
	];
}

/** Things used up, from the consumables of the shop book. */
export function consumableRules(book: TechnicalBook): RuleDefinition[] {
	return chapter(
		5,
		book.consumables.map((item) => ({
			id: item.key,
			title: item.unit === 'each' ? item.title : `${item.title}, ${item.unit}`,
			unit: '1',
			formula: item.quantity,
			sentence: `For one opening, in ${item.unit}, without waste.`,
			source: item.source
		}))
	);
}
