/**
 * Wind on an opening in an exterior wall, as an aid: components and cladding of buildings up to 60 ft high, ASCE 7-16 and
 * 7-22, chapters 26 and 30. The building's engineer gives the design pressure; nothing here replaces that.
 *
 * Imperial figures are in mph, ft, ft² and psf, metric ones in m/s, m, m² and Pa, each with the constants that the
 * standard prints for its system. Functions throw a RangeError for a figure out of range, with a sentence that says
 * what would be right; {@link windFaults} gives the same sentences without throwing.
 */
import { ceilOf } from '../rulebook/rounding.ts';
import type { Source } from '../rulebook/definition.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import type { Measures } from './inputs.ts';

export type WindEdition = TechnicalBook['standards']['wind'];

export const exposureCategories = ['B', 'C', 'D'] as const;
export type ExposureCategory = (typeof exposureCategories)[number];

export const enclosures = ['enclosed', 'partiallyEnclosed', 'partiallyOpen', 'open'] as const;
export type Enclosure = (typeof enclosures)[number];

/** Of the wall: 4 away from its corners, 5 within the distance a from a corner. */
export const wallZones = [4, 5] as const;
export type WallZone = (typeof wallZones)[number];

export type WindDirection = 'inward' | 'outward';

/** One line of the working. */
export interface WindStep {
	readonly title: string;
	readonly formula: string;
	/** The same with the numbers. */
	readonly substituted: string;
	/** The result with its unit. */
	readonly text: string;
	readonly source: Source;
}

/** A figure with its working. */
export interface Worked {
	readonly value: number;
	readonly steps: readonly WindStep[];
}

interface System {
	readonly speed: string;
	readonly length: string;
	readonly area: string;
	readonly pressure: string;
	readonly pressureDecimals: number;
	/** Lengths of this system in a foot. */
	readonly foot: number;
	/** Half the density of air, of Eq. 26.10-1. */
	readonly velocity: number;
	/** Of Ke, for one unit of length. */
	readonly decay: number;
	/** 30.2.2. */
	readonly least: number;
}

export const windUnits: Readonly<Record<Measures, System>> = {
	imperial: {
		speed: 'mph',
		length: 'ft',
		area: 'ft²',
		pressure: 'psf',
		pressureDecimals: 2,
		foot: 1,
		velocity: 0.00256,
		decay: 0.0000362,
		least: 16
	},
	metric: {
		speed: 'm/s',
		length: 'm',
		area: 'm²',
		pressure: 'Pa',
		pressureDecimals: 0,
		foot: 0.3048,
		velocity: 0.613,
		decay: 0.000119,
		least: 770
	}
};

/** Table 26.11-1: α and the gradient height zg in ft. 7-22 changed both, and the factor before them. */
const terrain: Readonly<
	Record<
		WindEdition,
		{
			readonly factor: number;
			readonly categories: Readonly<
				Record<ExposureCategory, { readonly alpha: number; readonly gradient: number }>
			>;
		}
	>
> = {
	'ASCE 7-16': {
		factor: 2.01,
		categories: {
			B: { alpha: 7, gradient: 1200 },
			C: { alpha: 9.5, gradient: 900 },
			D: { alpha: 11.5, gradient: 700 }
		}
	},
	'ASCE 7-22': {
		factor: 2.41,
		categories: {
			B: { alpha: 7.5, gradient: 3280 },
			C: { alpha: 9.8, gradient: 2460 },
			D: { alpha: 11.5, gradient: 1935 }
		}
	}
};

/** Lowest height that Table 26.10-1 tells apart, ft. */
const lowest = 15;
/** Kd, wind directionality of components and cladding (Table 26.6-1). */
const directionality = 0.85;
/** 0.6 W of the combinations at allowable level (2.4.1). */
const allowableShare = 0.6;

/** Figure 30.3-1: GCp at 10 and at 500 ft². */
const wallFigure: Readonly<
	Record<WindDirection, Readonly<Record<WallZone, readonly [small: number, large: number]>>>
> = {
	inward: { 4: [1, 0.7], 5: [1, 0.7] },
	outward: { 4: [-1.1, -0.8], 5: [-1.4, -0.8] }
};

const internal: Readonly<Record<Enclosure, number>> = {
	enclosed: 0.18,
	partiallyEnclosed: 0.55,
	partiallyOpen: 0.18,
	open: 0
};

export const enclosureWords: Readonly<Record<Enclosure, string>> = {
	enclosed: 'enclosed',
	partiallyEnclosed: 'partially enclosed',
	partiallyOpen: 'partially open',
	open: 'open'
};

const published = (text: string): Source => ({ basis: 'published', text });
const fromMemory = (text: string): Source => ({ basis: 'fromMemory', text });

/** Coefficients to four decimals, zeros at the end left out; a real minus sign. */
const said = (value: number, decimals = 4): string =>
	String(Number(value.toFixed(decimals))).replace('-', '−');

const pressed = (value: number, { pressure, pressureDecimals }: System): string =>
	`${value.toFixed(pressureDecimals).replace('-', '−')} ${pressure}`;

/** What a person enters as a figure. */
export interface WindFigures {
	/** V, basic wind speed: the 3-second gust for the building's risk category (26.5.1). */
	readonly speed: number;
	/** h, mean roof height. */
	readonly roofHeight: number;
	/** Top of the opening above the ground, at most h. */
	readonly openingHeight: number;
	/** Kzt, topographic factor (26.8): 1 on flat ground. */
	readonly topography: number;
	/** Ground above sea level; called z_e in 7-22. */
	readonly groundElevation: number;
	/** A, effective wind area. */
	readonly area: number;
}
export type WindField = keyof WindFigures;

/** What is taken, and what is said where it is not. `above` is left out of the range itself. */
interface Range {
	readonly title: string;
	readonly unit: 'speed' | 'length' | 'area' | null;
	readonly above?: true;
	readonly limits: Readonly<Record<Measures, readonly [least: number, most: number]>>;
	readonly right: string;
	/** Where the range ends because the method does: who to ask beyond it. */
	readonly beyond?: string;
}

const ranges: Readonly<Record<WindField, Range>> = {
	speed: {
		title: 'Basic wind speed',
		unit: 'speed',
		limits: { imperial: [60, 250], metric: [27, 112] },
		right: 'write the 3-second gust from the map for the building’s risk category'
	},
	roofHeight: {
		title: 'Mean roof height',
		unit: 'length',
		above: true,
		limits: { imperial: [0, 60], metric: [0, 18.3] },
		right: 'write the height of the building',
		beyond: 'a taller building has coefficients of its own, ask the engineer'
	},
	openingHeight: {
		title: 'Top of the opening',
		unit: 'length',
		above: true,
		limits: { imperial: [0, 60], metric: [0, 18.3] },
		right: 'write its height above the ground'
	},
	topography: {
		title: 'Topographic factor',
		unit: null,
		limits: { imperial: [1, 3], metric: [1, 3] },
		right: 'write 1 on flat ground, more on a hill, ridge or escarpment'
	},
	groundElevation: {
		title: 'Ground elevation',
		unit: 'length',
		limits: { imperial: [-1400, 20_000], metric: [-430, 6100] },
		right: 'write the height above sea level; above it, 0 is on the safe side'
	},
	area: {
		title: 'Effective wind area',
		unit: 'area',
		above: true,
		limits: { imperial: [0, 10_000], metric: [0, 930] },
		right: 'write span times effective width'
	}
};

/** Why a figure is not taken, in a sentence that says what would be right; null where it is. */
function faultOf(field: WindField, value: number, measures: Measures): string | null {
	const { title, unit, above = false, limits, right, beyond } = ranges[field];
	const [least, most] = limits[measures];
	if (value <= most && (above ? value > least : value >= least)) return null;
	if (!Number.isFinite(value)) return `${title} is not a number; ${right}.`;
	const text = (amount: number): string =>
		unit === null ? said(amount) : `${said(amount)} ${windUnits[measures][unit]}`;
	if (beyond !== undefined && value > most)
		return `${title} is ${text(value)}; this ends at ${text(most)}: ${beyond}.`;
	const range = `${above ? `more than ${said(least)} and at most` : `${said(least)} to`} ${text(most)}`;
	return `${title} is ${text(value)}; ${right}, ${range}.`;
}

/** Why figures are not taken, by field; those that are not there yet are passed over. */
export function windFaults(
	figures: Partial<WindFigures>,
	measures: Measures
): Readonly<Partial<Record<WindField, string>>> {
	const faults: Partial<Record<WindField, string>> = {};
	for (const field of Object.keys(ranges) as WindField[]) {
		const value = figures[field];
		const fault = value === undefined ? null : faultOf(field, value, measures);
		if (fault !== null) faults[field] = fault;
	}
	const { openingHeight, roofHeight } = figures;
	if (
		openingHeight !== undefined &&
		roofHeight !== undefined &&
		openingHeight > roofHeight &&
		!faults.openingHeight
	) {
		const { length } = windUnits[measures];
		faults.openingHeight = `Top of the opening is ${said(openingHeight)} ${length}, above the mean roof height of ${said(roofHeight)} ${length}; one of the two must be wrong.`;
	}
	return faults;
}

function refuse(fault: string | null | undefined): void {
	if (fault !== null && fault !== undefined) throw new RangeError(fault);
}

/**
 * Kz, velocity pressure exposure coefficient (26.10.1, Table 26.10-1, note 1): 2.01·(z/zg)^(2/α) in 7-16,
 * 2.41·(z/zg)^(2/α) in 7-22, with z not less than 15 ft. The 0.70 of exposure B below 30 ft is for chapter 28 only.
 *
 * @param height z above the ground, ft or m, more than 0 and at most the gradient height zg (700 ft and more)
 */
export function exposureCoefficient(
	edition: WindEdition,
	exposure: ExposureCategory,
	height: number,
	measures: Measures
): Worked {
	const { factor, categories } = terrain[edition];
	const { alpha, gradient } = categories[exposure];
	const { foot, length } = windUnits[measures];
	const top = gradient * foot;
	if (!(height > 0 && height <= top))
		throw new RangeError(
			`Height is ${said(height)} ${length}; exposure ${exposure} of ${edition} goes to ${said(top, 1)} ${length} above the ground.`
		);
	const z = Math.max(height, lowest * foot);
	const value = factor * (z / top) ** (2 / alpha);
	const least = `${said(lowest * foot, 2)} ${length}`;
	return {
		value,
		steps: [
			{
				title: 'Exposure coefficient',
				formula: `Kz = ${factor} · (z / zg)^(2 / α), z at least ${least}`,
				substituted: `${factor} · (${said(z)} / ${said(top, 2)})^(2 / ${alpha})`,
				text: said(value),
				source: published(`${edition}, Tables 26.10-1 and 26.11-1, exposure ${exposure}.`)
			}
		]
	};
}

/**
 * Ke, ground elevation factor (26.9, Table 26.9-1, note 2): e^(−0.0000362·zg) with zg in ft, e^(−0.000119·zg) in m.
 *
 * @param groundElevation ground above sea level, −1400 to 20 000 ft or −430 to 6100 m; at 0 the factor is 1, which is
 * permitted at every elevation
 */
export function elevationFactor(edition: WindEdition, groundElevation: number, measures: Measures): Worked {
	refuse(faultOf('groundElevation', groundElevation, measures));
	const { decay } = windUnits[measures];
	const value = Math.exp(-decay * groundElevation);
	return {
		value,
		steps: [
			{
				title: 'Ground elevation factor',
				formula: `Ke = e^(−${decay.toFixed(decay < 0.0001 ? 7 : 6)} · zg)`,
				substituted: `e^(−${decay.toFixed(decay < 0.0001 ? 7 : 6)} · ${said(groundElevation)})`,
				text: said(value),
				source: published(`${edition}, Table 26.9-1.`)
			}
		]
	};
}

/**
 * q, velocity pressure at strength level (26.10.2, Eq. 26.10-1): 0.00256·Kz·Kzt·Kd·Ke·V² in psf, 0.613·… in Pa, with
 * Kd = 0.85 of components and cladding. In 7-22 Kd left this equation for that of the pressure
 * ({@link claddingPressure}); q without it is the larger by 1/0.85, the pressure is the same.
 *
 * @param exposure Kz, more than 0
 * @param topography Kzt, 1 to 3
 * @param elevation Ke, more than 0
 * @param speed V, 60 to 250 mph or 27 to 112 m/s
 */
export function velocityPressure(
	edition: WindEdition,
	exposure: number,
	topography: number,
	elevation: number,
	speed: number,
	measures: Measures
): Worked {
	refuse(faultOf('topography', topography, measures) ?? faultOf('speed', speed, measures));
	aboveZero('Exposure coefficient', exposure);
	aboveZero('Ground elevation factor', elevation);
	const system = windUnits[measures];
	const { velocity } = system;
	const here = edition === 'ASCE 7-16';
	const value = velocity * exposure * topography * (here ? directionality : 1) * elevation * speed ** 2;
	return {
		value,
		steps: [
			{
				title: 'Velocity pressure',
				formula: `q = ${velocity} · Kz · Kzt · ${here ? `Kd · Ke · V², Kd = ${directionality}` : 'Ke · V²'}`,
				substituted: `${velocity} · ${said(exposure)} · ${said(topography)} · ${here ? `${directionality} · ` : ''}${said(elevation)} · ${said(speed)}²`,
				text: pressed(value, system),
				source: here
					? published('ASCE 7-16, Eq. 26.10-1 and Table 26.6-1.')
					: fromMemory('ASCE 7-22, Eq. 26.10-1: Kd stands in Eq. 30.3-1 since this edition.')
			}
		]
	};
}

function aboveZero(title: string, value: number): void {
	if (!(value > 0 && value < Infinity)) throw new RangeError(`${title} is ${value}; it must be more than 0.`);
}

/**
 * GCp, external pressure coefficient of a wall with the gust in it, h ≤ 60 ft (Figure 30.3-1): a straight line over the
 * logarithm of the effective wind area from 10 to 500 ft², level below and above. The tenth that the figure takes off
 * under roofs of 10° or flatter is not taken.
 *
 * @param area A, ft² or m², more than 0
 */
export function wallCoefficient(
	edition: WindEdition,
	zone: WallZone,
	direction: WindDirection,
	area: number,
	measures: Measures
): Worked {
	refuse(faultOf('area', area, measures));
	const { foot, area: unit } = windUnits[measures];
	const squareFeet = area / foot ** 2;
	const counted = Math.min(Math.max(squareFeet, 10), 500);
	const share = Math.log10(counted / 10) / Math.log10(50);
	const [small, large] = wallFigure[direction][zone];
	const value = small + (large - small) * share;
	const change = `${large < small ? '−' : '+'} ${said(Math.abs(large - small))}`;
	return {
		value,
		steps: [
			{
				title: `Coefficient of the wall, ${direction}`,
				formula: `GCp = ${said(small)} ${change} · log(A / 10) / log(500 / 10), A from 10 to 500 ft²`,
				substituted: `${said(small)} ${change} · log(${said(counted, 2)} / 10) / log(50)${measures === 'metric' || counted !== squareFeet ? `, A = ${said(area, 2)} ${unit}` : ''}`,
				text: said(value),
				source: published(`${edition}, Figure 30.3-1, zone ${zone}.`)
			}
		]
	};
}

/** GCpi, internal pressure coefficient, taken both ways (26.13, Table 26.13-1). */
export function internalCoefficient(edition: WindEdition, enclosure: Enclosure): Worked {
	const value = internal[enclosure];
	const clause = `${edition}, Table 26.13-1, ${enclosureWords[enclosure]} buildings.`;
	return {
		value,
		steps: [
			{
				title: 'Coefficient inside',
				formula: 'GCpi by how far the building is enclosed',
				substituted: enclosureWords[enclosure],
				text: value === 0 ? '0' : `±${value}`,
				source: enclosure === 'enclosed' ? published(clause) : fromMemory(clause)
			}
		]
	};
}

/**
 * p, net pressure at strength level on components and cladding of a wall, h ≤ 60 ft (30.3.2, Eq. 30.3-1):
 * q·(GCp + GCpi) inward, q·(GCp − GCpi) outward; in 7-22 times Kd = 0.85. Not less than 16 psf (770 Pa) either way
 * (30.2.2).
 *
 * @param velocity qh, psf or Pa, more than 0
 * @param external GCp: more than 0 inward, less than 0 outward
 * @param inside GCpi, 0 or more
 * @returns psf or Pa, more than 0 inward, less than 0 outward
 */
export function claddingPressure(
	edition: WindEdition,
	direction: WindDirection,
	velocity: number,
	external: number,
	inside: number,
	measures: Measures
): Worked {
	const sign = direction === 'inward' ? 1 : -1;
	aboveZero('Velocity pressure', velocity);
	if (!(sign * external > 0))
		throw new RangeError(
			`GCp ${direction} is ${external}; it must be ${direction === 'inward' ? 'more' : 'less'} than 0.`
		);
	if (!(inside >= 0 && inside <= 1)) throw new RangeError(`GCpi is ${inside}; write its size, 0 to 1.`);
	const system = windUnits[measures];
	const here = edition === 'ASCE 7-22';
	const reckoned = velocity * (here ? directionality : 1) * (external + sign * inside);
	const value = sign * Math.max(Math.abs(reckoned), system.least);
	const word = direction === 'inward' ? 'Inward' : 'Outward';
	const operator = direction === 'inward' ? '+' : '−';
	const decimals = system.pressureDecimals;
	return {
		value,
		steps: [
			{
				title: `${word} pressure`,
				formula: `p = qh · ${here ? 'Kd · ' : ''}(GCp ${operator} GCpi)${here ? `, Kd = ${directionality}` : ''}`,
				substituted: `${said(velocity, decimals)} · ${here ? `${directionality} · ` : ''}(${said(external)} ${operator} ${inside})`,
				text: pressed(reckoned, system),
				source: here
					? fromMemory('ASCE 7-22, Eq. 30.3-1 with Kd of Table 26.6-1.')
					: published('ASCE 7-16, Eq. 30.3-1.')
			},
			{
				title: `${word}, not less than the minimum`,
				formula: `the size of p, at least ${system.least} ${system.pressure}`,
				substituted: `max(${said(Math.abs(reckoned), decimals)}, ${system.least})`,
				text: pressed(value, system),
				source: fromMemory(`${edition}, 30.2.2.`)
			}
		]
	};
}

/**
 * The larger of both pressures at allowable level, 0.6·p (2.4.1): what the takeoff takes as a design pressure.
 *
 * @param inward p inward at strength level, psf or Pa, 0 or more
 * @param outward p outward at strength level, psf or Pa, 0 or less
 */
export function allowablePressure(
	edition: WindEdition,
	inward: number,
	outward: number,
	measures: Measures
): Worked {
	if (!(inward >= 0 && outward <= 0))
		throw new RangeError(
			`Inward is ${inward} and outward ${outward}; write inward as plus, outward as minus.`
		);
	const system = windUnits[measures];
	const decimals = system.pressureDecimals;
	const value = allowableShare * Math.max(inward, -outward);
	return {
		value,
		steps: [
			{
				title: 'The larger, at allowable level',
				formula: `${allowableShare} · max(inward, outward)`,
				substituted: `${allowableShare} · max(${said(inward, decimals)}, ${said(-outward, decimals)})`,
				text: pressed(value, system),
				source: fromMemory(`${edition}, 2.4.1: 0.6 W.`)
			}
		]
	};
}

/**
 * Effective wind area of a curtain (26.2, from memory): span times effective width, which is the width that leans on one
 * row, and need not be less than a third of the span. Never more than the curtain itself, which is on the safe side.
 *
 * @param span from guide to guide, ft or m, more than 0
 * @param tributaryWidth width that leans on one row, ft or m, more than 0
 * @param height of the curtain, ft or m, more than 0
 * @returns ft² or m²
 */
export function effectiveWindArea(
	span: number,
	tributaryWidth: number,
	height: number,
	measures: Measures
): Worked {
	aboveZero('Span', span);
	aboveZero('Tributary width', tributaryWidth);
	aboveZero('Height of the curtain', height);
	const { area } = windUnits[measures];
	const value = span * Math.min(Math.max(tributaryWidth, span / 3), height);
	return {
		value,
		steps: [
			{
				title: 'Effective wind area of the curtain',
				formula: 'A = L · min(max(b, L / 3), H)',
				substituted: `${said(span, 2)} · min(max(${said(tributaryWidth, 2)}, ${said(span, 2)} / 3), ${said(height, 2)})`,
				text: `${said(value, 1)} ${area}`,
				source: fromMemory(
					'ASCE 7-16 and 7-22, 26.2, effective wind area; no more than the curtain is our own.'
				)
			}
		]
	};
}

/** An opening in its wall, and where the building stands. */
export interface WindCase extends WindFigures {
	readonly edition: WindEdition;
	readonly measures: Measures;
	readonly exposure: ExposureCategory;
	readonly enclosure: Enclosure;
	readonly zone: WallZone;
}

export interface WindPressure {
	/** qh at the mean roof height, psf or Pa at strength level; in 7-22 without Kd. */
	readonly velocity: number;
	/** The same at the top of the opening, to compare: on walls up to 60 ft qh counts for every height. */
	readonly velocityAtOpening: number;
	/** Strength level, more than 0. */
	readonly inward: number;
	/** Strength level, less than 0. */
	readonly outward: number;
	/** The larger, at allowable level. */
	readonly allowable: number;
	readonly steps: readonly WindStep[];
}

/**
 * Pressure on an opening in a wall by all of the above, with h for the height (30.3.2).
 *
 * @throws RangeError for a figure out of range, see {@link windFaults}
 */
export function windPressure(wind: WindCase): WindPressure {
	const { edition, measures, exposure, enclosure, zone, topography, speed, area } = wind;
	refuse(Object.values(windFaults(wind, measures))[0]);
	const elevation = elevationFactor(edition, wind.groundElevation, measures);
	const roof = exposureCoefficient(edition, exposure, wind.roofHeight, measures);
	const opening = exposureCoefficient(edition, exposure, wind.openingHeight, measures);
	const velocityAt = (coefficient: Worked): Worked =>
		velocityPressure(edition, coefficient.value, topography, elevation.value, speed, measures);
	const velocity = velocityAt(roof);
	const atOpening = velocityAt(opening);
	const inside = internalCoefficient(edition, enclosure);
	const coefficients = {
		inward: wallCoefficient(edition, zone, 'inward', area, measures),
		outward: wallCoefficient(edition, zone, 'outward', area, measures)
	};
	const net = (direction: WindDirection): Worked =>
		claddingPressure(
			edition,
			direction,
			velocity.value,
			coefficients[direction].value,
			inside.value,
			measures
		);
	const inward = net('inward');
	const outward = net('outward');
	const allowable = allowablePressure(edition, inward.value, outward.value, measures);
	return {
		velocity: velocity.value,
		velocityAtOpening: atOpening.value,
		inward: inward.value,
		outward: outward.value,
		allowable: allowable.value,
		steps: [
			...elevation.steps,
			...at('mean roof height', [...roof.steps, ...velocity.steps]),
			...coefficients.inward.steps,
			...coefficients.outward.steps,
			...inside.steps,
			...inward.steps,
			...outward.steps,
			...allowable.steps,
			...at('top of the opening, to compare', [...opening.steps, ...atOpening.steps])
		]
	};
}

const at = (place: string, steps: readonly WindStep[]): WindStep[] =>
	steps.map((step) => ({ ...step, title: `${step.title} at ${place}` }));

/** A pressure for people: psf to a tenth, Pa as kPa to a hundredth. */
export const windPressureText = (pressure: number, measures: Measures): string =>
	(measures === 'imperial' ? `${pressure.toFixed(1)} psf` : `${(pressure / 1000).toFixed(2)} kPa`).replace(
		'-',
		'−'
	);

/** The figure for the cell, taken up to the next tenth of a psf or hundredth of a kPa. */
export const designPressureText = (allowable: number, measures: Measures): string =>
	windPressureText(
		measures === 'imperial' ? ceilOf(allowable * 10) / 10 : ceilOf(allowable / 10) * 10,
		measures
	);

/** One sentence for the note of the row: the figure, what it was reckoned from, and who confirmed it. */
export function confirmedSentence(wind: WindCase, designPressure: string, confirmedBy: string): string {
	const { speed, length, area } = windUnits[wind.measures];
	const inputs = [
		wind.edition,
		`${said(wind.speed)} ${speed}`,
		`exposure ${wind.exposure}`,
		`mean roof height ${said(wind.roofHeight)} ${length}`,
		`top of the opening ${said(wind.openingHeight)} ${length}`,
		`Kzt ${said(wind.topography)}`,
		`ground at ${said(wind.groundElevation)} ${length}`,
		enclosureWords[wind.enclosure],
		`zone ${wind.zone}`,
		`effective wind area ${said(wind.area)} ${area}`
	];
	return `Design pressure ${designPressure} at allowable level (${inputs.join(', ')}), confirmed by ${confirmedBy.replace(/\.+$/u, '')}.`;
}
