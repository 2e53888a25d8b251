/** The technical book as the rule book sees it: tables with units, vocabularies and the shop's constants. */
import type {
	ConstantDefinition,
	ScopeDefinition,
	TableAttribute,
	TableDefinition,
	Vocabulary
} from '../rulebook/definition.ts';
import type { TechnicalBook } from './schema.ts';
import {
	breakerSource,
	conductors,
	conductorSource,
	motorCurrents,
	motorCurrentSource,
	standardBreakers
} from './published-tables.ts';
import { failureModes, fastenerKinds, mountings, windings } from './words.ts';

type Row = Readonly<Record<string, unknown>> & { readonly key: string };

type Column = readonly [id: string, title: string, unit: string, vocabulary?: string];

/** Hoods, drives and controls may be none: a row of zeros stands for it. */
export const none = 'none';

const asText = (value: unknown, vocabulary: string | undefined): string => {
	if (typeof value === 'string') return value;
	if (typeof value === 'boolean') return value ? '1' : '0';
	return vocabulary === undefined ? '0' : '';
};

function table(
	id: string,
	title: string,
	rows: readonly Row[],
	columns: readonly Column[],
	source?: string
): TableDefinition {
	const attributes = columns.map(([attribute, heading, unit, vocabulary]): TableAttribute => ({
		id: attribute,
		title: heading,
		unit,
		kind: vocabulary === undefined ? 'number' : 'key',
		...(vocabulary === undefined ? {} : { vocabulary }),
		values: rows.map((row) => asText(row[attribute], vocabulary))
	}));
	return {
		id,
		title,
		keys: rows.map((row) => row.key),
		attributes,
		...(source === undefined ? {} : { source: { basis: 'published' as const, text: source } })
	};
}

const withNone = (rows: readonly Row[]): readonly Row[] =>
	rows.some((row) => row.key === none) ? rows : [...rows, { key: none }];

/** One row for every anchor a fixing has for a wall: `standard.concrete`. */
export const anchorKey = (fixing: string, substrate: string): string => `${fixing}.${substrate}`;

/** One row for every length it is bought in: `standard.concrete.3.75`. */
export const stockKey = (anchor: string, length: string): string => `${anchor}.${length}`;

/** Torsion springs side by side on one shaft: wire and how many, `oil-0.25.2`. */
export const springSetKey = (wire: string, count: number): string => `${wire}.${String(count)}`;

export function technicalTables(book: TechnicalBook): TableDefinition[] {
	const anchors = book.fixings.flatMap((fixing) =>
		fixing.anchors.map((anchor) => ({
			...anchor,
			key: anchorKey(fixing.key, anchor.substrate),
			hasReport: anchor.reportNumber !== ''
		}))
	);
	const anchorStock = anchors.flatMap((anchor) =>
		anchor.lengths.map((length) => ({ key: stockKey(anchor.key, length), anchor: anchor.key, length }))
	);
	const springSets = Array.from({ length: Number(book.constants.mostSprings) }, (_, i) => i + 1).flatMap(
		(count) =>
			book.springWires.map((wire) => ({
				...book.springMaterials.find(({ key }) => key === wire.material),
				key: springSetKey(wire.key, count),
				wire: wire.diameter,
				count: String(count)
			}))
	);
	const controls = book.controls.map((control) => ({
		...control,
		nobodyWires: control.parts.length > 0 && (control.suppliedBy === 'nobody' || control.wiredBy === '')
	}));
	return [
		table('curtains', 'Curtains', book.curtains, [
			['pitch', 'Pitch', 'in'],
			['wrap', 'Wrap thickness', 'in'],
			['weight', 'Weight', 'lb/ft2'],
			['barWeight', 'Bottom bar', 'lb/ft'],
			['barHeight', 'Bar height', 'in'],
			['holdTurns', 'Hold turns', '1'],
			['rowPart', 'A row is a', '1', 'rowParts'],
			['linkSpacing', 'Link spacing', 'in'],
			['endLocksPerRow', 'End locks a row', '1'],
			['barStockLength', 'Bottom bar, stock length', 'in'],
			['expansion', 'Growth for one °F', '1'],
			['windlocks', 'Has windlocks', '1']
		]),
		table('guides', 'Guides', book.guides, [
			['mounting', 'Mounting', '1', 'mountings'],
			['parts', 'Parts', '1'],
			['setback', 'Setback', 'in'],
			['projection', 'Projection', 'in'],
			['groove', 'Groove', 'in'],
			['engagement', 'Engagement', 'in'],
			['retention', 'Retention', 'in'],
			['offset', 'Bracket offset', 'in'],
			['extension', 'Extension', 'in'],
			['endDistance', 'End distance', 'in'],
			['weight', 'Weight', 'lb/ft'],
			['assemblyBoltSpacing', 'Assembly bolt spacing', 'in'],
			['drag', 'Drag', 'lb/ft'],
			['anchorGauge', 'Anchor gauge', 'in'],
			['pryingArm', 'Prying arm', 'in'],
			['heel', 'Heel', 'in'],
			['legThickness', 'Leg thickness', 'in'],
			['legStrength', 'Tensile strength of the leg', 'psi'],
			['curtainLeaves', 'Curtain leaves the coil on', '1', 'windings'],
			['stockLength', 'Stock length', 'in']
		]),
		table('barrels', 'Barrels', book.barrels, [
			['outsideDiameter', 'Outside diameter', 'in'],
			['bore', 'Bore', 'in'],
			['weight', 'Weight', 'lb/ft'],
			['secondMoment', 'Second moment of area', 'in4'],
			['elasticModulus', 'Elastic modulus', 'ksi'],
			['yieldStress', 'Yield stress', 'ksi'],
			['stockLength', 'Stock length', 'in']
		]),
		table('brackets', 'Brackets', book.brackets, [
			['size', 'Size', 'in'],
			['pairWeight', 'Weight of a pair', 'lb'],
			['anchors', 'Anchors per bracket', '1'],
			['mostAnchors', 'Holes for anchors', '1'],
			['holeGauge', 'Hole gauge', 'in'],
			['holeAcross', 'Hole columns apart', 'in'],
			['holeEdge', 'Hole rows from the edge', 'in']
		]),
		table('holePatterns', 'Hole patterns', book.holePatterns, [['columns', 'Columns of two', '1']]),
		table('drives', 'Drives', withNone(book.drives), [
			['outsideDiameter', 'Outside diameter', 'in'],
			['leastBore', 'Least bore', 'in'],
			['torque', 'Torque', 'lb-ft'],
			['speed', 'Speed', 'rpm'],
			['turns', 'Turns', '1'],
			['weight', 'Weight', 'lb'],
			['stallTorque', 'Stall torque', 'lb-ft'],
			['thermalMinutes', 'Runs before the thermal cut-out', 'min'],
			['horsepower', 'Motor size', '1', 'motorCurrents']
		]),
		table(
			'motorCurrents',
			'Full-load currents of motors',
			motorCurrents,
			[
				['at115', 'At 115 V', 'A'],
				['at200', 'At 200 V', 'A'],
				['at208', 'At 208 V', 'A'],
				['at230', 'At 230 V', 'A']
			],
			motorCurrentSource
		),
		table(
			'conductors',
			'Copper conductors',
			conductors,
			[
				['ampacity60', 'Ampacity, 60 °C', 'A'],
				['ampacity75', 'Ampacity, 75 °C', 'A'],
				['ampacity90', 'Ampacity, 90 °C', 'A'],
				['resistance', 'Resistance', 'ohm/ft'],
				['area', 'Circular mils', '1']
			],
			conductorSource
		),
		table('breakers', 'Standard breakers', standardBreakers, [['rating', 'Rating', 'A']], breakerSource),
		table('springSets', 'Springs', springSets, [
			['wire', 'Wire diameter', 'in'],
			['count', 'Springs side by side', '1'],
			['strength', 'Strength constant A', 'ksi'],
			['exponent', 'Strength exponent m', '1'],
			['elasticModulus', 'Elastic modulus', 'ksi']
		]),
		table('lifts', 'Lifts', book.lifts, [
			['capacity', 'Capacity', 'lb'],
			['reach', 'Reach', 'in']
		]),
		table('operators', 'Operation', book.operators, [
			['overhang', 'Overhang on the drive side', 'in'],
			['weight', 'Weight', 'lb']
		]),
		table('hoods', 'Hoods', withNone(book.hoods), [
			['weight', 'Weight', 'lb/ft2'],
			['longestPiece', 'Longest piece', 'in'],
			['freeSpan', 'Free span', 'in'],
			['lap', 'Lap', 'in'],
			['girthFactor', 'Girth factor', '1'],
			['girthAllowance', 'Girth allowance', 'in']
		]),
		table('substrates', 'Walls', book.substrates, [
			['anchorSpacing', 'Anchor spacing', 'in'],
			['anchorMinutes', 'Crew-minutes an anchor', 'min'],
			['needsTestedReport', 'Needs a tested report', '1'],
			['strength', 'Strength', 'psi'],
			['thickness', 'Thickness', 'in'],
			['specificGravity', 'Specific gravity', '1'],
			['cracked', 'Cracked', '1']
		]),
		table('fixings', 'Fixings', book.fixings, []),
		table('anchors', 'Anchors', anchors, [
			['kind', 'Kind', '1', 'fastenerKinds'],
			['diameter', 'Diameter', 'in'],
			['embedment', 'Embedment', 'in'],
			['nut', 'Nut and tail', 'in'],
			['tip', 'Tip', 'in'],
			['rootDiameter', 'Root diameter', 'in'],
			['stressArea', 'Stress area', 'in2'],
			['headDiameter', 'Head or washer', 'in'],
			['tensileStrength', 'Tensile strength', 'psi'],
			['yieldStrength', 'Yield strength', 'psi'],
			['bendingYield', 'Bending yield strength', 'psi'],
			['proofStress', 'Proof stress', 'psi'],
			['ductile', 'Ductile', '1'],
			['category', 'Category', '1'],
			['breakoutFactor', 'Breakout factor', '1'],
			['pullOut', 'Reported pull-out', 'lb'],
			['allowableTension', 'Reported allowable tension', 'lb'],
			['allowableShear', 'Reported allowable shear', 'lb'],
			['leastSpacing', 'Reported least spacing', 'in'],
			['leastEdge', 'Reported least edge distance', 'in'],
			['torque', 'Reported tightening torque', 'lb-ft'],
			['perBox', 'In a box', '1'],
			['holesPerBit', 'Holes a bit', '1'],
			['hasReport', 'Has a tested report', '1']
		]),
		table('anchorStock', 'Anchors by length', anchorStock, [
			['anchor', 'Anchor', '1', 'anchors'],
			['length', 'Length', 'in']
		]),
		table('controls', 'Controls', controls, [['nobodyWires', 'Nobody supplies or wires', '1']]),
		table('finishes', 'Finishes', book.finishes, [])
	];
}

export const vocabularies: readonly Vocabulary[] = [
	{ id: 'mountings', keys: mountings },
	{ id: 'sides', keys: ['left', 'right'] },
	{ id: 'viewpoints', keys: ['coilSide', 'farSide'] },
	{ id: 'sills', keys: ['counter', 'floor'] },
	{ id: 'holds', keys: ['fieldMeasure'] },
	{ id: 'exposures', keys: ['interior', 'exterior'] },
	{ id: 'rowParts', keys: ['rod', 'slat'] },
	{ id: 'conditions', keys: ['cracked', 'uncracked'] },
	{ id: 'fastenerKinds', keys: fastenerKinds },
	{ id: 'windings', keys: windings },
	{ id: 'failureModes', keys: failureModes }
];

export const scopes: readonly ScopeDefinition[] = [
	{ name: 'curtain', table: 'curtains', key: 'curtain' },
	{ name: 'guideLeft', table: 'guides', key: 'guideLeft' },
	{ name: 'guideRight', table: 'guides', key: 'guideRight' },
	{ name: 'substrateLeft', table: 'substrates', key: 'substrateLeft' },
	{ name: 'substrateRight', table: 'substrates', key: 'substrateRight' },
	{ name: 'anchorLeft', table: 'anchors', key: 'anchorLeft' },
	{ name: 'anchorRight', table: 'anchors', key: 'anchorRight' },
	{ name: 'hood', table: 'hoods', key: 'hood' },
	{ name: 'operator', table: 'operators', key: 'operation' },
	{ name: 'controls', table: 'controls', key: 'controls' },
	{ name: 'barrel', table: 'barrels', key: 'barrel' },
	{ name: 'bracket', table: 'brackets', key: 'bracket' },
	{ name: 'drive', table: 'drives', key: 'drive' },
	{ name: 'anchorHead', table: 'anchors', key: 'anchorHead' },
	{ name: 'substrateHead', table: 'substrates', key: 'headSubstrate' },
	{ name: 'anchorStockLeft', table: 'anchorStock', key: 'anchorStockLeft' },
	{ name: 'anchorStockRight', table: 'anchorStock', key: 'anchorStockRight' },
	{ name: 'anchorStockHead', table: 'anchorStock', key: 'anchorStockHead' },
	{ name: 'holePattern', table: 'holePatterns', key: 'holePattern' },
	{ name: 'springSet', table: 'springSets', key: 'springSet' },
	{ name: 'motor', table: 'motorCurrents', key: 'motorSize' },
	{ name: 'conductor', table: 'conductors', key: 'conductor' },
	{ name: 'breaker', table: 'breakers', key: 'breaker' },
	{ name: 'lift', table: 'lifts', key: 'lift' }
];

const constantUnits: Readonly<
	Record<keyof TechnicalBook['constants'], readonly [unit: string, title: string]>
> = {
	deflectionRatio: ['1', 'Span over deflection'],
	stressFactor: ['1', 'Factor on yield stress'],
	guideFriction: ['1', 'Guide friction'],
	serviceFactor: ['1', 'Service factor'],
	coilClearance: ['in', 'Coil clearance, a side'],
	headAccess: ['in', 'Access above the bracket'],
	plateThickness: ['in', 'Wall plate'],
	sideAccess: ['in', 'Side access'],
	frontClearance: ['in', 'Front clearance'],
	betweenShim: ['in', 'Shims between jambs, a side'],
	roomMargin: ['in', 'Margin of room'],
	drawingTolerance: ['in', 'Drawing may differ by'],
	crateAllowance: ['in', 'Crate longer than the span'],
	crateShare: ['1', 'Crate and packing, share of weight'],
	anchorsPerHoodSupport: ['1', 'Anchors a hood support'],
	interiorPressure: ['psf', 'Least pressure inside'],
	factorDead: ['1', 'Load factor, dead with others'],
	factorDeadAlone: ['1', 'Load factor, dead alone'],
	factorLive: ['1', 'Load factor, live'],
	factorWind: ['1', 'Load factor, wind at allowable level'],
	durationDead: ['1', 'Load duration in wood, dead'],
	durationLive: ['1', 'Load duration in wood, live'],
	durationWind: ['1', 'Load duration in wood, wind'],
	wetService: ['1', 'Wet service in wood'],
	safetyScrew: ['1', 'Safety factor, screws'],
	safetyBolt: ['1', 'Safety factor, bolts'],
	nutFactor: ['1', 'Nut factor'],
	shimAllowance: ['in', 'Shims the anchor passes'],
	leastSpacingDiameters: ['1', 'Least anchor spacing, diameters'],
	cyclesWithoutRest: ['1', 'Cycles without a rest'],
	runInCycles: ['1', 'Cycles to run in'],
	limitApproach: ['in', 'Travel before a limit in small steps'],
	temperatureRangeInterior: ['1', 'Temperature range inside, °F'],
	temperatureRangeExterior: ['1', 'Temperature range outside, °F'],
	handForceLimit: ['lb', 'Most hand force'],
	crankRatio: ['1', 'Crank gearing'],
	crankArm: ['in', 'Crank arm'],
	chainRatio: ['1', 'Chain gearing'],
	chainWheelRadius: ['in', 'Chain wheel radius'],
	gearEfficiency: ['1', 'Gear efficiency'],
	springCycles: ['1', 'Cycles springs are made for'],
	springClearance: ['in', 'Room between spring and bore'],
	springShaft: ['in', 'Shaft inside the springs'],
	springEndAllowance: ['in', 'Plugs at the ends of the springs'],
	mostSprings: ['1', 'Most springs side by side'],
	springFatigueFactor: ['1', 'Least fatigue factor of springs'],
	voltageDropLimit: ['1', 'Voltage drop, share'],
	liftFrom: ['in', 'Gripped above the floor'],
	liftRate: ['1', 'Lifts a minute'],
	kerf: ['in', 'Saw cut'],
	reachHeight: ['in', 'Reach without a lift'],
	counterHeight: ['in', 'Counter height to note'],
	wasteSheet: ['1', 'Waste, sheet'],
	wasteAnchors: ['1', 'Waste, anchors'],
	wasteSealant: ['1', 'Waste, sealant'],
	wasteCurtain: ['1', 'Waste, shop-made curtain']
};

export function technicalConstants(book: TechnicalBook): ConstantDefinition[] {
	const own = Object.entries(constantUnits).map(([id, [unit, title]]) => ({
		id,
		title,
		unit,
		value: book.constants[id as keyof TechnicalBook['constants']],
		source: { basis: book.invented ? ('invented' as const) : ('shop' as const), text: book.title }
	}));
	return [...own, ...byEdition(book)];
}

/** Figures that differ from edition to edition; the shop book says which is used. */
function byEdition({ standards: { masonry } }: TechnicalBook): ConstantDefinition[] {
	const later = masonry === 'TMS 402-16';
	const source = {
		basis: 'published' as const,
		text: `${masonry}, 9.1.6: crushing coefficient 1750 from 2016, 1050 before; interaction to the 5/3 power from 2016, linear before.`
	};
	return [
		{
			id: 'masonryCrushing',
			title: 'Masonry crushing coefficient',
			unit: '1',
			value: later ? '1750' : '1050',
			source
		},
		{
			id: 'masonryInteraction',
			title: 'Masonry interaction exponent',
			unit: '1',
			value: later ? '1.66666666666667' : '1',
			source
		}
	];
}
