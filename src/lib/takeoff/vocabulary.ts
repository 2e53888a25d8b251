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
	sill: 'sills',
	leftSubstrate: 'substrates',
	rightSubstrate: 'substrates',
	headSubstrate: 'substrates',
	operation: 'operators',
	driveSide: 'sides',
	exposure: 'exposures'
};

const unitOfKind = { length: 'in', pressure: 'psf', voltage: 'V', count: '1', text: '1', key: '1' } as const;

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
		metricUnit: metricOf(unit),
		...(vocabulary === undefined ? {} : { vocabulary }),
		chapter: 1,
		sentence: input.sentence
	};
}

/** What the search of chapter 2 chooses; everything else of chapters 2 to 7 is a formula. */
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
