/** What is bought for a mark: every quantity and the price of the book it is bought at. The lines of material are made of these. */
import type { TechnicalBook } from '../shopbook/schema.ts';

/** Ids of the constants a consumable gives: `shop.shimsCost`, `shop.shimsWaste`. */
export const consumableConstants = (key: string) => ({ cost: `${key}Cost`, waste: `${key}Waste` }) as const;

export interface Bought {
	readonly id: string;
	readonly title: string;
	/** Formula of the quantity for all openings of a mark, with its waste, in `unit`. */
	readonly quantity: string;
	readonly unit: 'ft2' | 'ft' | 'lb' | '1';
	/** What one of the unit is called, where it has a name of its own: `pair`, `tube`. */
	readonly measure?: string;
	/** Name of the price in the price book: `curtainPrice.cost`, `shop.shimsCost`. */
	readonly cost: string;
	/** Formula that says whether it is bought at all; always without one. */
	readonly when?: string;
}

/** A line of material: an amount that is the sum of what is bought. */
export interface MaterialLine {
	readonly id: string;
	readonly title: string;
	readonly sentence: string;
	readonly bought: readonly Bought[];
}

const feet = (length: string): string => `round(${length} / ft, 2) * ft * openings`;
const withWaste = (count: string): string => `${count} * openings * (1 + shop.wasteAnchors)`;

/** Lines in the order of the build-up. */
export const materialLines = (book: TechnicalBook): readonly MaterialLine[] => [
	{
		id: 'curtainAmount',
		title: 'Curtain',
		sentence: 'Area at its price.',
		bought: [
			{
				id: 'curtain',
				title: 'Curtain',
				quantity: 'curtainToBuy',
				unit: 'ft2',
				cost: 'curtainPrice.cost'
			}
		]
	},
	{
		id: 'barAmount',
		title: 'Bottom bar',
		sentence: 'Length to two decimals of a foot, at its price.',
		bought: [
			{
				id: 'bar',
				title: 'Bottom bar',
				quantity: feet('bottomBarLength'),
				unit: 'ft',
				cost: 'curtainPrice.bar'
			}
		]
	},
	{
		id: 'guidesAmount',
		title: 'Guides',
		sentence: 'Left and right, each at its price.',
		bought: [
			{
				id: 'guideLeft',
				title: 'Guide, left',
				quantity: feet('guideLength'),
				unit: 'ft',
				cost: 'guideLeftPrice.cost'
			},
			{
				id: 'guideRight',
				title: 'Guide, right',
				quantity: feet('guideLength'),
				unit: 'ft',
				cost: 'guideRightPrice.cost'
			}
		]
	},
	{
		id: 'barrelAmount',
		title: 'Barrel',
		sentence: 'Pipe over the span, at its price.',
		bought: [
			{
				id: 'barrel',
				title: 'Barrel',
				quantity: feet('bracketDistance'),
				unit: 'ft',
				cost: 'barrelPrice.cost'
			}
		]
	},
	{
		id: 'bracketsAmount',
		title: 'Brackets',
		sentence: 'One pair an opening, wall plates included.',
		bought: [
			{
				id: 'brackets',
				title: 'Brackets with wall plates',
				quantity: 'openings',
				unit: '1',
				measure: 'pair',
				cost: 'bracketPrice.cost'
			}
		]
	},
	{
		id: 'driveAmount',
		title: 'Drive',
		sentence: 'The tube motor, or the hand operator.',
		bought: [
			{ id: 'drive', title: 'Tube motor', quantity: 'openings', unit: '1', cost: 'drivePrice.cost' },
			{
				id: 'operator',
				title: 'Hand operator',
				quantity: 'openings',
				unit: '1',
				cost: 'operatorPrice.cost'
			}
		]
	},
	{
		id: 'springsAmount',
		title: 'Springs',
		sentence: 'By weight, to two decimals of a pound; none with a tube motor.',
		bought: [
			{
				id: 'springs',
				title: 'Springs',
				quantity: 'round(springWeight / lb, 2) * lb * openings',
				unit: 'lb',
				cost: 'shop.springPound',
				when: 'known(springWeight)'
			}
		]
	},
	{
		id: 'hoodAmount',
		title: 'Hood, supports, end caps',
		sentence: 'Sheet, supports and ends, each at its price.',
		bought: [
			{ id: 'hood', title: 'Hood sheet', quantity: 'hoodToBuy', unit: 'ft2', cost: 'hoodPrice.cost' },
			{
				id: 'hoodSupport',
				title: 'Hood support',
				quantity: 'hoodSupports * openings',
				unit: '1',
				cost: 'hoodPrice.support'
			},
			{
				id: 'endCap',
				title: 'Hood end cap',
				quantity: 'endCaps * openings',
				unit: '1',
				cost: 'hoodPrice.endCap'
			}
		]
	},
	{
		id: 'anchorsAmount',
		title: 'Anchors',
		sentence: 'By wall, with waste; full boxes come as their own line.',
		bought: [
			{
				id: 'anchorsLeft',
				title: 'Anchors, left',
				quantity: withWaste('anchorsLeft'),
				unit: '1',
				cost: 'anchorLeftPrice.cost'
			},
			{
				id: 'anchorsRight',
				title: 'Anchors, right',
				quantity: withWaste('anchorsRight'),
				unit: '1',
				cost: 'anchorRightPrice.cost'
			},
			{
				id: 'anchorsHead',
				title: 'Anchors of hood supports',
				quantity: withWaste('hoodSupportAnchors'),
				unit: '1',
				cost: 'anchorHeadPrice.cost',
				when: 'hoodSupportAnchors > 0'
			}
		]
	},
	{
		id: 'controlsAmount',
		title: 'Controls',
		sentence: 'One set an opening.',
		bought: [
			{
				id: 'controls',
				title: 'Controls',
				quantity: 'openings',
				unit: '1',
				measure: 'set',
				cost: 'controlPrice.cost',
				when: 'controls != ""'
			}
		]
	},
	...book.consumables.map(({ key, title, unit }): MaterialLine => {
		const constant = consumableConstants(key);
		return {
			id: `${key}Amount`,
			title,
			sentence: `Quantity to two decimals with its waste, at the price a ${unit}.`,
			bought: [
				{
					id: key,
					title,
					quantity: `round(${key}, 2) * openings * (1 + shop.${constant.waste})`,
					unit: '1',
					measure: unit,
					cost: `shop.${constant.cost}`
				}
			]
		};
	})
];

/** The amount of a line as a formula: every quantity at its price, each to the cent. */
export const amountFormula = ({ bought }: MaterialLine): string =>
	bought
		.map(({ quantity, cost, when }) => {
			const amount = `cents(${quantity} * ${cost})`;
			return when === undefined ? amount : `if(${when}, ${amount}, 0)`;
		})
		.join(' + ');
