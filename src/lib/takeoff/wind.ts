/**
 * Wind on an opening in a wall, as an aid: velocity pressure and component pressures by ASCE 7 for buildings up to 60 ft
 * high (chapters 26 and 30, part 1). The building's engineer gives the design pressure; nothing here replaces that.
 */
import type { Source } from '../rulebook/definition.ts';

export const windEditions = ['ASCE 7-16', 'ASCE 7-22'] as const;
export type WindEdition = (typeof windEditions)[number];
export const exposureCategories = ['B', 'C', 'D'] as const;
export type ExposureCategory = (typeof exposureCategories)[number];
export const enclosures = ['enclosed', 'partiallyEnclosed', 'open'] as const;
export type Enclosure = (typeof enclosures)[number];
/** Of the wall: 4 away from the corners, 5 at a corner. */
export const wallZones = [4, 5] as const;
export type WallZone = (typeof wallZones)[number];

export interface WindCase {
	readonly edition: WindEdition;
	/** V, basic wind speed, mph, more than 0 and at most 300. */
	readonly speed: number;
	readonly exposure: ExposureCategory;
	/** h, mean roof height, ft, more than 0 and at most 60. */
	readonly roofHeight: number;
	/** Kzt, topographic factor, 1 on flat ground, 1 to 3. */
	readonly topography: number;
	/** zg, ground above sea level, ft, −1000 to 15 000. */
	readonly groundElevation: number;
	readonly enclosure: Enclosure;
	readonly zone: WallZone;
	/** A, effective wind area, ft², more than 0. */
	readonly area: number;
}

/** One line of the working. */
export interface WindStep {
	readonly what: string;
	readonly formula: string;
	readonly numbers: string;
	readonly result: string;
	readonly source: Source;
}

export interface WindPressure {
	/** psf at strength level. */
	readonly velocityPressure: number;
	/** psf at strength level, towards the wall, more than 0. */
	readonly inward: number;
	/** psf at strength level, away from the wall, less than 0. */
	readonly outward: number;
	/** The larger of both, at allowable level, psf: what a design pressure is here. */
	readonly allowable: number;
	readonly steps: readonly WindStep[];
}

const published = (text: string): Source => ({ basis: 'published', text });
const fromMemory = (text: string): Source => ({ basis: 'fromMemory', text: `${text}; from memory.` });

/** Table 26.11-1: α and the gradient height zg in ft. 7-22 changed both, and the factor before them. */
const terrain: Readonly<
	Record<WindEdition, Readonly<Record<ExposureCategory, readonly [alpha: number, gradient: number]>>>
> = {
	'ASCE 7-16': { B: [7, 1200], C: [9.5, 900], D: [11.5, 700] },
	'ASCE 7-22': { B: [7.5, 3280], C: [9.8, 2460], D: [11.5, 1935] }
};
const terrainFactor: Readonly<Record<WindEdition, number>> = { 'ASCE 7-16': 2.01, 'ASCE 7-22': 2.41 };

/** Lowest height the table of K_z has, ft. */
const lowest = 15;
/** Kd of components and cladding, Table 26.6-1. */
export const directionality = 0.85;
/** Least net pressure of components and cladding at strength level, psf, 30.2.2. */
const leastPressure = 16;
/** From strength to allowable level, 2.4.1. */
const allowableShare = 0.6;

/**
 * Velocity pressure exposure coefficient Kz = c·(z/zg)^(2/α), z at least 15 ft (Table 26.10-1, note 1: c = 2.01 in 7-16,
 * 2.41 in 7-22).
 *
 * @param height z in ft, more than 0, at most the gradient height
 */
export function exposureCoefficient(
	edition: WindEdition,
	exposure: ExposureCategory,
	height: number
): number {
	const [alpha, gradient] = terrain[edition][exposure];
	const z = Math.min(Math.max(height, lowest), gradient);
	return terrainFactor[edition] * (z / gradient) ** (2 / alpha);
}

/** Ground elevation factor Ke = e^(−0.0000362·zg), zg in ft above sea level (Table 26.9-1, note 2). */
export const elevationFactor = (groundElevation: number): number => Math.exp(-0.0000362 * groundElevation);

/**
 * Velocity pressure q = 0.00256·Kz·Kzt·Kd·Ke·V² in psf, V in mph (7-16, Eq. 26.10-1). In 7-22 Kd stands with the
 * pressure coefficients instead (Eq. 30.3-1); the product is the same.
 */
export const velocityPressure = (
	coefficient: number,
	topography: number,
	directional: number,
	elevation: number,
	speed: number
): number => 0.00256 * coefficient * topography * directional * elevation * speed ** 2;

/**
 * External pressure coefficient GCp of a wall, h ≤ 60 ft (Figure 30.3-1): straight over the logarithm of the effective
 * wind area between 10 and 500 ft², level beyond. Roofs of 10° or less may take nine tenths of it; that is not taken.
 *
 * @param area A in ft², more than 0
 */
export function wallCoefficient(zone: WallZone, sense: 'inward' | 'outward', area: number): number {
	const share = Math.min(Math.max(Math.log10(area / 10) / Math.log10(50), 0), 1);
	const [from, to] = sense === 'inward' ? [1, 0.7] : zone === 4 ? [-1.1, -0.8] : [-1.4, -0.8];
	return from + (to - from) * share;
}

/** Internal pressure coefficient GCpi, both ways (Table 26.13-1). */
export const internalCoefficient: Readonly<Record<Enclosure, number>> = {
	enclosed: 0.18,
	partiallyEnclosed: 0.55,
	open: 0
};

/**
 * Effective wind area of a curtain that spans from guide to guide: span times the larger of its tributary width and a
 * third of the span; the tributary width need not be taken for less (26.2, from memory). ft and ft².
 */
export const effectiveArea = (width: number, height: number): number =>
	width * Math.max(Math.min(height, width / 3), 1);

const ranges: readonly (readonly [
	key: 'speed' | 'roofHeight' | 'topography' | 'groundElevation' | 'area',
	what: string,
	least: number,
	most: number,
	unit: string
])[] = [
	['speed', 'Basic wind speed', 1, 300, 'mph'],
	['roofHeight', 'Mean roof height', 1, 60, 'ft'],
	['topography', 'Topographic factor', 1, 3, ''],
	['groundElevation', 'Ground elevation', -1000, 15_000, 'ft'],
	['area', 'Effective wind area', 0.1, 100_000, 'ft²']
];

const said = (value: number): string => String(Number(value.toFixed(4)));

/** Component pressures on a wall opening; refused where a figure is out of the range of the method. */
export function windPressure(
	wind: WindCase
): { ok: true; pressure: WindPressure } | { ok: false; field: (typeof ranges)[number][0]; reason: string } {
	for (const [field, what, least, most, unit] of ranges) {
		const value = wind[field];
		if (!(value >= least && value <= most))
			return {
				ok: false,
				field,
				reason:
					field === 'roofHeight' && value > most
						? 'Mean roof height is over 60 ft: this method ends there; the engineer’s figure is needed'
						: `${what} must be from ${least} to ${most}${unit === '' ? '' : ` ${unit}`}`
			};
	}
	const { edition, exposure, speed, roofHeight, topography, zone, area, enclosure } = wind;
	const later = edition === 'ASCE 7-22';
	const [alpha, gradient] = terrain[edition][exposure];
	const factor = terrainFactor[edition];
	const coefficient = exposureCoefficient(edition, exposure, roofHeight);
	const elevation = elevationFactor(wind.groundElevation);
	const inVelocity = later ? 1 : directionality;
	const outside = later ? directionality : 1;
	const q = velocityPressure(coefficient, topography, inVelocity, elevation, speed);
	const internal = internalCoefficient[enclosure];
	const into = wallCoefficient(zone, 'inward', area);
	const outOf = wallCoefficient(zone, 'outward', area);
	const reckonedIn = q * outside * (into + internal);
	const reckonedOut = q * outside * (outOf - internal);
	const inward = Math.max(reckonedIn, leastPressure);
	const outward = Math.min(reckonedOut, -leastPressure);
	const allowable = allowableShare * Math.max(inward, -outward);
	const kd = later ? `${directionality} · ` : '';
	const height = Math.max(roofHeight, lowest);
	return {
		ok: true,
		pressure: {
			velocityPressure: q,
			inward,
			outward,
			allowable,
			steps: [
				{
					what: 'Exposure coefficient',
					formula: `Kh = ${factor} · (h / zg)^(2/α), h at least 15 ft`,
					numbers: `${factor} · (${said(height)} / ${gradient})^(2/${alpha})`,
					result: said(coefficient),
					source: published(`${edition}, Table 26.10-1, exposure ${exposure}`)
				},
				{
					what: 'Ground elevation factor',
					formula: 'Ke = e^(−0.0000362 · zg)',
					numbers: `e^(−0.0000362 · ${said(wind.groundElevation)})`,
					result: said(elevation),
					source: published(`${edition}, Table 26.9-1`)
				},
				{
					what: 'Velocity pressure',
					formula: later
						? 'qh = 0.00256 · Kh · Kzt · Ke · V²; Kd = 0.85 stands with the pressures'
						: 'qh = 0.00256 · Kh · Kzt · Kd · Ke · V², Kd = 0.85',
					numbers: `0.00256 · ${said(coefficient)} · ${said(topography)} · ${later ? '' : `${directionality} · `}${said(elevation)} · ${said(speed)}²`,
					result: `${q.toFixed(2)} psf`,
					source: published(`${edition}, Eq. 26.10-1`)
				},
				{
					what: 'Coefficients of the wall',
					formula: 'GCp by the logarithm of the effective wind area, 10 to 500 ft²',
					numbers: `zone ${zone}, ${said(area)} ft²`,
					result: `${said(into)} inward, ${said(outOf)} outward; GCpi ±${internal}`,
					source: published(`${edition}, Figure 30.3-1 and Table 26.13-1`)
				},
				{
					what: 'Inward',
					formula: `p = ${later ? 'Kd · ' : ''}qh · (GCp + GCpi), at least 16 psf`,
					numbers: `${kd}${q.toFixed(2)} · (${said(into)} + ${internal})`,
					result: `${inward.toFixed(2)} psf`,
					source: published(`${edition}, Eq. 30.3-1; the least of 30.2.2 from memory`)
				},
				{
					what: 'Outward',
					formula: `p = ${later ? 'Kd · ' : ''}qh · (GCp − GCpi), at least 16 psf`,
					numbers: `${kd}${q.toFixed(2)} · (${said(outOf)} − ${internal})`,
					result: `${outward.toFixed(2)} psf`,
					source: published(`${edition}, Eq. 30.3-1; the least of 30.2.2 from memory`)
				},
				{
					what: 'At allowable level',
					formula: '0.6 · the larger',
					numbers: `0.6 · ${Math.max(inward, -outward).toFixed(2)}`,
					result: `${allowable.toFixed(2)} psf`,
					source: fromMemory(`${edition}, 2.4.1`)
				}
			]
		}
	};
}
