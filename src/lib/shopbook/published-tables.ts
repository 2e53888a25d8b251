/** Published tables, and the formulas their figures follow: what a shop's own rows are held against. */
import type { TechnicalBook } from './schema.ts';
import breakerData from './published/breakers.json' with { type: 'json' };
import threadData from './published/coarse-threads.json' with { type: 'json' };
import conductorData from './published/conductors.json' with { type: 'json' };
import motorData from './published/motor-currents.json' with { type: 'json' };
import gaugeData from './published/sheet-gauge.json' with { type: 'json' };
import pipeData from './published/steel-pipe.json' with { type: 'json' };

/** Pipe by nominal size: outside diameter and wall in inches. */
export const steelPipe: readonly {
	readonly nps: string;
	readonly outsideDiameter: string;
	readonly wall: string;
	readonly schedule: string;
	readonly source: string;
}[] = pipeData;

/** Standard gauge of sheet steel: lb/ft², uncoated. */
export const sheetGauge: readonly {
	readonly gauge: number;
	readonly weight: string;
	readonly source: string;
}[] = gaugeData;

export const motorCurrentSource =
	'NEC (NFPA 70) 2023, Table 430.248, single-phase full-load currents; 1/6, 1, 1 1/2 and 3 hp and more from memory.';
export const conductorSource =
	'NEC (NFPA 70) 2023, Table 310.16 and Chapter 9, Table 8; sizes over 8 AWG and resistance of 8 AWG from memory.';
export const breakerSource = 'NEC (NFPA 70) 2023, 240.6(A), standard ratings; from memory.';

/** Full-load current of single-phase motors by size in hp and rated voltage, A. */
export const motorCurrents: readonly {
	readonly key: string;
	readonly at115: string;
	readonly at200: string;
	readonly at208: string;
	readonly at230: string;
	readonly source: string;
}[] = motorData;

/** Copper conductors by AWG size, thin to thick: ampacities in A, resistance in ohm/ft, area in circular mils. */
export const conductors: readonly {
	readonly key: string;
	readonly ampacity60: string;
	readonly ampacity75: string;
	readonly ampacity90: string;
	readonly resistance: string;
	readonly area: string;
	readonly source: string;
}[] = conductorData;

/** Standard ratings of breakers, A. */
export const standardBreakers: readonly {
	readonly key: string;
	readonly rating: string;
	readonly source: string;
}[] = breakerData;

/** Coarse threads of inch bolts by nominal size: diameter in inches, threads to the inch. */
export const coarseThreads: readonly {
	readonly key: string;
	readonly diameter: string;
	readonly threadsPerInch: string;
	readonly source: string;
}[] = threadData;

/**
 * Stress area of an inch thread, At = π/4·(D − 0.9743/n)², in in² (ASME B1.1).
 *
 * @param diameter D in inches, nominal, over 0.9743/n
 * @param threadsPerInch n, greater than 0
 * @throws RangeError where no such thread exists
 */
export function stressArea(diameter: number, threadsPerInch: number): number {
	const thread = diameter - 0.9743 / threadsPerInch;
	if (!(threadsPerInch > 0) || !(thread > 0))
		throw new RangeError(`no bolt of ${diameter} in has ${threadsPerInch} threads to the inch`);
	return (Math.PI / 4) * thread ** 2;
}

export interface PipeSection {
	/** in² */
	readonly area: number;
	/** in⁴ */
	readonly secondMoment: number;
	/** in³ */
	readonly sectionModulus: number;
	/** in */
	readonly radiusOfGyration: number;
	/** lb/ft of steel at 490 lb/ft³ */
	readonly weight: number;
}

/**
 * A round pipe by the ring formulas: A = π/4·(D² − d²), I = π/64·(D⁴ − d⁴), S = 2I/D, r = √(I/A), weight = A · 490
 * lb/ft³. The steel manual prints weight from the nominal wall, but area, I and S from 0.93 of it (design wall,
 * AISC 360-16 B4.2): say which wall a figure is for.
 *
 * @param outsideDiameter D in inches, greater than twice the wall
 * @param wall t in inches, greater than 0
 * @throws RangeError where no such ring exists
 */
export function pipeSection(outsideDiameter: number, wall: number): PipeSection {
	const bore = outsideDiameter - 2 * wall;
	if (!(wall > 0) || !(bore > 0))
		throw new RangeError(`no pipe has an outside diameter of ${outsideDiameter} in and a wall of ${wall} in`);
	const area = (Math.PI / 4) * (outsideDiameter ** 2 - bore ** 2);
	const secondMoment = (Math.PI / 64) * (outsideDiameter ** 4 - bore ** 4);
	return {
		area,
		secondMoment,
		sectionModulus: (2 * secondMoment) / outsideDiameter,
		radiusOfGyration: Math.sqrt(secondMoment / area),
		weight: (area * 490) / 144
	};
}

/** Zinc of a galvanized sheet on top of its gauge weight, lb/ft² (15 U.S.C. 206 practice: 2.5 oz per square foot). */
export const zinc = 0.15625;

/** One of the shop's figures beside what the published formula gives. */
export interface BookFinding {
	readonly table: 'barrels' | 'hoods' | 'fixings';
	readonly key: string;
	readonly figure: string;
	/** The book's value and the reckoned one, in `unit`. */
	readonly book: number;
	readonly reckoned: number;
	readonly unit: string;
	readonly agrees: boolean;
	readonly source: string;
}

const near = (a: number, b: number, share: number): boolean => Math.abs(a - b) <= share * Math.abs(b);

/** Holds the shop's pipes, sheet hoods and through bolts against the formulas; a figure that is off by over 1 % does not agree. */
export function auditBook(book: TechnicalBook): BookFinding[] {
	const pipes = book.barrels.flatMap((row): BookFinding[] => {
		const outside = Number(row.outsideDiameter);
		const nominal = (outside - Number(row.bore)) / 2;
		const wall = row.secondMomentWall === 'design' ? 0.93 * nominal : nominal;
		const second = pipeSection(outside, wall).secondMoment;
		const { weight } = pipeSection(outside, nominal);
		const common = { table: 'barrels' as const, key: row.key };
		return [
			{
				...common,
				figure: `second moment of area, ${row.secondMomentWall} wall`,
				book: Number(row.secondMoment),
				reckoned: second,
				unit: 'in4',
				agrees: near(Number(row.secondMoment), second, 0.01),
				source: 'Ring formula I = π/64·(D⁴ − d⁴)'
			},
			{
				...common,
				figure: 'weight, nominal wall',
				book: Number(row.weight),
				reckoned: weight,
				unit: 'lb/ft',
				agrees: near(Number(row.weight), weight, 0.01),
				source: 'Ring area at 490 lb/ft³'
			}
		];
	});
	const hoods = book.hoods.flatMap((row): BookFinding[] => {
		const gauge = /(\d+) gauge/u.exec(row.title)?.[1];
		const sheet = sheetGauge.find((entry) => String(entry.gauge) === gauge);
		if (!sheet) return [];
		const reckoned = Number(sheet.weight) + (/galvani/iu.test(row.title) ? zinc : 0);
		return [
			{
				table: 'hoods',
				key: row.key,
				figure: 'sheet weight',
				book: Number(row.weight),
				reckoned,
				unit: 'lb/ft2',
				agrees: near(Number(row.weight), reckoned, 0.01),
				source: sheet.source
			}
		];
	});
	const bolts = book.fixings.flatMap(({ key, anchors }) =>
		anchors.flatMap((row): BookFinding[] => {
			const thread = coarseThreads.find(({ diameter }) => Number(diameter) === Number(row.diameter));
			if (row.kind !== 'throughBolt' || !thread) return [];
			const reckoned = stressArea(Number(row.diameter), Number(thread.threadsPerInch));
			return [
				{
					table: 'fixings',
					key: `${key}, ${row.substrate}`,
					figure: `stress area, ${thread.threadsPerInch} threads to the inch`,
					book: Number(row.stressArea),
					reckoned,
					unit: 'in2',
					agrees: near(Number(row.stressArea), reckoned, 0.01),
					source: `At = π/4·(D − 0.9743/n)², ${thread.source}`
				}
			];
		})
	);
	return [...pipes, ...hoods, ...bolts];
}
