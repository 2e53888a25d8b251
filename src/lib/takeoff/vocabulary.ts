/**
 * The one table of ids: every quantity the takeoff speaks of, typed, chosen or computed. Columns, working, workbook
 * headings and JSON come from it.
 */
import type { QuantityDefinition } from '../rulebook/definition.ts';
import { inputs, type InputDefinition } from './inputs.ts';
import { metricOf } from './rules/rule.ts';

const fixedVocabularies: Readonly<Partial<Record<string, string>>> = {
	mounting: 'mountings',
	rightMounting: 'mountings',
	drawnFrom: 'viewpoints',
	hold: 'holds',
	sill: 'sills',
	leftSubstrate: 'substrates',
	rightSubstrate: 'substrates',
	headSubstrate: 'substrates',
	operation: 'operators',
	driveSide: 'sides',
	exposure: 'exposures',
	wallCondition: 'conditions'
};

const unitOfKind = {
	length: 'in',
	pressure: 'psf',
	strength: 'psi',
	lineLoad: 'lb/ft',
	voltage: 'V',
	count: '1',
	text: '1',
	key: '1'
} as const;

/** Inputs the rules can read; text stays outside the arithmetic. */
export const inputQuantities: readonly QuantityDefinition[] = inputs
	.filter((input) => input.kind !== 'text')
	.map((input) => quantityOf(input));

function quantityOf(input: InputDefinition): QuantityDefinition {
	const unit = unitOfKind[input.kind];
	const vocabulary = input.table ?? fixedVocabularies[input.id];
	return {
		id: input.id,
		title: input.title,
		kind: input.kind === 'key' ? 'key' : input.kind === 'count' ? 'count' : 'number',
		unit,
		metricUnit: input.kind === 'lineLoad' ? 'kN/m' : metricOf(unit),
		...(vocabulary === undefined ? {} : { vocabulary }),
		chapter: 1,
		sentence: input.sentence
	};
}

/**
 * What is chosen: barrel, bracket and drive by the search of chapter 2, the rest one by one by `picks.ts`. Everything
 * else of chapters 2 to 7 is a formula.
 */
export const chosenQuantities: readonly QuantityDefinition[] = [
	{
		id: 'barrel',
		title: 'Barrel',
		kind: 'key',
		unit: '1',
		vocabulary: 'barrels',
		chapter: 2,
		sentence: 'The lightest pipe with which everything passes.'
	},
	{
		id: 'bracket',
		title: 'Bracket',
		kind: 'key',
		unit: '1',
		vocabulary: 'brackets',
		chapter: 2,
		sentence: 'The smallest bracket on that pipe that takes the coil with its clearance.'
	},
	{
		id: 'drive',
		title: 'Drive',
		kind: 'key',
		unit: '1',
		vocabulary: 'drives',
		chapter: 3,
		sentence:
			'The smallest tube motor with the torque and turns that enters the bore; none for hand operation.'
	},
	{
		id: 'conductor',
		title: 'Conductor',
		kind: 'key',
		unit: '1',
		vocabulary: 'conductors',
		chapter: 3,
		sentence:
			'The thinnest copper with the ampacity and the voltage drop; for a licensed electrician to confirm.'
	},
	{
		id: 'breaker',
		title: 'Breaker',
		kind: 'key',
		unit: '1',
		vocabulary: 'breakers',
		chapter: 3,
		sentence: 'The standard size at or next above the largest allowed; for a licensed electrician to confirm.'
	},
	{
		id: 'springSet',
		title: 'Springs',
		kind: 'key',
		unit: '1',
		vocabulary: 'springSets',
		chapter: 3,
		sentence:
			'The fewest springs of the thinnest wire that last the cycles and fit the barrel; none with a tube motor.'
	},
	{
		id: 'holePattern',
		title: 'Hole pattern of the brackets',
		kind: 'key',
		unit: '1',
		vocabulary: 'holePatterns',
		chapter: 4,
		sentence: 'The smallest pattern, no smaller than the bracket’s own, that holds on both sides.'
	},
	...(['Left', 'Right'] as const).map((side) => ({
		id: `anchorsPerGuide${side}`,
		title: `Anchors, guide ${side.toLowerCase()}`,
		kind: 'count' as const,
		unit: '1',
		chapter: 4,
		sentence: 'The fewest that hold the load, no fewer than by spacing.'
	})),
	...(['Left', 'Right', 'Head'] as const).map((side) => ({
		id: `anchorStock${side}`,
		title: side === 'Head' ? 'Anchor bought, over the head' : `Anchor bought, ${side.toLowerCase()} wall`,
		kind: 'key' as const,
		unit: '1',
		vocabulary: 'anchorStock',
		chapter: 4,
		sentence:
			'The shortest length of the anchor that reaches its embedment through everything that lies on the wall.'
	})),
	{
		id: 'lift',
		title: 'Lift for the coil',
		kind: 'key',
		unit: '1',
		vocabulary: 'lifts',
		chapter: 6,
		sentence:
			'The smallest lift of the shop book that carries the coil and reaches; needed where it is not lifted by hand.'
	}
];

/** Lists of figures that follow from the quantities: the one shape that is no column. */
export const listQuantities: readonly (Omit<QuantityDefinition, 'kind'> & {
	readonly kind: 'list';
	readonly side: 'Left' | 'Right';
})[] = (['Left', 'Right'] as const).map((side) => ({
	id: `anchorPositions${side}`,
	title: `Anchor heights, guide ${side.toLowerCase()}`,
	kind: 'list',
	side,
	unit: 'in',
	metricUnit: metricOf('in'),
	chapter: 4,
	sentence: 'Above the finished sill, from end distance to end distance, equally apart.'
}));

/** A metric job shows this unit for the quantity, an imperial one its own. */
export const unitFor = (
	quantity: Pick<QuantityDefinition, 'unit' | 'metricUnit'>,
	measures: 'imperial' | 'metric'
): string => (measures === 'metric' ? (quantity.metricUnit ?? quantity.unit) : quantity.unit);
