/**
 * The takeoff as JSON, for the terminal and for other programs. Quantities are for ONE opening; totals multiply by
 * quantity. The schemas here are the contract; `static/schema/takeoff.schema.json` is the same as JSON Schema.
 */
import { z } from 'zod';
import { inUnit } from '../quantity/format.ts';
import { nameOfDimension, unit } from '../quantity/units.ts';
import type { QuantityDefinition } from '../rulebook/definition.ts';
import type { Engine, JobTakeoff } from './engine.ts';
import { cutKinds, cutLists, type CutPiece } from './cutting/cut-lists.ts';
import type { Measures } from './inputs.ts';
import { partsOf } from './parts.ts';
import { partKinds, type OpeningTakeoff } from './result.ts';
import { totalsOf, type Amount, type ItemTotal } from './totals.ts';
import { inputQuantities, listQuantities, unitFor } from './vocabulary.ts';

const amountSchema = z.strictObject({ value: z.number(), unit: z.string() });

const quantitySchema = z.strictObject({
	value: z.union([z.number(), z.string(), z.array(z.number())]),
	/** Empty for words. */
	unit: z.string()
});

const sourceSchema = z.strictObject({
	basis: z.enum(['published', 'commonPractice', 'fromMemory', 'shop', 'invented', 'definition']),
	text: z.string()
});

const checkSchema = z.strictObject({
	severity: z.enum(['stop', 'caution', 'note']),
	code: z.string(),
	text: z.string(),
	rule: z.string().nullable(),
	source: sourceSchema,
	clears: z.string()
});

const partSchema = z.strictObject({
	partId: z.string(),
	openingId: z.string(),
	mark: z.string(),
	kind: z.enum(partKinds),
	title: z.string(),
	side: z.enum(['left', 'right']).nullable(),
	item: z.string(),
	length: amountSchema.nullable(),
	width: amountSchema.nullable(),
	size: z.string(),
	hand: z.enum(['left', 'right']).nullable(),
	finish: z.string(),
	quantity: z.string(),
	unit: z.enum(['each', 'pair', 'set', 'length', 'tube', 'ft']),
	supply: z.enum(['maker', 'stock']),
	interchangeKey: z.string(),
	task: z.enum(['guides', 'brackets', 'coil', 'hood', 'power']),
	supersedes: z.string().nullable()
});

const amounts = z.record(z.string(), amountSchema);
const itemSchema = z.strictObject({ item: z.string(), title: z.string(), count: z.number(), amounts });

const cutPieceSchema = z.strictObject({
	length: amountSchema,
	mark: z.string(),
	/** One entry a piece. */
	openingIds: z.array(z.string())
});

const cutListSchema = z.strictObject({
	kind: z.enum(cutKinds),
	item: z.string(),
	title: z.string(),
	stockLength: amountSchema,
	kerf: amountSchema,
	pieces: z.array(cutPieceSchema),
	/** Bars that are cut alike. */
	patterns: z.array(
		z.strictObject({
			count: z.number().int(),
			/** In the order they are cut. */
			lengths: z.strictObject({ value: z.array(z.number()), unit: z.string() }),
			/** Of one bar. */
			offcut: amountSchema,
			kerf: amountSchema,
			/** For each bar, the opening each of its pieces is for. */
			bars: z.array(z.array(z.string()))
		})
	),
	/** To buy. */
	bars: z.number().int(),
	/** Bars that any plan needs. */
	lowerBound: z.number().int(),
	/** No plan has fewer bars. */
	proved: z.boolean(),
	firstFitDecreasing: z.number().int(),
	waste: z.strictObject({ offcut: amountSchema, kerf: amountSchema, share: z.number() }),
	/** Pieces that no bar of this stock gives. */
	notCuttable: z.array(z.strictObject({ ...cutPieceSchema.shape, text: z.string(), clears: z.string() }))
});

export const takeoffReportSchema = z.strictObject({
	openings: z.array(
		z.strictObject({
			mark: z.string(),
			/** Set where one opening of the mark has a row of its own. */
			openingId: z.string().nullable(),
			/** Openings this entry stands for. */
			quantity: z.number().int(),
			computed: z.boolean(),
			quantities: z.record(z.string(), quantitySchema),
			checks: z.array(checkSchema),
			parts: z.array(partSchema)
		})
	),
	totals: z.strictObject({
		marks: z.number().int(),
		openings: z.number().int(),
		notComputed: z.array(z.string()),
		checks: z.strictObject({ stop: z.number(), caution: z.number(), note: z.number() }),
		quantities: amounts,
		byPhase: z.array(
			z.strictObject({ phase: z.string(), marks: z.number(), openings: z.number(), quantities: amounts })
		),
		anchorsBySubstrate: z.array(
			z.strictObject({
				anchor: z.string(),
				substrate: z.string(),
				title: z.string(),
				size: z.string(),
				guides: z.number(),
				brackets: z.number(),
				hoodSupports: z.number(),
				total: z.number(),
				boxes: z.number(),
				perBox: z.number(),
				bits: z.number()
			})
		),
		curtains: z.array(itemSchema),
		guides: z.array(itemSchema),
		barrels: z.array(itemSchema),
		bracketPairs: z.array(itemSchema),
		drives: z.array(itemSchema),
		hoods: z.array(itemSchema),
		consumables: amounts,
		hoursByTask: z.record(
			z.string(),
			z.strictObject({ trade: z.string(), value: z.number(), unit: z.string() })
		),
		hoursByTrade: amounts
	}),
	/** Stock cut over the whole job. */
	cutLists: z.array(cutListSchema)
});

export type TakeoffReport = z.infer<typeof takeoffReportSchema>;

const fileUnits: Readonly<Record<string, readonly [imperial: string, metric: string]>> = {
	length: ['in', 'mm'],
	area: ['ft2', 'm2'],
	weight: ['lb', 'kg'],
	torque: ['lb-ft', 'N·m'],
	time: ['h', 'h']
};

/** The unit of a quantity in files: one for each dimension, whatever the screen shows. */
function fileUnitFor(definition: QuantityDefinition, measures: Measures): string {
	const shown = unitFor(definition, measures);
	const pair = fileUnits[nameOfDimension(unit(shown).dimension)];
	return pair ? pair[measures === 'metric' ? 1 : 0] : shown;
}

/** Twelve significant figures: what a person typed comes back as typed. */
const figure = (value: number): number => Number(value.toPrecision(12));

const lengthUnit = (measures: Measures): 'in' | 'mm' => (measures === 'metric' ? 'mm' : 'in');

type LengthAmount = z.infer<typeof amountSchema>;

const lengthAmount = (nm: number, measures: Measures): LengthAmount => ({
	value: figure(inUnit(nm, lengthUnit(measures))),
	unit: lengthUnit(measures)
});

const lengthOrNull = (nm: number | null, measures: Measures): LengthAmount | null =>
	nm === null ? null : lengthAmount(nm, measures);

/** Heights of the anchors in one guide above the sill, in base units; empty where not computed. */
function anchorPositions(opening: OpeningTakeoff, side: 'Left' | 'Right'): number[] {
	const count = opening.get(`anchorsPerGuide${side}`);
	const pitch = opening.get(`anchorPitch${side}`);
	const end = opening.get(`guide${side}.endDistance`);
	if (typeof count !== 'number' || typeof pitch !== 'number' || typeof end !== 'number') return [];
	return Array.from({ length: count }, (_, i) => end + i * pitch);
}

export function takeoffReport(engine: Engine, job: JobTakeoff): TakeoffReport {
	const { measures } = job;
	const totals = totalsOf(engine, job);
	const convert = (list: readonly Amount[]): TakeoffReport['totals']['quantities'] =>
		Object.fromEntries(
			list.map(({ id, value, unit: shown }) => {
				const definition = engine.rules.definition(id);
				const target = definition ? fileUnitFor(definition, measures) : shown;
				const base = value * unit(shown).scale;
				return [id, { value: figure(inUnit(base, target)), unit: target }];
			})
		);
	const items = (list: readonly ItemTotal[]) =>
		list.map((item) => ({ ...item, amounts: convert(item.amounts) }));
	return {
		openings: job.openings.map((opening) => ({
			mark: opening.mark,
			openingId: opening.openingId,
			quantity: opening.quantity,
			computed: opening.computed,
			quantities: quantitiesOf(engine, opening, measures),
			checks: opening.checks.map((check) => ({ ...check, source: { ...check.source } })),
			parts: partsOf(engine, opening).map((part) => ({
				...part,
				length: lengthOrNull(part.length, measures),
				width: lengthOrNull(part.width, measures)
			}))
		})),
		totals: {
			marks: totals.marks,
			openings: totals.openings,
			notComputed: [...totals.notComputed],
			checks: { ...totals.checks },
			quantities: convert(totals.amounts),
			byPhase: totals.byPhase.map(({ amounts: list, ...phase }) => ({ ...phase, quantities: convert(list) })),
			anchorsBySubstrate: totals.anchors.map((anchor) => ({ ...anchor })),
			curtains: items(totals.curtains),
			guides: items(totals.guides),
			barrels: items(totals.barrels),
			bracketPairs: items(totals.bracketPairs),
			drives: items(totals.drives),
			hoods: items(totals.hoods),
			consumables: Object.fromEntries(
				totals.consumables.map(({ id, value, unit: shown }) => [id, { value, unit: shown }])
			),
			hoursByTask: Object.fromEntries(
				totals.hoursByTask.map(({ id, value, unit: shown, trade }) => [
					id,
					{ trade, value: figure(value), unit: shown }
				])
			),
			hoursByTrade: convert(totals.hoursByTrade)
		},
		cutLists: cutListsOf(engine, job)
	};
}

function cutListsOf(engine: Engine, job: JobTakeoff): TakeoffReport['cutLists'] {
	const length = (nm: number): LengthAmount => lengthAmount(nm, job.measures);
	const piece = <T extends CutPiece>(one: T) => ({
		...one,
		length: length(one.length),
		openingIds: [...one.openingIds]
	});
	return cutLists(engine, job).map((list) => ({
		...list,
		stockLength: length(list.stockLength),
		kerf: length(list.kerf),
		pieces: list.pieces.map(piece),
		patterns: list.patterns.map(({ lengths, offcut, kerf, bars }) => ({
			count: bars.length,
			lengths: { value: lengths.map((nm) => length(nm).value), unit: lengthUnit(job.measures) },
			offcut: length(offcut),
			kerf: length(kerf),
			bars: bars.map((bar) => [...bar])
		})),
		waste: {
			offcut: length(list.waste.offcut),
			kerf: length(list.waste.kerf),
			share: figure(list.waste.share)
		},
		notCuttable: list.notCuttable.map(piece)
	}));
}

function quantitiesOf(engine: Engine, opening: OpeningTakeoff, measures: Measures) {
	const quantities: TakeoffReport['openings'][number]['quantities'] = {};
	for (const definition of [...inputQuantities, ...engine.quantities]) {
		const value = opening.get(definition.id);
		if (value === null) continue;
		if (typeof value === 'string') quantities[definition.id] = { value, unit: '' };
		else {
			const shown = fileUnitFor(definition, measures);
			quantities[definition.id] = { value: figure(inUnit(value, shown)), unit: shown };
		}
	}
	for (const list of listQuantities) {
		const positions = anchorPositions(opening, list.side);
		const shown = unitFor(list, measures);
		if (positions.length > 0)
			quantities[list.id] = { value: positions.map((nm) => figure(inUnit(nm, shown))), unit: shown };
	}
	return quantities;
}
