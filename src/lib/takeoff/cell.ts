/** A cell of the grid: from what is typed to what is stored, and back to what a person sees. Text is data: never a formula. */
import { exactLength, formatLength, parseLength } from '../quantity/length.ts';
import { parseLineLoad, parsePressure, parseStrength, parseVoltage } from '../quantity/measure.ts';
import { convert } from '../quantity/units.ts';
import type { Cell, InputDefinition, Measured, Measures } from './inputs.ts';

type CellReading = { ok: true; cell: Cell } | { ok: false; reason: string };

interface CellContext {
	readonly measures: Measures;
	/** The keys the input may take; for other kinds not looked at. */
	readonly keys: readonly string[];
}

const longestText = 2000;
const longestMark = 40;
const highestCount = 10_000;
const mostKeysNamed = 8;

const lengthUnit = (measures: Measures): 'in' | 'mm' => (measures === 'imperial' ? 'in' : 'mm');

/** A measure that imperial and metric jobs write in different units. */
interface Twin {
	/** Of a figure without a unit, and of what is shown. */
	readonly units: Readonly<Record<Measures, string>>;
	/** Decimals shown, zeros at the end left out. */
	readonly decimals: Readonly<Record<Measures, number>>;
	/** The amount, in the unit it is stored in. */
	readonly read: (
		text: string,
		measures: Measures
	) => { ok: true; amount: number } | { ok: false; reason: string };
}

/** By the unit that the cell is stored in. */
const twins: Readonly<Record<'psf' | 'psi' | 'lb/ft', Twin>> = {
	psf: {
		units: { imperial: 'psf', metric: 'kPa' },
		decimals: { imperial: 2, metric: 2 },
		read(text, measures) {
			const read = parsePressure(text, measures === 'imperial' ? 'psf' : 'kPa');
			return read.ok ? { ok: true, amount: read.psf } : read;
		}
	},
	psi: {
		units: { imperial: 'psi', metric: 'MPa' },
		decimals: { imperial: 1, metric: 2 },
		read(text, measures) {
			const read = parseStrength(text, measures === 'imperial' ? 'psi' : 'MPa');
			return read.ok ? { ok: true, amount: read.psi } : read;
		}
	},
	'lb/ft': {
		units: { imperial: 'lb/ft', metric: 'kN/m' },
		decimals: { imperial: 1, metric: 3 },
		read(text, measures) {
			const read = parseLineLoad(text, measures === 'imperial' ? 'lb/ft' : 'kN/m');
			return read.ok ? { ok: true, amount: read.poundsPerFoot } : read;
		}
	}
};

const twinOf = { pressure: 'psf', strength: 'psi', lineLoad: 'lb/ft' } as const;

/** The unit of a figure typed without one, for what imperial and metric jobs write in different units but lengths; else null. */
export function unitOfFigure({ kind }: InputDefinition, measures: Measures): string | null {
	if (kind !== 'pressure' && kind !== 'strength' && kind !== 'lineLoad') return null;
	return twins[twinOf[kind]].units[measures];
}

/**
 * Control characters and invisible ones that turn or hide text go; line breaks become `\n`, tabs spaces, halves of
 * characters the replacement sign; composed (NFC) and trimmed.
 */
function clean(text: string): string {
	return text
		.toWellFormed()
		.replace(/\r\n?|[\u2028\u2029]/gu, '\n')
		.replace(/\t/gu, ' ')
		.replace(/[^\P{Cc}\n]|[\u200B\u200E\u200F\u202A-\u202E\u2060\u2066-\u2069\uFEFF]/gu, '')
		.normalize('NFC')
		.trim();
}

/**
 * Reads what was typed (or stands in a file) for an input. Empty text is an empty cell, `null`; whether one is
 * required is not asked here. A refusal's reason says, after a semicolon, what to write.
 *
 * - text: kept as it is, whatever it begins with, up to 2000 characters; a mark up to 40, on one line. Line breaks
 *   stay in a note and become spaces elsewhere.
 * - count: a whole number from 1 to 10 000.
 * - length, pressure, strength, load along a line, voltage: by `quantity`, with the range of the input.
 * - key: a key of `context.keys`, whatever its capitals, spaces and hyphens; stored in its own spelling.
 */
export function readCell(input: InputDefinition, text: string, context: CellContext): CellReading {
	const cleaned = clean(text);
	if (cleaned === '') return { ok: true, cell: null };
	if (cleaned.length > longestText) {
		return {
			ok: false,
			reason: `${cleaned.length} characters are too many; write at most ${longestText}`
		};
	}
	if (input.kind === 'text') return readText(input, cleaned);
	const line = cleaned.replace(/\s+/gu, ' ');
	switch (input.kind) {
		case 'count':
			return readCount(input, line);
		case 'length':
			return readLength(input, line, context.measures);
		case 'pressure':
		case 'strength':
		case 'lineLoad': {
			const unit = twinOf[input.kind];
			const read = twins[unit].read(line, context.measures);
			return read.ok ? { ok: true, cell: { amount: read.amount, unit, typed: line } } : read;
		}
		case 'voltage': {
			const read = parseVoltage(line);
			return read.ok ? { ok: true, cell: { amount: read.volts, unit: 'V', typed: line } } : read;
		}
		case 'key':
			return readKey(input, line, input.options ?? context.keys);
	}
}

function readText(input: InputDefinition, text: string): CellReading {
	if (input.id === 'note') return { ok: true, cell: text };
	const line = text.replace(/ *\n+ */gu, ' ');
	if (input.id === 'mark') {
		if (text.includes('\n')) {
			return { ok: false, reason: `a mark stands on one line; write ${line.slice(0, longestMark)}` };
		}
		if (line.length > longestMark) {
			return {
				ok: false,
				reason: `${line.length} characters are too many for a mark; write at most ${longestMark}`
			};
		}
	}
	return { ok: true, cell: line };
}

function readCount(input: InputDefinition, text: string): CellReading {
	const digits = /^(\d+)(?:\.0+)?$/u.exec(text)?.[1];
	const value = digits === undefined || digits.length > 15 ? NaN : Number(digits);
	if (value >= 1 && value <= highestCount) return { ok: true, cell: value };
	return {
		ok: false,
		reason: `"${shown(text)}" is not a ${input.title.toLowerCase()}; write a whole number from 1 to ${highestCount}`
	};
}

function readLength(input: InputDefinition, text: string, measures: Measures): CellReading {
	const read = parseLength(text, lengthUnit(measures));
	if (!read.ok) return read;
	const understood = showLength(read.nm, measures);
	if (input.range === 'positive' && read.nm <= 0) {
		return { ok: false, reason: `${input.title} is ${understood}; write a length greater than 0` };
	}
	if (input.range !== 'signed' && read.nm < 0) {
		return { ok: false, reason: `${input.title} is ${understood}; write 0 or more` };
	}
	return { ok: true, cell: { amount: read.nm, unit: 'nm', typed: text } };
}

const plainKey = (key: string): string => key.toLowerCase().replace(/[\s_‐‑‒–—-]/gu, '');

function readKey(input: InputDefinition, text: string, keys: readonly string[]): CellReading {
	if (keys.includes(text)) return { ok: true, cell: text };
	const alike = keys.filter((key) => plainKey(key) === plainKey(text));
	const [only] = alike;
	if (only !== undefined && alike.length === 1) return { ok: true, cell: only };
	const title = input.title.toLowerCase();
	if (keys.length === 0) {
		return { ok: false, reason: `the shop book has nothing for ${title}; write nothing here` };
	}
	if (alike.length > 1) {
		return { ok: false, reason: `"${shown(text)}" could be more than one; write ${alike.join(' or ')}` };
	}
	const wanted = plainKey(text).slice(0, 60);
	const nearestFirst = keys
		.map((key, index) => ({ key, index, distance: editDistance(wanted, plainKey(key)) }))
		.sort((a, b) => a.distance - b.distance || a.index - b.index)
		.map(({ key }) => key);
	const named = nearestFirst.slice(0, mostKeysNamed);
	const more = nearestFirst.length - named.length;
	return {
		ok: false,
		reason: `"${shown(text)}" is not known for ${title}; write ${named.join(', ')}${more > 0 ? ` or one of ${more} more` : ''}`
	};
}

/** Letters to change, add or leave out to get from one text to the other. */
function editDistance(a: string, b: string): number {
	let above = Array.from({ length: b.length + 1 }, (_, i) => i);
	for (let i = 1; i <= a.length; i++) {
		const row = [i];
		for (let j = 1; j <= b.length; j++) {
			const replaced = (above[j - 1] ?? 0) + (a.charAt(i - 1) === b.charAt(j - 1) ? 0 : 1);
			row.push(Math.min(replaced, (above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
		}
		above = row;
	}
	return above[b.length] ?? 0;
}

const shown = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);

/** Canonical; with `≈` where the shown figure is rounded and the stored one is finer. */
function showLength(nm: number, measures: Measures): string {
	const text = formatLength(nm, measures === 'imperial' ? 'feetInches' : 'mm');
	const step = measures === 'imperial' ? 1_587_500 : 100_000;
	return nm % step === 0 ? text : `≈ ${text}`;
}

/**
 * What a person sees: lengths as understood, in the style of the job (`12'-6 1/2"`, `3810 mm`; `≈` before one that
 * is stored finer than shown), other measures with their unit, keys and text as stored, nothing for an empty cell.
 */
export function showCell(input: InputDefinition, cell: Cell | undefined, measures: Measures): string {
	if (cell === null || cell === undefined) return '';
	if (typeof cell !== 'object')
		return input.kind === 'text' ? String(cell).replace(/\n/gu, ' ') : String(cell);
	switch (cell.unit) {
		case 'nm':
			return showLength(cell.amount, measures);
		case 'V':
			return `${cell.amount} V`;
		default: {
			const { units, decimals } = twins[cell.unit];
			const shownIn = units[measures];
			return `${Number(convert(cell.amount, cell.unit, shownIn).toFixed(decimals[measures]))} ${shownIn}`;
		}
	}
}

/**
 * What to put into an editor: what was typed, as long as it means the same in an imperial and in a metric job. A bare
 * number gets the unit it was understood in (`150.5` → `150.5"`), so that reading it again gives the same amount even
 * after the job's measures were changed.
 */
export function typedText(cell: Cell | undefined): string {
	if (cell === null || cell === undefined) return '';
	if (typeof cell !== 'object') return String(cell);
	switch (cell.unit) {
		case 'nm': {
			const unit = readsAs(cell, lengthIn('mm')) ? 'mm' : 'in';
			const texts = [cell.typed, `${cell.typed}${unit === 'mm' ? ' mm' : '"'}`];
			return standing(cell, texts, [lengthIn('in'), lengthIn('mm')]) ?? exactLength(cell.amount, unit);
		}
		case 'V':
			return cell.typed;
		default: {
			const twin = twins[cell.unit];
			const [imperial, metric] = [twinIn(twin, 'imperial'), twinIn(twin, 'metric')];
			const unit = twin.units[readsAs(cell, metric) ? 'metric' : 'imperial'];
			// A comma is a decimal mark in metric jobs only.
			const texts = [cell.typed, cell.typed.replace(',', '.')].flatMap((text) => [text, `${text} ${unit}`]);
			return standing(cell, texts, [imperial, metric]) ?? `${cell.amount} ${cell.unit}`;
		}
	}
}

/** Reads a text as an amount, or null. */
type Reader = (text: string) => number | null;

const lengthIn =
	(unit: 'in' | 'mm'): Reader =>
	(text) => {
		const read = parseLength(text, unit);
		return read.ok ? read.nm : null;
	};

const twinIn =
	({ read }: Twin, measures: Measures): Reader =>
	(text) => {
		const result = read(text, measures);
		return result.ok ? result.amount : null;
	};

const readsAs = (cell: Measured, reader: Reader): boolean => reader(cell.typed) === cell.amount;

/** The first text that every reader takes for the cell's amount. */
const standing = (cell: Measured, texts: readonly string[], readers: readonly Reader[]): string | undefined =>
	texts.find((text) => readers.every((reader) => reader(text) === cell.amount));
