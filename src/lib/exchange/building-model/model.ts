/** Openings of a building model (IFC, ISO 16739), as the reader of the file hands them on: plain rows, no geometry. */

export type ModelKind = 'door' | 'window' | 'opening';

export interface ModelOpening {
	/** Number of its line in the file (`#42`): what tells it from the others, even where other names are missing. */
	readonly line: number;
	/** IfcRoot.GlobalId, 22 characters where the file keeps to the standard. */
	readonly globalId: string;
	readonly kind: ModelKind;
	/** Empty where the model has none; so are the next four. */
	readonly tag: string;
	readonly name: string;
	/** Name of its type object, else its ObjectType. */
	readonly type: string;
	readonly storey: string;
	readonly space: string;
	/** Whole nanometres; null where the model does not say or says it finer than is allowed: then a note tells. */
	readonly width: number | null;
	readonly height: number | null;
	/** IsExternal of its common properties; null where the model does not say. */
	readonly exterior: boolean | null;
	/** What a person should know about it, a sentence each. */
	readonly notes: readonly string[];
}

export interface BuildingModel {
	/** `IFC2X3`, `IFC4` or `IFC4X3…`, as the file's header says. */
	readonly schema: string;
	/** The model's unit of length in words: `MILLIMETRE`, `FOOT`. */
	readonly unit: string;
	/** In the order of their lines. */
	readonly openings: readonly ModelOpening[];
}

/** A model that was read, or one sentence that says why not and what would be right. */
export type ModelReading = { ok: true; model: BuildingModel } | { ok: false; message: string };

/** Openings listed of one model: as many as a job has rows. */
export const mostOpenings = 20_000;

/** Says why a model is not read. Never leaves the reader of models. */
export class ModelRefusal extends Error {}
