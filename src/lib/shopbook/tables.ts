/** The technical book as the rule book sees it: tables with units, vocabularies and the shop's constants. */
import type {
	ConstantDefinition,
	ScopeDefinition,
	TableAttribute,
	TableDefinition,
	Vocabulary
} from '../rulebook/definition.ts';
import type { TechnicalBook } from './schema.ts';
import { mountings } from './words.ts';

type Row = Readonly<Record<string, unknown>> & { readonly key: string };

type Column = readonly [id: string, title: string, unit: string, vocabulary?: string];

/** Hoods, drives and controls may be none: a row of zeros stands for it. */
export const none = 'none';

const asText = (value: unknown, vocabulary: string | undefined): string => {
	if (typeof value === 'string') return value;
	if (typeof value === 'boolean') return value ? '1' : '0';
	return vocabulary === undefined ? '0' : '';
};

function table(id: string, title: string, rows: readonly Row[], columns: readonly Column[]): TableDefinition {
	const attributes = columns.map(([attribute, heading, unit, vocabulary]): TableAttribute => ({
		id: attribute,
		title: heading,
		unit,
		kind: vocabulary === undefined ? 'number' : 'key',
		...(vocabulary === undefined ? {} : { vocabulary }),
		values: rows.map((row) => asText(row[attribute], vocabulary))
	}));
	return { id, title, keys: rows.map((row) => row.key), attributes };
}

const withNone = (rows: readonly Row[]): readonly Row[] =>
	rows.some((row) => row.key === none) ? rows : [...rows, { key: none }];

/** One row for every anchor a fixing has for a wall: `standard.concrete`. */
export const anchorKey = (fixing: string, substrate: string): string => `${fixing}.${substrate}`;

export function technicalTables(book: TechnicalBook): TableDefinition[] {
	const anchors = book.fixings.flatMap((fixing) =>
		fixing.anchors.map((anchor) => ({
			...anchor,
			key: anchorKey(fixing.key, anchor.substrate),
			hasReport: anchor.reportNumber !== ''
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
			['endLocksPerRow', 'End locks a row', '1']
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
			['drag', 'Drag', 'lb/ft']
		]),
		table('barrels', 'Barrels', book.barrels, [
			['outsideDiameter', 'Outside diameter', 'in'],
			['bore', 'Bore', 'in'],
			['weight', 'Weight', 'lb/ft'],
			['secondMoment', 'Second moment of area', 'in4'],
			['elasticModulus', 'Elastic modulus', 'ksi'],
			['yieldStress', 'Yield stress', 'ksi']
		]),
		table('brackets', 'Brackets', book.brackets, [
			['size', 'Size', 'in'],
			['pairWeight', 'Weight of a pair', 'lb'],
			['anchors', 'Anchors per bracket', '1']
		]),
		table('drives', 'Drives', withNone(book.drives), [
			['outsideDiameter', 'Outside diameter', 'in'],
			['leastBore', 'Least bore', 'in'],
			['torque', 'Torque', 'lb-ft'],
			['speed', 'Speed', 'rpm'],
			['turns', 'Turns', '1'],
			['weight', 'Weight', 'lb']
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
			['needsTestedReport', 'Needs a tested report', '1']
		]),
		table('fixings', 'Fixings', book.fixings, []),
		table('anchors', 'Anchors', anchors, [
			['diameter', 'Diameter', 'in'],
			['length', 'Length', 'in'],
			['perBox', 'In a box', '1'],
			['holesPerBit', 'Holes a bit', '1'],
			['hasReport', 'Has a tested report', '1']
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
	{ id: 'exposures', keys: ['interior', 'exterior'] },
	{ id: 'rowParts', keys: ['rod', 'slat'] }
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
	{ name: 'drive', table: 'drives', key: 'drive' }
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
	reachHeight: ['in', 'Reach without a lift'],
	counterHeight: ['in', 'Counter height to note'],
	wasteSheet: ['1', 'Waste, sheet'],
	wasteAnchors: ['1', 'Waste, anchors'],
	wasteSealant: ['1', 'Waste, sealant'],
	wasteCurtain: ['1', 'Waste, shop-made curtain']
};

export function technicalConstants(book: TechnicalBook): ConstantDefinition[] {
	return Object.entries(constantUnits).map(([id, [unit, title]]) => ({
		id,
		title,
		unit,
		value: book.constants[id as keyof TechnicalBook['constants']],
		source: { basis: book.invented ? ('invented' as const) : ('shop' as const), text: book.title }
	}));
}
