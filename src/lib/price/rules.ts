/**
 * Chapter 8: the price of a mark, as rules in money. They are read by the same rule book as everything else, in exact
 * decimals; the takeoff's quantities enter rounded to stated decimals, and every amount is rounded to the cent once.
 */
import type { QuantityDefinition, RuleDefinition, Source } from '../rulebook/definition.ts';
import type { PriceBook, TechnicalBook } from '../shopbook/schema.ts';
import { amountFormula, materialLines } from './material.ts';

const shopSource: Source = { basis: 'shop', text: 'The shop’s own price book.' };
const order: Source = {
	basis: 'commonPractice',
	text: 'Common practice: direct cost, contingency, overhead, profit, bond, rounding, in this order.'
};

type Line = readonly [id: string, title: string, unit: string, formula: string, sentence: string];

const asRules = (lines: readonly Line[], source: Source): RuleDefinition[] =>
	lines.map(([id, title, unit, formula, sentence]) => ({
		id,
		title,
		unit,
		formula,
		sentence,
		source,
		kind: 'number',
		chapter: 8
	}));

/** What a mark brings along besides its takeoff. */
export const priceInputs: readonly QuantityDefinition[] = [
	{
		id: 'openings',
		title: 'Openings',
		kind: 'count',
		unit: '1',
		chapter: 8,
		sentence: 'Openings this row stands for.'
	},
	{
		id: 'boxRounding',
		title: 'Share of full boxes',
		kind: 'number',
		unit: 'money',
		chapter: 8,
		sentence:
			'Anchors left over in full boxes are bought for the whole job; each mark bears its share by the anchors it uses, to the cent.'
	}
];

const sum = (ids: readonly string[]): string => (ids.length === 0 ? 'cents(0 * money)' : ids.join(' + '));

export function priceRules(book: TechnicalBook, prices: PriceBook): RuleDefinition[] {
	const toBuy: readonly Line[] = [
		[
			'curtainToBuy',
			'Curtain to buy',
			'ft2',
			'round(curtainArea / square(ft), 2) * square(ft) * openings * (1 + shop.wasteCurtain)',
			'Area to two decimals, with waste.'
		],
		[
			'hoodToBuy',
			'Hood sheet to buy',
			'ft2',
			'round(hoodArea / square(ft), 2) * square(ft) * openings * (1 + shop.wasteSheet)',
			'Area to two decimals, with waste.'
		]
	];
	const lines = materialLines(book);
	const material: readonly Line[] = [
		...lines.map((line): Line => [line.id, line.title, 'money', amountFormula(line), line.sentence]),
		...toBuy
	];
	const materialIds = lines.map(({ id }) => id);
	const trades = prices.rates.map(({ trade }): Line => [
		`${trade}Labour`,
		`Labour, ${trade}`,
		'money',
		`cents(round(${trade}Hours / hour, 2) * hour * openings * shop.${trade}Rate * (1 + shop.${trade}Burden))`,
		'Hours to two decimals at the base rate with its burden.'
	]);
	const profit: readonly Line[] =
		prices.profitBasis === 'marginOfPrice'
			? [
					[
						'unroundedPrice',
						'Price before rounding',
						'money',
						'cents((directCost + contingency + overhead) / (1 - shop.profit - shop.bond))',
						'Profit and bond are shares of the price, so the cost is what is left of it.'
					],
					['bond', 'Bond', 'money', 'cents(unroundedPrice * shop.bond)', 'On the price.'],
					[
						'profit',
						'Profit',
						'money',
						'unroundedPrice - directCost - contingency - overhead - bond',
						'As a margin of the price; takes up the last cent, so that the lines add up.'
					]
				]
			: [
					[
						'profit',
						'Profit',
						'money',
						'cents((directCost + contingency + overhead) * shop.profit)',
						'On cost.'
					],
					[
						'unroundedPrice',
						'Price before rounding',
						'money',
						'cents((directCost + contingency + overhead + profit) / (1 - shop.bond))',
						'The bond is a share of the price.'
					],
					[
						'bond',
						'Bond',
						'money',
						'unroundedPrice - directCost - contingency - overhead - profit',
						'On the price; takes up the last cent, so that the lines add up.'
					]
				];
	const buildUp: readonly Line[] = [
		[
			'materialCost',
			'Material',
			'money',
			sum([...materialIds, 'boxRounding']),
			'All material of the mark, with its waste.'
		],
		['freight', 'Freight', 'money', 'cents(materialCost * shop.freight)', 'On material.'],
		['tax', 'Tax', 'money', 'cents(materialCost * shop.tax)', 'On material.'],
		...trades,
		['labourCost', 'Labour', 'money', sum(trades.map(([id]) => id)), 'All trades.'],
		[
			'equipmentCost',
			'Lift',
			'money',
			'if(known(liftTime), cents(round(liftTime / day, 2) * day * openings * shop.liftDay), 0)',
			'Lift days to two decimals, a day being eight hours; nothing where the work height is not known (see its caution).'
		],
		[
			'directCost',
			'Direct cost',
			'money',
			'materialCost + freight + tax + labourCost + equipmentCost',
			'Everything the mark costs before the shop’s own shares.'
		],
		['contingency', 'Contingency', 'money', 'cents(directCost * shop.contingency)', 'On direct cost.'],
		[
			'overhead',
			'Overhead',
			'money',
			'cents((directCost + contingency) * shop.overhead)',
			'On direct cost and contingency.'
		],
		...profit,
		[
			'price',
			'Price',
			'money',
			'round(unroundedPrice / shop.roundingStep, 0) * shop.roundingStep',
			'To the nearest rounding step of the price book.'
		],
		[
			'rounding',
			'Rounding',
			'money',
			'price - unroundedPrice',
			'What the rounding step adds or takes; the last line.'
		]
	];
	return [...asRules(material, shopSource), ...asRules(buildUp, order)];
}
