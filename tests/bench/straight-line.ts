/**
 * The floor for the rules' speed: chapters 2 to 7 for given barrel, bracket and drive, written out by hand in one loop
 * on plain numbers, no closures, no tables of rules. Inches, pounds, minutes; the benchmark shows that it gives the same
 * figures as the rule book.
 */
import type { TechnicalBook } from '../../src/lib/shopbook/schema.ts';

/** Typed inputs of many openings, a column each; keys as row numbers. */
export interface Columns {
	readonly count: number;
	readonly openingWidth: Float64Array;
	readonly openingHeight: Float64Array;
	readonly sillHeight: Float64Array;
	readonly curtain: Float64Array;
	readonly guideLeft: Float64Array;
	readonly guideRight: Float64Array;
	readonly substrateLeft: Float64Array;
	readonly substrateRight: Float64Array;
	readonly hood: Float64Array;
	readonly operation: Float64Array;
	readonly driveAt: Float64Array;
	readonly faceLeft: Float64Array;
	readonly faceRight: Float64Array;
	readonly exterior: Float64Array;
	readonly barrel: Float64Array;
	readonly bracket: Float64Array;
	readonly drive: Float64Array;
	readonly holesLeft: Float64Array;
	readonly holesRight: Float64Array;
}

/** Ids of what the loop writes, in the units of the loop. */
// prettier-ignore
export const written = [
	'wallOffsetLeft', 'wallOffsetRight', 'guideDistance', 'curtainWidth', 'heldLeft', 'heldRight', 'bracketDistance', 'clearWidth',
	'extension', 'guideLength', 'bracketSize', 'throat', 'requiredHeadroom', 'requiredSideRoomLeft', 'requiredSideRoomRight',
	'requiredFrontRoom', 'wallToBarrelCentre', 'firstTurn', 'hangingLength', 'holdLength', 'curtainRows', 'curtainLength',
	'woundLengthClosed', 'woundLength', 'coilDiameterClosed', 'coilDiameter', 'swingDiameter', 'bracketNeeded', 'curtainArea',
	'openingArea', 'runWeight', 'sheetWeight', 'barWeight', 'curtainWeight', 'rodCount', 'slatCount', 'linkCount', 'endLocks',
	'assemblyBolts', 'barrelWeight', 'barrelLoad', 'barrelDeflection', 'deflectionLimit', 'barrelStress', 'stressLimit',
	'barrelEndSlope', 'closedWeight', 'openWeight', 'closedTorque', 'openTorque', 'peakTorqueAt', 'peakTorque', 'requiredTorque',
	'driveTurns', 'guideDrag', 'anchorsBySpacingLeft', 'anchorsBySpacingRight', 'anchorPitchLeft', 'anchorPitchRight', 'anchorsLeft',
	'anchorsRight', 'bitsLeft', 'bitsRight', 'anchorsPerBracket', 'guideAnchors', 'bracketAnchors', 'anchorTotal',
	'guideAnchorMinutes', 'bracketAnchorMinutes', 'twoPartGuideLength', 'hoodLength', 'hoodPieces', 'hoodPieceLength',
	'hoodSupports', 'hoodGirth', 'hoodArea', 'hoodWeight', 'endCaps', 'hoodSupportAnchors', 'driveWeight', 'coilWeight',
	'bracketWeight', 'guideWeight', 'shippingWeight', 'crateLength', 'workHeight', 'setUpMinutes', 'unloadMinutes', 'layOutMinutes',
	'hangGuidesMinutes', 'setBracketsMinutes', 'seatCoilCrew', 'seatCoilMinutes', 'feedCurtainMinutes', 'runInMinutes',
	'hangHoodMinutes', 'handOverMinutes', 'connectPowerMinutes', 'installerHours', 'electricianHours', 'labourHours', 'liftTime',
	'shims', 'sealant', 'weatherseal', 'drillBits'
] as const;
export type Written = (typeof written)[number];
export type Output = Readonly<Record<Written, Float64Array>>;

const ceil = (x: number): number => Math.ceil(Math.round(x * 1e9) / 1e9);

const column = (rows: readonly object[], id: string): Float64Array =>
	Float64Array.from(rows, (row) => Number((row as Readonly<Record<string, unknown>>)[id] ?? 0));

export function straightLine(book: TechnicalBook): (c: Columns, o: Output) => void {
	const { curtains, guides, barrels, brackets, substrates, constants: k } = book;
	const none = {};
	const hoods = [...book.hoods, none];
	const drives = [...book.drives, none];
	const noHood = book.hoods.length;
	const tubeMotor = book.operators.findIndex((row) => row.key === 'tubeMotor');
	const pitch = column(curtains, 'pitch');
	const wrap = column(curtains, 'wrap');
	const weight = column(curtains, 'weight');
	const bar = column(curtains, 'barWeight');
	const barHeight = column(curtains, 'barHeight');
	const hold = column(curtains, 'holdTurns');
	const rod = Float64Array.from(curtains, (row) => (row.rowPart === 'rod' ? 1 : 0));
	const linkSpacing = column(curtains, 'linkSpacing');
	const locks = column(curtains, 'endLocksPerRow');
	const setback = column(guides, 'setback');
	const projection = column(guides, 'projection');
	const engagement = column(guides, 'engagement');
	const groove = column(guides, 'groove');
	const offset = column(guides, 'offset');
	const extension = column(guides, 'extension');
	const end = column(guides, 'endDistance');
	const guideWeight = column(guides, 'weight');
	const drag = column(guides, 'drag');
	const parts = column(guides, 'parts');
	const boltSpacing = column(guides, 'assemblyBoltSpacing');
	const diameter = column(barrels, 'outsideDiameter');
	const pipeWeight = column(barrels, 'weight');
	const second = column(barrels, 'secondMoment');
	const modulus = column(barrels, 'elasticModulus');
	const yieldStress = column(barrels, 'yieldStress');
	const size = column(brackets, 'size');
	const pair = column(brackets, 'pairWeight');
	const holes = column(brackets, 'anchors');
	const overhang = column(book.operators, 'overhang');
	const operatorWeight = column(book.operators, 'weight');
	const spacing = column(substrates, 'anchorSpacing');
	const minutes = column(substrates, 'anchorMinutes');
	const motorWeight = column(drives, 'weight');
	const sheet = column(hoods, 'weight');
	const longest = column(hoods, 'longestPiece');
	const free = column(hoods, 'freeSpan');
	const lap = column(hoods, 'lap');
	const girthFactor = column(hoods, 'girthFactor');
	const girthAllowance = column(hoods, 'girthAllowance');
	const ratio = Number(k.deflectionRatio);
	const stressFactor = Number(k.stressFactor);
	const friction = 1 + Number(k.guideFriction);
	const service = Number(k.serviceFactor);
	const clearance = Number(k.coilClearance);
	const headAccess = Number(k.headAccess);
	const plate = Number(k.plateThickness);
	const sideAccess = Number(k.sideAccess);
	const front = Number(k.frontClearance);
	const crate = Number(k.crateAllowance);
	const crateShare = 1 + Number(k.crateShare);
	const perSupport = Number(k.anchorsPerHoodSupport);
	const reach = Number(k.reachHeight);

	// Straight-line on purpose: every index below is in range by construction of the columns.
	return (c, o) => {
		for (let i = 0; i < c.count; i++) {
			const cu = c.curtain[i]!;
			const gl = c.guideLeft[i]!;
			const gr = c.guideRight[i]!;
			const sl = c.substrateLeft[i]!;
			const sr = c.substrateRight[i]!;
			const ho = c.hood[i]!;
			const op = c.operation[i]!;
			const ba = c.barrel[i]!;
			const br = c.bracket[i]!;
			const width = c.openingWidth[i]!;
			const height = c.openingHeight[i]!;
			const t = wrap[cu]!;
			const wallLeft = c.faceLeft[i] === 1 ? setback[gl]! : -projection[gl]!;
			const wallRight = c.faceRight[i] === 1 ? setback[gr]! : -projection[gr]!;
			const guideDistance = width + wallLeft + wallRight;
			const curtainWidth = guideDistance + engagement[gl]! + engagement[gr]!;
			const span = guideDistance + offset[gl]! + offset[gr]!;
			const above = Math.max(extension[gl]!, extension[gr]!);
			const guideLength = height + above;
			const bracket = size[br]!;
			const throat = above + bracket / 2;
			const headroom = above + bracket + headAccess;
			const first = diameter[ba]! + t;
			const hanging = height + throat - barHeight[cu]!;
			const held = Math.PI * hold[cu]! * (first + hold[cu]! * t);
			const rows = ceil((hanging + held) / pitch[cu]!);
			const length = rows * pitch[cu]!;
			const woundClosed = length - hanging;
			const wound = length - (throat - barHeight[cu]!);
			const coilClosed = Math.sqrt(first * first + (4 * t * woundClosed) / Math.PI);
			const coil = Math.sqrt(first * first + (4 * t * wound) / Math.PI);
			const swing = coil + t;
			const area = (curtainWidth * length) / 144;
			const run = (weight[cu]! * curtainWidth) / 144;
			const barWeight = (curtainWidth * bar[cu]!) / 12;
			const curtainWeight = area * weight[cu]! + (curtainWidth * bar[cu]!) / 12;
			const pipe = (pipeWeight[ba]! * span) / 12;
			const load = (curtainWeight + pipe) / span;
			const closedWeight = run * hanging + barWeight;
			const openWeight = run * (throat - barHeight[cu]!) + barWeight;
			const kk = (4 * t) / Math.PI;
			const at = Math.min(
				Math.max((kk * closedWeight - 2 * run * coilClosed * coilClosed) / (3 * run * kk), 0),
				height
			);
			const peak = ((closedWeight - run * at) * Math.sqrt(coilClosed * coilClosed + kk * at)) / 2;
			const perLeft = Math.max(2, ceil((guideLength - 2 * end[gl]!) / spacing[sl]!) + 1);
			const perRight = Math.max(2, ceil((guideLength - 2 * end[gr]!) / spacing[sr]!) + 1);
			const per = holes[br]!;
			const left = perLeft + per;
			const right = perRight + per;
			const bitsLeft = c.holesLeft[i]! > 0 ? left / c.holesLeft[i]! : 0;
			const bitsRight = c.holesRight[i]! > 0 ? right / c.holesRight[i]! : 0;
			const guideMinutes = perLeft * minutes[sl]! + perRight * minutes[sr]!;
			const bracketMinutes = per * (minutes[sl]! + minutes[sr]!);
			const twoPart = (parts[gl]! >= 2 ? guideLength : 0) + (parts[gr]! >= 2 ? guideLength : 0);
			const hoodLength = ho === noHood ? 0 : span;
			const pieces =
				ho === noHood ? 0 : Math.max(1, ceil((hoodLength - lap[ho]!) / (longest[ho]! - lap[ho]!)));
			const piece = ho === noHood ? 0 : (hoodLength + (pieces - 1) * lap[ho]!) / pieces;
			const supports = ho === noHood ? 0 : pieces - 1 + pieces * (ceil(piece / free[ho]!) - 1);
			const girth = ho === noHood ? 0 : girthFactor[ho]! * bracket + girthAllowance[ho]!;
			const hoodArea = (girth * hoodLength) / 144;
			const hoodWeight = hoodArea * sheet[ho]!;
			const motor = op === tubeMotor;
			const driveWeight = motor ? motorWeight[c.drive[i]!]! : operatorWeight[op]!;
			const coilWeight = pipe + curtainWeight + driveWeight;
			const guidesWeight = ((guideWeight[gl]! + guideWeight[gr]!) * guideLength) / 12;
			const shipping = (coilWeight + pair[br]! + hoodWeight + guidesWeight) * crateShare;
			const work = c.sillHeight[i]! + height + headroom;
			const unload = 15 + (5 * shipping) / 100;
			const layOut = 20 + width / 12;
			const hang = 20 + guideMinutes + twoPart / 12;
			const set = 20 + bracketMinutes;
			const crew = coilWeight > 400 ? 3 : 2;
			const seat = 30 + (12 * coilWeight) / 100;
			const feed = 15 + (2 * guideLength) / 12;
			const hangHood = pieces > 0 ? 15 + 20 * pieces + 15 * supports : 0;
			const power = motor ? 120 : 0;
			const installer =
				(2 * (30 + unload + layOut + hang + set + feed + 35 + hangHood + 30) + crew * seat) / 60;
			const electrician = power / 60;
			o.wallOffsetLeft[i] = wallLeft;
			o.wallOffsetRight[i] = wallRight;
			o.guideDistance[i] = guideDistance;
			o.curtainWidth[i] = curtainWidth;
			o.heldLeft[i] = engagement[gl]! + engagement[gr]! - groove[gr]!;
			o.heldRight[i] = engagement[gr]! + engagement[gl]! - groove[gl]!;
			o.bracketDistance[i] = span;
			o.clearWidth[i] = Math.min(width, guideDistance);
			o.extension[i] = above;
			o.guideLength[i] = guideLength;
			o.bracketSize[i] = bracket;
			o.throat[i] = throat;
			o.requiredHeadroom[i] = headroom;
			o.requiredSideRoomLeft[i] = offset[gl]! + plate + sideAccess + (c.driveAt[i] === 0 ? overhang[op]! : 0);
			o.requiredSideRoomRight[i] =
				offset[gr]! + plate + sideAccess + (c.driveAt[i] === 1 ? overhang[op]! : 0);
			o.requiredFrontRoom[i] = bracket + front;
			o.wallToBarrelCentre[i] = bracket / 2;
			o.firstTurn[i] = first;
			o.hangingLength[i] = hanging;
			o.holdLength[i] = held;
			o.curtainRows[i] = rows;
			o.curtainLength[i] = length;
			o.woundLengthClosed[i] = woundClosed;
			o.woundLength[i] = wound;
			o.coilDiameterClosed[i] = coilClosed;
			o.coilDiameter[i] = coil;
			o.swingDiameter[i] = swing;
			o.bracketNeeded[i] = swing + 2 * clearance;
			o.curtainArea[i] = area;
			o.openingArea[i] = (width * height) / 144;
			o.runWeight[i] = run;
			o.sheetWeight[i] = area * weight[cu]!;
			o.barWeight[i] = barWeight;
			o.curtainWeight[i] = curtainWeight;
			o.rodCount[i] = rod[cu] === 1 ? rows : 0;
			o.slatCount[i] = rod[cu] === 1 ? 0 : rows;
			o.linkCount[i] = linkSpacing[cu]! > 0 ? rows * (ceil(curtainWidth / linkSpacing[cu]!) + 1) : 0;
			o.endLocks[i] = ceil(rows * locks[cu]!);
			o.assemblyBolts[i] =
				(boltSpacing[gl]! > 0 ? ceil(guideLength / boltSpacing[gl]!) + 1 : 0) +
				(boltSpacing[gr]! > 0 ? ceil(guideLength / boltSpacing[gr]!) + 1 : 0);
			o.barrelWeight[i] = pipe;
			o.barrelLoad[i] = load;
			o.barrelDeflection[i] =
				(5 * load * span * span * span * span) / (384 * modulus[ba]! * 1000 * second[ba]!);
			o.deflectionLimit[i] = span / ratio;
			o.barrelStress[i] = (((load * span * span) / 8) * (diameter[ba]! / 2)) / second[ba]! / 1000;
			o.stressLimit[i] = yieldStress[ba]! / stressFactor;
			o.barrelEndSlope[i] = (load * span * span * span) / (24 * modulus[ba]! * 1000 * second[ba]!);
			o.closedWeight[i] = closedWeight;
			o.openWeight[i] = openWeight;
			o.closedTorque[i] = (closedWeight * coilClosed) / 2;
			o.openTorque[i] = (openWeight * coil) / 2;
			o.peakTorqueAt[i] = at;
			o.peakTorque[i] = peak;
			o.requiredTorque[i] = peak * friction * service;
			o.driveTurns[i] = (coil - coilClosed) / (2 * t);
			o.guideDrag[i] = ((drag[gl]! + drag[gr]!) * guideLength) / 12;
			o.anchorsBySpacingLeft[i] = perLeft;
			o.anchorsBySpacingRight[i] = perRight;
			o.anchorPitchLeft[i] = (guideLength - 2 * end[gl]!) / (perLeft - 1);
			o.anchorPitchRight[i] = (guideLength - 2 * end[gr]!) / (perRight - 1);
			o.anchorsLeft[i] = left;
			o.anchorsRight[i] = right;
			o.bitsLeft[i] = bitsLeft;
			o.bitsRight[i] = bitsRight;
			o.anchorsPerBracket[i] = per;
			o.guideAnchors[i] = perLeft + perRight;
			o.bracketAnchors[i] = 2 * per;
			o.anchorTotal[i] = perLeft + perRight + 2 * per;
			o.guideAnchorMinutes[i] = guideMinutes;
			o.bracketAnchorMinutes[i] = bracketMinutes;
			o.twoPartGuideLength[i] = twoPart;
			o.hoodLength[i] = hoodLength;
			o.hoodPieces[i] = pieces;
			o.hoodPieceLength[i] = piece;
			o.hoodSupports[i] = supports;
			o.hoodGirth[i] = girth;
			o.hoodArea[i] = hoodArea;
			o.hoodWeight[i] = hoodWeight;
			o.endCaps[i] = ho === noHood ? 0 : 2;
			o.hoodSupportAnchors[i] = supports * perSupport;
			o.driveWeight[i] = driveWeight;
			o.coilWeight[i] = coilWeight;
			o.bracketWeight[i] = pair[br]!;
			o.guideWeight[i] = guidesWeight;
			o.shippingWeight[i] = shipping;
			o.crateLength[i] = span + crate;
			o.workHeight[i] = work;
			o.setUpMinutes[i] = 30;
			o.unloadMinutes[i] = unload;
			o.layOutMinutes[i] = layOut;
			o.hangGuidesMinutes[i] = hang;
			o.setBracketsMinutes[i] = set;
			o.seatCoilCrew[i] = crew;
			o.seatCoilMinutes[i] = seat;
			o.feedCurtainMinutes[i] = feed;
			o.runInMinutes[i] = 35;
			o.hangHoodMinutes[i] = hangHood;
			o.handOverMinutes[i] = 30;
			o.connectPowerMinutes[i] = power;
			o.installerHours[i] = installer;
			o.electricianHours[i] = electrician;
			o.labourHours[i] = installer + electrician;
			o.liftTime[i] = work > reach ? (hang + set + seat + feed + hangHood) / 60 : 0;
			o.shims[i] = 2 * (perLeft + perRight);
			o.sealant[i] = (4 * guideLength) / (24 * 12);
			o.weatherseal[i] = c.exterior[i] === 1 ? (2 * guideLength + curtainWidth) / 12 : 0;
			o.drillBits[i] = bitsLeft + bitsRight;
		}
	};
}
