/** A packing list typed by hand, field by field: the same reading, with the same errors, as from a file. */
import type { PackingFacts, PackingLine } from '../../delivery/line.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { grouped, oneLine, shown } from '../sheet.ts';
import type { FigureUnit } from '../table-notes.ts';
import { packingFields, type PackingField } from './fields.ts';
import { LineReader, saysNothing } from './read-line.ts';
import { missingFrom, type PackingQuestion, type PackingReading } from './reading.ts';

/** Text of the fields as typed; missing ones are empty. */
export type TypedLine = Readonly<
	Partial<Record<Exclude<PackingField, 'kind' | 'earlier' | 'weight'>, string>>
>;

export interface TypedOptions {
	readonly measures: Measures;
	/** Unit of figures without one; the job's where it is not given. */
	readonly unit?: FigureUnit | undefined;
	/** What the person says of the list. */
	readonly facts?: Partial<PackingFacts> | undefined;
}

const mostLines = 2000;
const longestField = 500;

const noFacts: PackingFacts = {
	listNumber: null,
	orderNumber: null,
	orderRevision: null,
	jobName: null,
	handsFrom: null,
	sizes: null,
	crates: { all: null, named: [] },
	pages: { all: null, named: [] }
};

const titleOf = (field: PackingField): string =>
	packingFields.find(({ value }) => value === field)?.title ?? field;

/**
 * Reads rows typed by hand. Lines count from 1, empty rows among them, so that a question finds its row. Fails only
 * when there is no line at all, or more than 2,000.
 */
export function typedPackingList(rows: readonly TypedLine[], options: TypedOptions): PackingReading {
	const failed = (message: string): PackingReading => ({ ok: false, place: 'the typed list', message });
	if (rows.length > mostLines)
		return failed(
			`${grouped(rows.length)} lines; at most ${grouped(mostLines)} are typed; bring in a file instead`
		);
	const questions: PackingQuestion[] = [];
	const ask = (
		line: number,
		field: PackingField,
		text: string,
		reason: string,
		readings: readonly string[] = []
	): null => {
		questions.push({
			line,
			place: `line ${line}, ${titleOf(field)}`,
			field,
			text: shown(text),
			reason,
			readings
		});
		return null;
	};
	const facts = { ...noFacts, ...options.facts };
	const unit = options.unit ?? (options.measures === 'imperial' ? 'in' : 'mm');
	const skipped: { line: number; why: string }[] = [];
	const lines: PackingLine[] = [];
	rows.forEach((row, at) => {
		const line = at + 1;
		const said = (field: PackingField): string => {
			if (field === 'kind' || field === 'earlier' || field === 'weight') return '';
			const text = oneLine(row[field] ?? '');
			return text.length > longestField ? '' : text;
		};
		const filled = packingFields.filter(({ value }) => !saysNothing(said(value)));
		for (const [field, text] of Object.entries(row))
			if (text.length > longestField)
				ask(
					line,
					packingFields.find(({ value }) => value === field)?.value ?? 'remark',
					text,
					`longer than ${longestField} characters; write it shorter`
				);
		if (filled.length === 0) {
			skipped.push({ line, why: 'an empty line' });
			return;
		}
		if (
			!(['orderLine', 'partId', 'mark', 'description'] as const).some((field) => !saysNothing(said(field)))
		) {
			ask(
				line,
				'description',
				'',
				'nothing says what part it is; write a description, a mark, a part id or the line of the order'
			);
			skipped.push({ line, why: 'nothing says what part it is' });
			return;
		}
		if (saysNothing(said('quantity')))
			ask(line, 'quantity', '', 'no quantity; write how many came, 0 or more');
		const cells = {
			line,
			cell: said,
			maybeQuantity: [],
			unitOf: () => null,
			feetOf: () => null
		};
		const manner = {
			unit,
			measures: options.measures,
			fractions: false,
			orderNumber: facts.orderNumber,
			crate: null
		};
		lines.push(new LineReader(cells, manner, ask).read());
	});
	if (lines.length === 0) return failed('no line says what came; write a description and a quantity');
	const named = new Set([
		...facts.crates.named,
		...lines.flatMap(({ crate }) => (crate === null ? [] : [crate]))
	]);
	const all = { ...facts, crates: { ...facts.crates, named: [...named] } };
	return {
		ok: true,
		sheet: 'the typed list',
		headerRow: 0,
		lines,
		facts: all,
		missing: missingFrom(all),
		columns: [],
		skipped,
		questions
	};
}
