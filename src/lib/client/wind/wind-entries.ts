/** What a person enters for the wind on one opening, as text, and how it is read. */
import { readDecimal } from '../../quantity/decimal-text.ts';
import { inUnit } from '../../quantity/format.ts';
import { ceilOf, floorOf } from '../../rulebook/rounding.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import type { InputId, Measures } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import {
	effectiveWindArea,
	windFaults,
	type Enclosure,
	type ExposureCategory,
	type WallZone,
	type WindCase,
	type WindEdition,
	type WindField,
	type WindFigures,
	type WindStep
} from '../../takeoff/wind.ts';

/** Figures as typed; choices blank until they are made. */
export type WindEntries = Record<WindField, string> & {
	exposure: ExposureCategory | '';
	enclosure: Enclosure | '';
	zone: WallZone | null;
};

/** Flat ground at sea level, which is on the safe side; everything else is asked for. */
export const newEntries = (): WindEntries => ({
	speed: '',
	exposure: '',
	topography: '1',
	groundElevation: '0',
	roofHeight: '',
	enclosure: '',
	openingHeight: '',
	zone: null,
	area: ''
});

export const fieldTitles: Readonly<Record<keyof WindEntries, string>> = {
	speed: 'Basic wind speed',
	exposure: 'Exposure',
	topography: 'Topographic factor Kzt',
	groundElevation: 'Ground above sea level',
	roofHeight: 'Mean roof height h',
	enclosure: 'Enclosure of the building',
	openingHeight: 'Top of the opening above the ground',
	zone: 'Zone of the wall',
	area: 'Effective wind area'
};

const figureFields = [
	'speed',
	'topography',
	'groundElevation',
	'roofHeight',
	'openingHeight',
	'area'
] as const satisfies readonly WindField[];

export interface WindReading {
	/** Null while something is missing or not taken. */
	readonly wind: WindCase | null;
	readonly faults: Readonly<Partial<Record<WindField, string>>>;
	/** What is blank yet. */
	readonly missing: readonly (keyof WindEntries)[];
}

/** A plain number, with a minus where the ground is below the sea. */
function readNumber(text: string, measures: Measures): { value: number } | { reason: string } {
	const plain = text.trim();
	const below = /^[-−]/u.test(plain);
	const read = readDecimal(below ? plain.slice(1) : plain, measures === 'metric' ? 'decimal' : 'refused');
	if (!read.ok) return { reason: `${read.reason}.` };
	const size = Number(`${read.value.digits}e-${read.value.places}`);
	return { value: below ? -size : size };
}

export function readWind(entries: WindEntries, edition: WindEdition, measures: Measures): WindReading {
	const figures: Partial<Record<WindField, number>> = {};
	const unread: Partial<Record<WindField, string>> = {};
	for (const field of figureFields) {
		if (entries[field].trim() === '') continue;
		const read = readNumber(entries[field], measures);
		if ('value' in read) figures[field] = read.value;
		else unread[field] = read.reason;
	}
	const faults = { ...windFaults(figures, measures), ...unread };
	const { exposure, enclosure, zone } = entries;
	const missing = (Object.keys(fieldTitles) as (keyof WindEntries)[]).filter(
		(field) => entries[field] === null || String(entries[field]).trim() === ''
	);
	if (
		!isWhole(figures) ||
		exposure === '' ||
		enclosure === '' ||
		zone === null ||
		Object.keys(faults).length > 0
	)
		return { wind: null, faults, missing };
	return { wind: { edition, measures, exposure, enclosure, zone, ...figures }, faults, missing };
}

const isWhole = (figures: Partial<WindFigures>): figures is WindFigures =>
	figureFields.every((field) => figures[field] !== undefined);

export interface Proposal {
	readonly openingHeight: string;
	readonly area: string;
	/** How the area was reckoned; null where the size of the opening or its curtain is not known. */
	readonly working: WindStep | null;
}

/**
 * What the opening's own size says: its top above the floor, taken up, and the effective wind area of its curtain, taken
 * down, which is the safe side of both.
 */
export function proposalFor(opening: OpeningTakeoff, book: TechnicalBook, measures: Measures): Proposal {
	const unit = measures === 'imperial' ? 'ft' : 'm';
	const length = (id: InputId): number | null => {
		const cell = opening.cell(id);
		return typeof cell === 'object' && cell?.unit === 'nm' ? inUnit(cell.amount, unit) : null;
	};
	const width = length('openingWidth');
	const height = length('openingHeight');
	const curtain = book.curtains.find(({ key }) => key === opening.cell('curtain'));
	const pitch = curtain ? Number(curtain.pitch) * (measures === 'imperial' ? 1 / 12 : 0.0254) : null;
	const openingHeight =
		height === null ? '' : String(ceilOf((height + (length('sillHeight') ?? 0)) * 100) / 100);
	if (width === null || height === null || pitch === null) return { openingHeight, area: '', working: null };
	const worked = effectiveWindArea(width, pitch, height, measures);
	const fine = measures === 'imperial' ? 10 : 100;
	return {
		openingHeight,
		area: String(floorOf(worked.value * fine) / fine),
		working: worked.steps[0] ?? null
	};
}
