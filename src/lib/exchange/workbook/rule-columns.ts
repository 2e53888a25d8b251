/** Columns of quantities: inputs read over from Openings, rules as live formulas, values looked up in the Shop book. */
import { formatLength } from '../../quantity/length.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { scopes } from '../../shopbook/tables.ts';
import { isInputId } from '../../takeoff/inputs.ts';
import { summable } from '../../takeoff/totals.ts';
import { inputQuantities } from '../../takeoff/vocabulary.ts';
import { formatOf, headingOf, look, rightText } from './look.ts';
import { here, type SheetName } from './places.ts';
import type { PlannedColumn } from './planned-column.ts';
import { inputCell, inputFigure } from './sheet-openings.ts';
import { longestKey, widthFor } from './sheet-writing.ts';
import {
	complete,
	guarded,
	live,
	lookUp,
	openingAt,
	resultsOf,
	sumOfResults,
	sumOver,
	type WorkbookJob
} from './workbook-job.ts';

/** Lengths that people read in feet and inches. */
const alsoInFeet: ReadonlySet<string> = new Set([
	'openingWidth',
	'openingHeight',
	'guideDistance',
	'curtainWidth',
	'bracketDistance',
	'guideLength'
]);

/** Characters of the longest key, or of a figure. */
function leastWidth(job: WorkbookJob, { id, kind }: QuantityDefinition): number {
	if (kind === 'key') return longestKey(job.engine.rules.keysOf(id) ?? []);
	return kind === 'flag' ? 6 : 8;
}

/** A live text in feet and inches to the sixteenth beside a length in inches; empty for 0 and less. */
const feetInches = (cell: string): string =>
	`IF(N(${cell})>0,INT(ROUND(${cell}*16,0)/192)&"'-"&TRIM(TEXT(MOD(ROUND(${cell}*16,0),192)/16,"0 #/##"))&"""","")`;

function withFeet(
	job: WorkbookJob,
	{ id, title }: QuantityDefinition,
	planned: PlannedColumn
): PlannedColumn[] {
	if (job.measures !== 'imperial' || !alsoInFeet.has(id)) return [planned];
	const feet: PlannedColumn = {
		name: `${id} in feet`,
		id,
		band: planned.band,
		column: () => ({
			heading: `${title} (ft in)`,
			width: 10,
			style: look('worked', rightText),
			cell: live(feetInches(job.places.cell(id, 'Takeoff')), (at) => {
				const length = openingAt(job, at).get(id);
				return typeof length === 'number' && length > 0 ? formatLength(Math.round(length), 'feetInches') : '';
			})
		})
	};
	return [planned, feet];
}

/** Inputs that the rules, the lookups or the price read. A blank one is an empty text, never 0. */
export function inputColumns(job: WorkbookJob): PlannedColumn[] {
	const books = [job.engine.rules, ...(job.pricing ? [job.pricing.rules] : [])];
	const used = new Set(
		books.flatMap((rules) =>
			rules.order.flatMap((id) => rules.namesIn(id).flatMap((name) => [name, rules.keyOfName(name) ?? name]))
		)
	);
	return inputQuantities.flatMap((quantity) => {
		const { id, title, kind } = quantity;
		if (!used.has(id) || !isInputId(id)) return [];
		const unit = job.places.unit(id);
		const heading = headingOf(title, unit);
		const cell = inputCell(id, here);
		return withFeet(job, quantity, {
			name: id,
			band: 'Inputs, from Openings',
			column: () => ({
				heading,
				width: widthFor(heading, leastWidth(job, quantity)),
				style: look('worked', formatOf(quantity, unit)),
				cell: live(
					kind === 'key' ? `${cell}&""` : `IF(ISNUMBER(${cell}),${cell},"")`,
					(at) => inputFigure(openingAt(job, at).cell(id), unit) ?? ''
				)
			})
		});
	});
}

/** One rule of the technical book as a column, with its sum over the job where it has one. */
export function ruleColumns(
	job: WorkbookJob,
	rule: QuantityDefinition,
	sheet: SheetName,
	band: string,
	title = rule.title
): PlannedColumn[] {
	const { id } = rule;
	const unit = job.places.unit(id);
	const result = resultsOf(job, id);
	return withFeet(job, rule, {
		name: id,
		band,
		column: () => {
			const formula = job.places.formula(job.engine.rules, id, sheet);
			const format = formatOf(rule, unit);
			const heading = headingOf(formula === null ? `${title}: value, computed by the app` : title, unit);
			const summed = summedIds.has(id) || id.endsWith('Hours');
			return {
				heading,
				width: widthFor(heading, leastWidth(job, rule)),
				style: look(formula === null ? 'value' : 'worked', format),
				cell: formula === null ? result : live(guarded(job, formula, [id], sheet), result),
				...(summed
					? {
							total: {
								value: { formula: sumOver(job, id, sheet), result: sumOfResults(job, result) },
								style: look('total', format)
							}
						}
					: {})
			};
		}
	});
}

const summedIds: ReadonlySet<string> = new Set(summable);

const tableOf: ReadonlyMap<string, string> = new Map(scopes.map(({ name, table }) => [name, table]));

/** Every value of the Shop book that some rule reads, by what picks its row. */
export function bookColumns(job: WorkbookJob): PlannedColumn[] {
	const { rules } = job.engine;
	const used = new Set(rules.order.flatMap((id) => rules.namesIn(id)));
	const names = scopes.flatMap((scope) => [...used].filter((name) => name.startsWith(`${scope.name}.`)));
	return names.map((name): PlannedColumn => {
		const [scope = '', attribute = ''] = name.split('.');
		const table = tableOf.get(scope) ?? '';
		const key = rules.keyOfName(name) ?? '';
		const definition = rules.definition(name);
		if (!definition) throw new Error(`${name} is not a name of this rule book`);
		return {
			name,
			band: `From the Shop book: ${scope}`,
			aside: true,
			column: () => {
				const heading = headingOf(definition.title, definition.unit);
				return {
					heading,
					width: widthFor(heading, 8),
					style: look('worked', definition.kind === 'key' ? { align: 'left' } : { align: 'right' }),
					cell: live(
						`IF(${job.places.cell(complete, 'Takeoff')},${lookUp(
							job.places.cell(key, 'Takeoff'),
							job.book.keys(table),
							job.book.values(table, attribute),
							definition.kind === 'key'
						)},"")`,
						resultsOf(job, name)
					)
				};
			}
		};
	});
}
