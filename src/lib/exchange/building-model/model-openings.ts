/** Doors, windows and openings of a model, with what the model says of each in other lines. */
import {
	IFCDOOR,
	IFCOPENINGELEMENT,
	IFCRELAGGREGATES,
	IFCRELCONTAINEDINSPATIALSTRUCTURE,
	IFCRELDEFINESBYPROPERTIES,
	IFCRELDEFINESBYTYPE,
	IFCRELFILLSELEMENT,
	IFCRELVOIDSELEMENT,
	IFCWINDOW
} from 'web-ifc';
import { grouped } from '../sheet.ts';
import { sizeOf, type Fraction } from './exact-size.ts';
import { lengthUnitOf, projectLengthUnit, type LengthUnit } from './length-unit.ts';
import { referenceOf, referencesOf, textOf, truthOf, type Line, type ModelLines } from './model-lines.ts';
import {
	ModelRefusal,
	mostOpenings,
	type BuildingModel,
	type ModelKind,
	type ModelOpening
} from './model.ts';
import { shapeSizes } from './opening-shape.ts';

/** Positions of attributes: of IfcDoor and IfcWindow, and of IfcQuantityLength. */
const [overallHeight, overallWidth] = [8, 9];
const lengthValue = 3;
/** Steps from an element up to its storey: opening, wall, assembly, space. */
const mostSteps = 32;
const commonProperties = /^Pset_(?:Door|Window|OpeningElement)Common$/u;
/** `Qto_DoorBaseQuantities` and the like since IFC 4, `BaseQuantities` before. */
const baseQuantities = /^(?:Qto_(?:Door|Window|OpeningElement))?BaseQuantities$/u;

/** A number with the unit it is in. */
interface Size {
	readonly value: Fraction;
	readonly unit: LengthUnit;
	/** Where it is from; empty for the overall size of the element itself. */
	readonly from: string;
}

interface Sizes {
	readonly width: Size | null;
	readonly height: Size | null;
}

const either = (first: Sizes, second: () => Sizes): Sizes => {
	if (first.width && first.height) return first;
	const { width, height } = second();
	return { width: first.width ?? width, height: first.height ?? height };
};

/** A set of properties or quantities: its name, and what is in it. */
interface NamedSet {
	readonly name: string;
	readonly lines: readonly Line[];
}

/** What the lines of relations say, by the number of the element. */
interface Relations {
	/** What an element is in: storey or space, assembly, the opening it fills, the element it goes through. */
	readonly inside: ReadonlyMap<number, number>;
	/** The opening that a door or window fills. */
	readonly fills: ReadonlyMap<number, number>;
	/** The element that an opening goes through. */
	readonly voids: ReadonlyMap<number, number>;
	readonly type: ReadonlyMap<number, number>;
	readonly sets: ReadonlyMap<number, readonly number[]>;
}

/** For every element of a relation, what it relates to. */
const related = (lines: ModelLines, relation: number, of: string, to: string): Map<number, number> =>
	new Map(
		lines.lines(relation).flatMap(({ attributes }) => {
			const target = referenceOf(attributes[to]);
			return target === null ? [] : referencesOf(attributes[of]).map((id): [number, number] => [id, target]);
		})
	);

function setsOf(lines: ModelLines, elements: ReadonlySet<number>): Map<number, number[]> {
	const sets = new Map<number, number[]>();
	for (const { attributes } of lines.lines(IFCRELDEFINESBYPROPERTIES))
		for (const element of referencesOf(attributes.RelatedObjects)) {
			if (!elements.has(element)) continue;
			const known = sets.get(element) ?? [];
			known.push(...referencesOf(attributes.RelatingPropertyDefinition));
			sets.set(element, known);
		}
	return sets;
}

function relationsOf(lines: ModelLines, elements: ReadonlySet<number>): Relations {
	const fills = related(lines, IFCRELFILLSELEMENT, 'RelatedBuildingElement', 'RelatingOpeningElement');
	const voids = related(lines, IFCRELVOIDSELEMENT, 'RelatedOpeningElement', 'RelatingBuildingElement');
	const parts = related(lines, IFCRELAGGREGATES, 'RelatedObjects', 'RelatingObject');
	const contained = related(lines, IFCRELCONTAINEDINSPATIALSTRUCTURE, 'RelatedElements', 'RelatingStructure');
	return {
		// What comes later counts more: a door is on the storey it is listed for, whatever its opening goes through.
		inside: new Map([...voids, ...fills, ...parts, ...contained]),
		fills,
		voids,
		type: related(lines, IFCRELDEFINESBYTYPE, 'RelatedObjects', 'RelatingType'),
		sets: setsOf(lines, elements)
	};
}

/** The value of a property in the first set that gives it one. */
const valueIn = (sets: readonly NamedSet[], property: string): unknown =>
	sets
		.flatMap((set) => set.lines)
		.filter(({ attributes }) => textOf(attributes.Name) === property)
		.find(({ attributes }) => attributes.NominalValue)?.attributes.NominalValue;

class OpeningReader {
	readonly #lines: ModelLines;
	readonly #relations: Relations;
	readonly #unit: LengthUnit;

	constructor(lines: ModelLines, relations: Relations, unit: LengthUnit) {
		this.#lines = lines;
		this.#relations = relations;
		this.#unit = unit;
	}

	read(element: Line, kind: ModelKind): ModelOpening {
		const { id, attributes } = element;
		const type = this.#lines.line(this.#relations.type.get(id) ?? null);
		const sets = this.#sets([
			...(this.#relations.sets.get(id) ?? []),
			...referencesOf(type?.attributes.HasPropertySets)
		]);
		const common = sets.filter(({ name }) => commonProperties.test(name));
		const notes: string[] = [];
		const sizes = this.#sizes(element, sets);
		const [width, height] = (['width', 'height'] as const).map((side) => {
			const size = sizes[side];
			if (!size) {
				notes.push(`The model gives no ${side}.`);
				return null;
			}
			const read = sizeOf(size.value, size.unit.nm);
			if (read.ok) return read.nm;
			notes.push(`The model’s ${side} ${read.reason}; it is left blank.`);
			return null;
		});
		const sources = [sizes.width?.from ?? '', sizes.height?.from ?? ''].filter((from) => from !== '');
		if (sources.length > 0) notes.push(`Size from ${[...new Set(sources)].join(' and ')}.`);
		const rating = textOf(valueIn(common, 'FireRating'));
		if (rating !== '') notes.push(`Fire rating in the model: ${rating}.`);
		const objectType = textOf(attributes.ObjectType);
		if (textOf(attributes.PredefinedType) === 'RECESS' || /^recess$/iu.test(objectType))
			notes.push('A recess in the model, not a hole through the wall.');
		const host = this.#lines.line(this.#relations.voids.get(id) ?? null)?.kind;
		if (host !== undefined && !host.includes('Wall'))
			notes.push(`It goes through ${host} in the model, not a wall.`);
		return {
			line: id,
			globalId: textOf(attributes.GlobalId),
			kind,
			tag: textOf(attributes.Tag),
			name: textOf(attributes.Name),
			type: textOf(type?.attributes.Name) || objectType,
			...this.#place(id),
			width: width ?? null,
			height: height ?? null,
			exterior: truthOf(valueIn(common, 'IsExternal')),
			notes
		};
	}

	#all(ids: readonly number[]): Line[] {
		return ids.map((id) => this.#lines.line(id)).filter((line) => line !== null);
	}

	#sets(ids: readonly number[]): NamedSet[] {
		return this.#all(ids).map(({ attributes }) => ({
			name: textOf(attributes.Name),
			lines: this.#all([...referencesOf(attributes.HasProperties), ...referencesOf(attributes.Quantities)])
		}));
	}

	/** Overall size, else base quantities, else shape; for a door or window at last those of the opening it fills. */
	#sizes(element: Line, sets: readonly NamedSet[]): Sizes {
		const quantities = (): Sizes => this.#quantities(sets, '');
		if (element.kind.startsWith('IfcOpening')) return either(quantities(), () => this.#shape(element, ''));
		const overall = (position: number): Size | null => this.#size(this.#lines.number(element, position), '');
		const own = { width: overall(overallWidth), height: overall(overallHeight) };
		return either(either(own, quantities), () => {
			const opening = this.#lines.line(this.#relations.fills.get(element.id) ?? null);
			if (!opening) return { width: null, height: null };
			const of = ' of the opening it fills';
			const openingSets = this.#sets(this.#relations.sets.get(opening.id) ?? []);
			return either(this.#quantities(openingSets, of), () => this.#shape(opening, of));
		});
	}

	#size(value: Fraction | null | undefined, from: string, unit = this.#unit): Size | null {
		return value ? { value, unit, from } : null;
	}

	#quantities(sets: readonly NamedSet[], of: string): Sizes {
		const quantities = sets.filter(({ name }) => baseQuantities.test(name)).flatMap((set) => set.lines);
		const size = (wanted: string): Size | null => {
			const found = quantities.find(
				({ kind, attributes }) => kind === 'IfcQuantityLength' && textOf(attributes.Name) === wanted
			);
			if (!found) return null;
			const unit = this.#lines.line(referenceOf(found.attributes.Unit));
			return this.#size(
				this.#lines.number(found, lengthValue),
				`the base quantities${of}`,
				unit ? lengthUnitOf(this.#lines, unit) : this.#unit
			);
		};
		return { width: size('Width'), height: size('Height') };
	}

	#shape(element: Line, of: string): Sizes {
		const shape = shapeSizes(this.#lines, element);
		const size = (value: Fraction | undefined): Size | null => this.#size(value, `the shape${of}`);
		return { width: size(shape?.width), height: size(shape?.height) };
	}

	/** Storey, and space where it is listed for one: up from the element, through whatever it is in. */
	#place(id: number): { storey: string; space: string } {
		let [space, at] = ['', this.#relations.inside.get(id)];
		for (let step = 0; at !== undefined && step < mostSteps; step++, at = this.#relations.inside.get(at)) {
			const line = this.#lines.line(at);
			const name = textOf(line?.attributes.Name) || textOf(line?.attributes.LongName);
			if (line?.kind === 'IfcSpace' && space === '') space = name;
			if (line?.kind === 'IfcBuildingStorey') return { storey: name, space };
		}
		return { storey: '', space };
	}
}

/**
 * Every IfcDoor, IfcWindow and IfcOpeningElement (and their subtypes) of a model. An opening that one of its doors or
 * windows fills is told of with that one.
 * @throws ModelRefusal where the model can't be understood: no unit of length, too much in it
 */
export function modelOpenings(lines: ModelLines, schema: string): BuildingModel {
	const unit = projectLengthUnit(lines);
	const found = kinds.flatMap(([entity, kind]) => lines.ids(entity).map((id) => ({ id, kind })));
	const relations = relationsOf(lines, new Set(found.map(({ id }) => id)));
	const filled = new Set(found.map(({ id }) => relations.fills.get(id)));
	const listed = found.filter(({ id }) => !filled.has(id)).sort((a, b) => a.id - b.id);
	if (listed.length === 0) throw new ModelRefusal('it has no door, window or opening in it');
	if (listed.length > mostOpenings)
		throw new ModelRefusal(
			`it has ${grouped(listed.length)} doors, windows and openings; at most ${grouped(mostOpenings)} are read, so export only the part that is needed`
		);
	const reader = new OpeningReader(lines, relations, unit);
	const openings = listed.flatMap(({ id, kind }) => {
		const line = lines.line(id);
		return line ? [reader.read(line, kind)] : [];
	});
	return { schema, unit: unit.name, openings };
}

const kinds: readonly (readonly [entity: number, kind: ModelKind])[] = [
	[IFCDOOR, 'door'],
	[IFCWINDOW, 'window'],
	[IFCOPENINGELEMENT, 'opening']
];
