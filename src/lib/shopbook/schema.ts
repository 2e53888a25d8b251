/**
 * The shop book: a company's own sizes, weights, rules of thumb (technical book) and its costs and rates (price
 * book). They are two books, because not everyone who sees the sizes may see the prices. A job pins both by digest.
 *
 * Figures are decimals as text with their unit named by the schema, so that nothing is lost on the way in.
 */
import { z } from 'zod';
import { fastenerKinds, mountings, operations, substrates, trades, windings } from './words.ts';

/** Motor sizes of the code's table of single-phase full-load currents, hp. */
const motorSizes = ['1/6', '1/4', '1/3', '1/2', '3/4', '1', '1 1/2', '2', '3', '5', '7 1/2', '10'] as const;

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
	endLocksPerRow: notNegative,
	/** Bottom bars are cut from lengths of, in; 0 where the maker cuts them. */
	barStockLength: notNegative,
	/** Growth of the curtain's material, in/in for one °F. */
	expansion: notNegative,
	/** Its ends lock into the guides, so that wind pulls at them. */
	windlocks: z.boolean()
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
	drag: notNegative,
	/** Line of anchors: from the guide mouth on the face of the wall, from the coil-side face of the wall between jambs, in. */
	anchorGauge: positive,
	/** Face of wall: from the line of anchors to where the curtain pulls, in. 0 between jambs. */
	pryingArm: notNegative,
	/** Face of wall: from the line of anchors to the edge the guide turns about, in. */
	heel: positive,
	/** Leg under the anchors: thickness in in, tensile strength in psi. */
	legThickness: positive,
	legStrength: positive,
	/** Where the curtain leaves the coil, so that it hangs into this guide. */
	curtainLeaves: z.enum(windings),
	/** Guides are cut from lengths of, in; 0 where the maker cuts them. */
	stockLength: notNegative
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
	yieldStress: positive,
	/** Barrels are cut from lengths of, in; 0 where the maker cuts them. */
	stockLength: notNegative
});

const bracket = z.strictObject({
	...row,
	/** in */
	size: positive,
	/** A pair, lb. */
	pairWeight: positive,
	/** Anchors in one bracket at the least, and holes it has in all. */
	anchors: positive,
	mostAnchors: positive,
	/** Edge of the plate towards the opening to the first column of holes, in. */
	holeGauge: positive,
	/** Column to column, in. */
	holeAcross: positive,
	/** Top and bottom edge of the plate to the rows of holes, in. */
	holeEdge: positive
});

/** Holes of a bracket that are used: two rows, one column or more. */
const holePattern = z.strictObject({ ...row, columns: positive });

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
	weight: positive,
	/** Torque it is held or stopped at before it gives way, lb-ft. */
	stallTorque: positive,
	/** Minutes it runs before its thermal cut-out opens. */
	thermalMinutes: positive,
	/** Motor size as the code's table of currents has it. */
	horsepower: z.enum(motorSizes)
});

/** A material springs are wound from: strength Sut = A / d^m. */
const springMaterial = z.strictObject({
	...row,
	/** A, ksi·in^m, and m, for d in inches. */
	strength: positive,
	exponent: positive,
	/** ksi */
	elasticModulus: positive
});

/** Wire that springs are wound from. */
const springWire = z.strictObject({ ...row, material: key, diameter: positive });

/** What lifts a coil: the least that carries it high enough is named. */
const lift = z.strictObject({
	...row,
	/** lb */
	capacity: positive,
	/** Above the floor, in. */
	reach: positive
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
	needsTestedReport: z.boolean(),
	/** Taken where the row says nothing, psi: f′c of concrete, f′m of masonry, Fu of steel; 0 for wood. */
	strength: notNegative,
	/** Taken where the row says nothing, in: wall, steel or backing. */
	thickness: positive,
	/** Wood: specific gravity G, dry; 0 for other walls. */
	specificGravity: notNegative,
	/** Taken for concrete where the row says nothing. */
	cracked: z.boolean()
});

/** A fastener family: which anchor goes into which wall. A wall without a row here has no suitable anchor. */
const fixing = z.strictObject({
	...row,
	anchors: z.array(
		z.strictObject({
			substrate: z.enum(substrates),
			/** Part name, such as wedge anchor. */
			anchor: sentence,
			kind: z.enum(fastenerKinds),
			/** in */
			diameter: positive,
			/** Lengths it is bought in, in. */
			lengths: z.array(positive).min(1),
			/**
			 * In the wall, in: effective depth hef in concrete and masonry, thread without the tip in wood; 0 through steel
			 * and backing.
			 */
			embedment: notNegative,
			/** Beyond what it clamps, under the nut or head: washer, nut and tail, in. */
			nut: notNegative,
			/** Tapered tip of a lag screw, point of a drilling screw, in. */
			tip: notNegative,
			/** Root of the thread, in. */
			rootDiameter: positive,
			/** Stress area Ase, in². */
			stressArea: positive,
			/** Head or washer, in. */
			headDiameter: positive,
			/** psi */
			tensileStrength: positive,
			/** psi */
			yieldStrength: positive,
			/** Bending yield strength Fyb of a lag screw, psi. */
			bendingYield: positive,
			/** Proof stress of a through bolt, psi; 0 where there is none. */
			proofStress: notNegative,
			/** ACI 318 17.5.1: whether the steel is ductile, and the category of a post-installed anchor. */
			ductile: z.boolean(),
			category: z.enum(['1', '2', '3']),
			/** Breakout factor kc in cracked concrete: 17 post-installed, 24 cast in, or the report's. */
			breakoutFactor: notNegative,
			/** Reported characteristic pull-out, lb; 0 where nobody has tested it. */
			pullOut: notNegative,
			/** Reported allowable loads, lb; for kind `reported`. */
			allowableTension: notNegative,
			allowableShear: notNegative,
			/** Reported least spacing and edge distance, in; 0 where the standard’s apply. */
			leastSpacing: notNegative,
			leastEdge: notNegative,
			/** Reported tightening torque, lb-ft; 0 where there is none. */
			torque: notNegative,
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
	/** Least pressure on an interior partition, psf, at allowable level. */
	interiorPressure: positive,
	/** Load factors for strength design: dead with others, dead alone, live; wind pressure at allowable level times this. */
	factorDead: positive,
	factorDeadAlone: positive,
	factorLive: positive,
	factorWind: positive,
	/** Wood: load duration for dead load, live load and wind; wet service factor. */
	durationDead: positive,
	durationLive: positive,
	durationWind: positive,
	wetService: positive,
	/** Safety factor of screws in thin steel, of bolts. */
	safetyScrew: positive,
	safetyBolt: positive,
	/** Nut factor K of T = K·d·P. */
	nutFactor: positive,
	/** Shims under guides and brackets that the anchor has to pass, in. */
	shimAllowance: notNegative,
	/** Anchors on a guide never closer than this many diameters. */
	leastSpacingDiameters: positive,
	/** Full cycles a drive must do without a rest; full cycles to run in. */
	cyclesWithoutRest: positive,
	runInCycles: positive,
	/** The last travel before a limit, approached in single small steps, in. */
	limitApproach: positive,
	/** °F between the coldest and the warmest. */
	temperatureRangeInterior: positive,
	temperatureRangeExterior: positive,
	/** Most a person pulls or pushes, lb. */
	handForceLimit: positive,
	crankRatio: positive,
	crankArm: positive,
	chainRatio: positive,
	chainWheelRadius: positive,
	gearEfficiency: positive,
	/** Springs: full cycles they are made for, room between spring and bore, shaft inside, ends taken up by plugs, in. */
	springCycles: positive,
	springClearance: notNegative,
	springShaft: notNegative,
	springEndAllowance: notNegative,
	mostSprings: positive,
	/** Least fatigue factor. */
	springFatigueFactor: positive,
	/** Share of the supply voltage that may be lost on the way. */
	voltageDropLimit: positive,
	/** Where the coil is gripped before it is lifted by hand, above the floor, in. */
	liftFrom: notNegative,
	/** Lifts a minute. */
	liftRate: positive,
	/** Saw cut, in. */
	kerf: notNegative,
	/** Work higher than this above the floor is done from a lift, in. */
	reachHeight: positive,
	/** Counter sills above this earn the note on counter height, in. */
	counterHeight: positive,
	wasteSheet: notNegative,
	wasteAnchors: notNegative,
	wasteSealant: notNegative,
	wasteCurtain: notNegative
});

/** Editions the engine reckons by, where they differ. */
const standards = z.strictObject({
	wood: z.enum(['NDS 2018']),
	concrete: z.enum(['ACI 318-19']),
	/** 402-16 raised the crushing coefficient from 1050 to 1750 and turned the interaction into a 5/3 power. */
	masonry: z.enum(['TMS 402-16', 'TMS 402-13']),
	screws: z.enum(['AISI S100-16']),
	bolts: z.enum(['AISC 360-16']),
	wind: z.enum(['ASCE 7-16', 'ASCE 7-22']),
	electrical: z.enum(['NEC 2023']),
	lifting: z.enum(['NIOSH 94-110, 2021'])
});

export const technicalBookSchema = z.strictObject({
	format: z.literal('coilwright.technical-book.2'),
	title: sentence,
	invented: z.boolean(),
	curtains: z.array(curtain).min(1),
	guides: z.array(guide).min(1),
	barrels: z.array(barrel).min(1),
	brackets: z.array(bracket).min(1),
	holePatterns: z.array(holePattern).min(1),
	drives: z.array(drive).min(1),
	springMaterials: z.array(springMaterial).min(1),
	springWires: z.array(springWire).min(1),
	lifts: z.array(lift).min(1),
	operators: z.array(operator).length(operations.length),
	hoods: z.array(hood).min(1),
	substrates: z.array(substrate).length(substrates.length),
	fixings: z.array(fixing).min(1),
	controls: z.array(control),
	finishes: z.array(finish).min(1),
	tasks: z.array(task).min(1),
	consumables: z.array(consumable),
	constants,
	standards
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
	/** money each, by fixing, substrate and length: `standard.concrete.3.75` */
	anchors: z.array(z.strictObject(unitCost)),
	controls: z.array(z.strictObject(unitCost)),
	consumables: z.array(z.strictObject(unitCost)),
	/** money/h and share of it */
	rates: z.array(z.strictObject({ trade: z.enum(trades), base: notNegative, burden: notNegative, source })),
	/** Springs of hand-operated openings, money/lb */
	springPound: notNegative,
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

/** What of the price book is paid for parts. */
const ofParts = [
	'title',
	'invented',
	'currency',
	'curtains',
	'guides',
	'barrels',
	'brackets',
	'drives',
	'operators',
	'hoods',
	'anchors',
	'controls',
	'consumables',
	'springPound'
] as const;
export type PartCosts = Pick<PriceBook, (typeof ofParts)[number]>;

/** The costs of parts alone: without rates, burdens, percentages and whatever else is the shop's own. */
export const partCosts = (prices: PriceBook): PartCosts =>
	Object.fromEntries(ofParts.map((name) => [name, prices[name]])) as unknown as PartCosts;
