/** The lines of an opened model by number and by kind, and their attributes, as far as they are what they should be. */
import { LogLevel, type IfcAPI } from 'web-ifc';
import { oneLine } from '../sheet.ts';
import { readReal, type Fraction } from './exact-size.ts';
import { ModelRefusal } from './model.ts';

/** A line with its attributes by the names of the schema. What stands in them is looked at, not believed. */
export interface Line {
	readonly id: number;
	/** Its entity as the standard spells it: `IfcDoor`. */
	readonly kind: string;
	readonly attributes: Readonly<Record<string, unknown>>;
}

const longestText = 200;
/** Kinds of token: a value of a named type, a real, a reference, an integer where a real belongs. */
const [typed, real, reference, integer] = [2, 4, 5, 10];

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
	typeof value === 'object' && value !== null && !Array.isArray(value);

/** Text on one line, at most 200 characters; empty where there is none. */
export function textOf(value: unknown): string {
	const text = isRecord(value) ? value.value : null;
	return typeof text === 'string' ? oneLine(text).slice(0, longestText) : '';
}

/** True, false, or null where neither is said (`.U.` too). */
export function truthOf(value: unknown): boolean | null {
	const truth = isRecord(value) ? value.value : null;
	return typeof truth === 'boolean' ? truth : null;
}

/** The number of the line that is referred to, or null. */
export function referenceOf(value: unknown): number | null {
	if (!isRecord(value) || value.type !== reference) return null;
	return typeof value.value === 'number' ? value.value : null;
}

export const referencesOf = (value: unknown): number[] =>
	Array.isArray(value)
		? value.map(referenceOf).filter((id) => id !== null)
		: [referenceOf(value)].filter((id) => id !== null);

function numberOf(token: unknown): Fraction | null {
	if (!isRecord(token) || (token.type !== typed && token.type !== real && token.type !== integer))
		return null;
	return readReal(String(token.value));
}

/** A model that web-ifc has opened. Nothing but lines is asked of it: no geometry is made. */
export class ModelLines {
	readonly #api: IfcAPI;
	readonly #model: number;

	/** @throws ModelRefusal when the file can't be opened */
	constructor(api: IfcAPI, bytes: Uint8Array) {
		api.SetLogLevel(LogLevel.LOG_LEVEL_OFF);
		this.#api = api;
		this.#model = api.OpenModel(bytes, { ALLOW_INCOMPATIBLE_SCHEMA_ALIASES: false });
		if (this.#model < 0)
			throw new ModelRefusal('it is damaged or not written as a model should be; export it again');
	}

	/** Numbers of all lines of a kind and its subtypes, ascending. */
	ids(kind: number): number[] {
		const ids = [...this.#api.GetLineIDsWithType(this.#model, kind, true)].sort((a, b) => a - b);
		const twice = ids.find((id, i) => id === ids[i + 1]);
		if (twice !== undefined) throw new ModelRefusal(`#${twice} stands for two lines in it; export it again`);
		return ids;
	}

	lines(kind: number): Line[] {
		return this.ids(kind)
			.map((id) => this.line(id))
			.filter((line) => line !== null);
	}

	/** Null where no line has this number, or one that its schema does not know. */
	line(id: number | null): Line | null {
		if (id === null) return null;
		let attributes: unknown;
		try {
			attributes = this.#api.GetLine(this.#model, id);
		} catch {
			return null;
		}
		if (!isRecord(attributes) || typeof attributes.type !== 'number') return null;
		return { id, kind: this.#api.GetNameFromTypeCode(attributes.type), attributes };
	}

	/**
	 * The number that an attribute is, by its position in the line (from 0), exact as the file writes it; null where it is
	 * none. By name, the library gives a reference (`#10`) for a number too.
	 */
	number(line: Line, position: number): Fraction | null {
		return numberOf(this.#written(line, position));
	}

	/** The same for a list. */
	numbers(line: Line, position: number): (Fraction | null)[] {
		const list = this.#written(line, position);
		return Array.isArray(list) ? list.map(numberOf) : [];
	}

	#written(line: Line, position: number): unknown {
		const list: unknown = this.#api.GetRawLineData(this.#model, line.id).arguments;
		return Array.isArray(list) ? list[position] : undefined;
	}
}
