/** The unit of length of a model: SI with its prefix, or one that the file itself converts (feet, inches). */
import { IFCPROJECT } from 'web-ifc';
import { powerOfTen, times, type Fraction } from './exact-size.ts';
import { referenceOf, referencesOf, textOf, type Line, type ModelLines } from './model-lines.ts';
import { ModelRefusal } from './model.ts';

export interface LengthUnit {
	/** As the file names it: `MILLIMETRE`, `FOOT`. */
	readonly name: string;
	/** Nanometres in one. */
	readonly nm: Fraction;
}

/** IfcSIPrefix (ISO 16739): powers of ten. */
const prefixes: Readonly<Record<string, number>> = {
	EXA: 18,
	PETA: 15,
	TERA: 12,
	GIGA: 9,
	MEGA: 6,
	KILO: 3,
	HECTO: 2,
	DECA: 1,
	DECI: -1,
	CENTI: -2,
	MILLI: -3,
	MICRO: -6,
	NANO: -9,
	PICO: -12,
	FEMTO: -15,
	ATTO: -18
};
const metreInNm = 9;
/** Position in IfcMeasureWithUnit. */
const valueComponent = 0;
/** Units that are converted by one another: feet by metres, and hardly ever more. */
const deepest = 4;

const again = 'export it again with its units';

/**
 * Reads IfcSIUnit, or IfcConversionBasedUnit with its factor, exactly as the file states it.
 * @throws ModelRefusal where the unit is none of length, missing or goes round in circles
 */
export function lengthUnitOf(lines: ModelLines, unit: Line | null, depth = 0): LengthUnit {
	if (!unit || depth > deepest)
		throw new ModelRefusal(`its unit of length is missing or defined by itself; ${again}`);
	const { attributes, kind } = unit;
	const name = textOf(attributes.Name);
	if (kind === 'IfcSIUnit') {
		const prefix = textOf(attributes.Prefix);
		const exponent = prefix === '' ? 0 : prefixes[prefix];
		if (name !== 'METRE' || exponent === undefined)
			throw new ModelRefusal(`its unit of length is ${prefix}${name}, which is none; ${again}`);
		return { name: `${prefix}${name}`, nm: powerOfTen(exponent + metreInNm) };
	}
	const measure = lines.line(referenceOf(attributes.ConversionFactor));
	const factor = measure && lines.number(measure, valueComponent);
	if (!measure || !factor)
		throw new ModelRefusal(
			`it does not say how long its unit of length${name === '' ? '' : ` (${name})`} is; ${again}`
		);
	if (factor.n <= 0n) throw new ModelRefusal(`its unit of length (${name}) is not above 0; ${again}`);
	const base = lengthUnitOf(lines, lines.line(referenceOf(measure.attributes.UnitComponent)), depth + 1);
	return { name, nm: times(factor, base.nm) };
}

/**
 * The unit of length that the project assigns.
 * @throws ModelRefusal where it assigns none, or more than one
 */
export function projectLengthUnit(lines: ModelLines): LengthUnit {
	const projects = lines.lines(IFCPROJECT);
	const [project] = projects;
	if (!project || projects.length > 1)
		throw new ModelRefusal(
			`it has ${projects.length === 0 ? 'no project' : 'more than one project'} (IfcProject); export it again`
		);
	const assignment = lines.line(referenceOf(project.attributes.UnitsInContext));
	const units = referencesOf(assignment?.attributes.Units)
		.map((id) => lines.line(id))
		.filter((line) => line !== null && textOf(line.attributes.UnitType) === 'LENGTHUNIT');
	const [unit] = units;
	if (!unit) throw new ModelRefusal(`it names no unit of length, so its sizes can’t be known; ${again}`);
	if (units.length > 1) throw new ModelRefusal(`it names ${units.length} units of length; ${again}`);
	return lengthUnitOf(lines, unit);
}
