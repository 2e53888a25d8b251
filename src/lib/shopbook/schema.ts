/**
 * The shop book: a company's own sizes, weights, rules of thumb (technical book) and its costs and rates (price
 * book). They are two books, because not everyone who sees the sizes may see the prices. A job pins both by digest.
 *
 * Figures are decimals as text with their unit named by the schema, so that nothing is lost on the way in.
 */
import { z } from 'zod';
import { mountings, operations, substrates, trades } from './words.ts';

const decimal = z.string().regex(/^-?\d+(\.\d+)?$/u, 'a plain decimal number, such as 12.5');
const positive = decimal.refine((text) => Number(text) > 0, 'greater than 0');
const notNegative = decimal.refine((text) => Number(text) >= 0, '0 or more');
const key = z
	.string()
	.regex(/^[A-Za-z0-9][A-Za-z0-9.-]*$/u, 'letters, digits, dots and hyphens, such as store-face')
	.max(60);
/** A key that formulas speak of: `layOut` gives the rules `layOutMinutes` and `layOutHours`. */
const identifier = z.string().regex(/^[a-z][A-Za-z0-9]{0,39}$/u, 'a word such as layOut');
const sentence = z.string().min(1).max(500);
const formula = z.string().min(1).max(1000);

const source = z.strictObject({
	basis: z.enum(['published', 'commonPractice', 'fromMemory', 'shop', 'invented', 'definition']),
	text: sentence
});

const row = { key, title: sentence, source };

/** Lengths in inches, weights in pounds, per foot or square foot as named. */
const curtain = z.strictObject({
	...row,
	/** One row of the curtain, in. */
	pitch: positive,
	/** Thickness of one turn, measured on a wound coil, in. */
	wrap: positive,
	/** lb/ft² of curtain. */
	weight: positive,
	/** Bottom bar, lb/ft. */
	barWeight: notNegative,
	/** Bottom bar, in. */
	barHeight: notNegative,
	/** Turns that stay on the barrel when closed. */
	holdTurns: notNegative,
	/** What one row is. */
	rowPart: z.enum(['rod', 'slat']),
	/** Links on one rod stand this far apart, in; 0 where there are none. */
	linkSpacing: notNegative,
	/** End locks in one row, both ends together. */
	endLocksPerRow: notNegative
});

const guide = z.strictObject({
	...row,
	mounting: z.enum(mountings),
	/** Parts that make one guide. */
	parts: positive,
	/** Face of wall: guide mouth behind the jamb edge, signed, in. Between jambs: 0. */
	setback: decimal,
	/** Between jambs: guide mouth before the jamb, in. Face of wall: 0. */
	projection: notNegative,
	groove: positive,
	engagement: positive,
	/** Least engagement on the far side with the curtain shoved over, in. */
	retention: notNegative,
	/** Guide mouth to the bracket, in. */
	offset: notNegative,
	/** Guide above the head of the opening, in. */
	extension: notNegative,
	/** Guide end to the first anchor, in. */
	endDistance: notNegative,
	/** lb/ft. */
	weight: notNegative,
	/** Two-part guides: assembly bolts stand this far apart, in; 0 where there are none. */
	assemblyBoltSpacing: notNegative,
	/** Drag of the curtain in this guide, lb/ft of guide. */
	drag: notNegative
});

const barrel = z.strictObject({
	...row,
	/** in */
	outsideDiameter: positive,
	/** in */
	bore: positive,
	/** lb/ft */
	weight: positive,
	/** in⁴ */
	secondMoment: positive,
	/** Wall that the second moment is for. */
	secondMomentWall: z.enum(['nominal', 'design']),
	/** ksi */
	elasticModulus: positive,
	/** ksi */
	yieldStress: positive
});

const bracket = z.strictObject({
	...row,
	/** in */
	size: positive,
	/** A pair, lb. */
	pairWeight: positive,
	/** Anchors in one bracket. */
	anchors: positive
});

const drive = z.strictObject({
	...row,
	/** in */
	outsideDiameter: positive,
	/** in */
	leastBore: positive,
	/** lb-ft */
	torque: positive,
	/** rpm */
	speed: positive,
	turns: positive,
	/** lb */
	weight: positive
});

/** What sits at the drive side for each way of operating. */
const operator = z.strictObject({
	key: z.enum(operations),
	title: sentence,
	source,
	/** Beyond the plate on the drive side, in. */
	overhang: notNegative,
	/** Operator weight outside the barrel, lb (a tube motor's weight is the drive's own). */
	weight: notNegative
});

const hood = z.strictObject({
	...row,
	/** lb/ft² */
	weight: positive,
	/** in */
	longestPiece: positive,
	/** Unsupported, in. */
	freeSpan: positive,
	/** in */
	lap: notNegative,
	/** Girth = factor · bracket size + allowance. */
	girthFactor: positive,
	/** in */
	girthAllowance: notNegative
});

const substrate = z.strictObject({
	key: z.enum(substrates),
	title: sentence,
	source,
	/** Anchors on a guide at most this far apart, in. */
	anchorSpacing: positive,
	/** Crew-minutes for one anchor. */
	anchorMinutes: notNegative,
	/** Only a tested report gives its capacity. */
	needsTestedReport: z.boolean()
});

/** A fastener family: which anchor goes into which wall. A wall without a row here has no suitable anchor. */
const fixing = z.strictObject({
	...row,
	anchors: z.array(
		z.strictObject({
			substrate: z.enum(substrates),
			/** Part name, such as wedge anchor. */
			anchor: sentence,
			/** in */
			diameter: positive,
			/** in */
			length: positive,
			/** To the full box. */
			perBox: positive,
			/** Holes one bit drills; 0 where nothing is drilled. */
			holesPerBit: notNegative,
			reportNumber: z.string().max(60)
		})
	)
});

const control = z.strictObject({
	...row,
	/** Parts that come with it, each once an opening. */
	parts: z.array(z.strictObject({ title: sentence, quantity: positive })),
	/** Who supplies it: the maker on the truck, the shop from its own shelves, another trade, or nobody yet. */
	suppliedBy: z.enum(['maker', 'shop', 'others', 'nobody']),
	/** Who wires it; empty while nobody is named. */
	wiredBy: z.string().max(80)
});

const finish = z.strictObject(row);

const task = z.strictObject({
	...row,
	key: identifier,
	trade: z.enum(trades),
	/** People, as a formula: `2` or `if(coilWeight > 400 * lb, 3, 2)`. */
	crew: formula,
	/** Minutes the crew works at it, as a formula. */
	crewMinutes: formula,
	/** Done from a lift where the work is higher than the shop's reach. */
	lift: z.boolean()
});

/** Something used up: quantity for one opening as a formula. */
const consumable = z.strictObject({
	...row,
	key: identifier,
	unit: z.enum(['each', 'tube', 'ft']),
	quantity: formula,
	/** Share bought on top, for what is cut or spilt. */
	waste: notNegative
});

/** The shop's own limits and rates that stand in no table. */
const constants = z.strictObject({
	/** Deflection limit: the span over this number. 400 is 0.03 in per foot. */
	deflectionRatio: positive,
	/** Yield stress over this number is allowed. */
	stressFactor: positive,
	/** Share of the torque. */
	guideFriction: notNegative,
	serviceFactor: positive,
	/** Coil to bracket edge, a side, in. */
	coilClearance: notNegative,
	/** Above the bracket, in. */
	headAccess: notNegative,
	plateThickness: notNegative,
	sideAccess: notNegative,
	frontClearance: notNegative,
	/** Shims a side between jambs, in. */
	betweenShim: notNegative,
	/** Room left over by less than this earns a caution, in. */
	roomMargin: notNegative,
	/** A drawing's guide distance may differ by this much, in. */
	drawingTolerance: notNegative,
	crateAllowance: notNegative,
	/** Share of the weight. */
	crateShare: notNegative,
	anchorsPerHoodSupport: notNegative,
	/** Work higher than this above the floor is done from a lift, in. */
	reachHeight: positive,
	/** Counter sills above this earn the note on counter height, in. */
	counterHeight: positive,
	wasteSheet: notNegative,
	wasteAnchors: notNegative,
	wasteSealant: notNegative,
	wasteCurtain: notNegative
});

export const technicalBookSchema = z.strictObject({
	format: z.literal('coilwright.technical-book.1'),
	title: sentence,
	invented: z.boolean(),
	curtains: z.array(curtain).min(1),
	guides: z.array(guide).min(1),
	barrels: z.array(barrel).min(1),
	brackets: z.array(bracket).min(1),
	drives: z.array(drive).min(1),
	operators: z.array(operator).length(operations.length),
	hoods: z.array(hood).min(1),
	substrates: z.array(substrate).length(substrates.length),
	fixings: z.array(fixing).min(1),
	controls: z.array(control),
	finishes: z.array(finish).min(1),
	tasks: z.array(task).min(1),
	consumables: z.array(consumable),
	constants
});

const unitCost = { key, cost: notNegative, source };

export const priceBookSchema = z.strictObject({
	format: z.literal('coilwright.price-book.1'),
	title: sentence,
	invented: z.boolean(),
	/** ISO 4217. */
	currency: z.string().regex(/^[A-Z]{3}$/u),
	/** By curtain key: money/ft² of curtain, and money/ft of bottom bar. */
	curtains: z.array(z.strictObject({ ...unitCost, bar: notNegative })),
	/** money/ft */
	guides: z.array(z.strictObject(unitCost)),
	/** money/ft */
	barrels: z.array(z.strictObject(unitCost)),
	/** money a pair, wall plates included */
	brackets: z.array(z.strictObject(unitCost)),
	drives: z.array(z.strictObject(unitCost)),
	operators: z.array(z.strictObject(unitCost)),
	/** money/ft² of hood; `support` each; `endCap` each */
	hoods: z.array(z.strictObject({ ...unitCost, support: notNegative, endCap: notNegative })),
	/** money each, by fixing and substrate: `standard.concrete` */
	anchors: z.array(z.strictObject(unitCost)),
	controls: z.array(z.strictObject(unitCost)),
	consumables: z.array(z.strictObject(unitCost)),
	/** money/h and share of it */
	rates: z.array(z.strictObject({ trade: z.enum(trades), base: notNegative, burden: notNegative, source })),
	/** money a day */
	liftDay: notNegative,
	/** Kept for the visit reckoning; money. */
	mobilisation: notNegative,
	tax: notNegative,
	freight: notNegative,
	contingency: notNegative,
	overhead: notNegative,
	profit: notNegative,
	profitBasis: z.enum(['marginOfPrice', 'onCost']),
	bond: notNegative,
	/** Each mark's price is rounded to a multiple of this, money. */
	roundingStep: positive
});

export type TechnicalBook = z.infer<typeof technicalBookSchema>;
export type PriceBook = z.infer<typeof priceBookSchema>;
