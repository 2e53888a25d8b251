/** What a bid holds of a job: put together once, when it is frozen or compared with the job as it is now. */
import type { BidContent, BidOpening, BidQuantity, BidValue } from '../../changes/bid.ts';
import type { Pricing } from '../../price/price.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import type { Engine, JobTakeoff } from '../../takeoff/engine.ts';
import type { OpeningTakeoff, Severity } from '../../takeoff/result.ts';
import { inputQuantities } from '../../takeoff/vocabulary.ts';

const countOf = ({ checks }: OpeningTakeoff, severity: Severity): number =>
	checks.filter((check) => check.severity === severity).length;

const openingOf = (opening: OpeningTakeoff): BidOpening => ({
	rowId: opening.row.id,
	name: opening.openingId ?? opening.mark,
	openings: opening.quantity,
	computed: opening.computed,
	stops: countOf(opening, 'stop'),
	cautions: countOf(opening, 'caution')
});

const quantityOf =
	(input: boolean) =>
	({ id, title, unit, metricUnit }: QuantityDefinition): BidQuantity => ({
		id,
		title,
		unit,
		...(metricUnit === undefined ? {} : { metricUnit }),
		input
	});

export function bidContent(
	engine: Engine,
	pricing: Pricing,
	takeoff: JobTakeoff,
	jobName: string
): BidContent {
	const { openings, measures } = takeoff;
	const quantities = [...inputQuantities.map(quantityOf(true)), ...engine.quantities.map(quantityOf(false))];
	const values: Record<string, BidValue[]> = {};
	for (const { id } of quantities) {
		const column = openings.map((opening) => opening.get(id));
		if (column.some((value) => value !== null)) values[id] = column;
	}
	return {
		format: 1,
		job: { name: jobName, measures },
		rows: openings.map(({ row }) => row),
		openings: openings.map(openingOf),
		quantities,
		values,
		price: pricing.price(takeoff)
	};
}
