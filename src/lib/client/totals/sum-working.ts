/** The working of a sum: every row's share, each of which opens its own working. Loaded when first asked for. */
import type { JobHeading } from '../../changes/answer.ts';
import { formatQuantity } from '../../quantity/format.ts';
import type { Explanation } from '../../rulebook/rule-book.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { buildEngine } from '../../takeoff/engine.ts';
import type { OpeningRow } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { unitFor } from '../../takeoff/vocabulary.ts';
import type { Explain } from '../why/working.svelte.ts';
import type { SumQuestion } from './sum-terms.ts';

/** Ids inside a working name a quantity and its row: `curtainArea@row`. */
const join = (quantity: string, row: string): string => `${quantity}@${row}`;

/** @returns what explains the sum, and from there every number under it. */
export function explainSum(
	question: SumQuestion,
	job: JobHeading,
	book: TechnicalBook,
	rows: readonly OpeningRow[]
): Explain {
	const built = buildEngine(book);
	if (!built.ok) return () => null;
	const { engine } = built;
	const openings = engine
		.takeoff(rows, job.measures)
		.openings.filter(
			(opening) => opening.computed && (question.phase === undefined || opening.phase === question.phase)
		);
	const byRow = new Map(openings.map((opening) => [opening.row.id, opening]));

	const whole = (): Explanation => {
		const from = question.terms.flatMap((term) =>
			openings.flatMap((opening) => {
				if (term.where !== undefined && opening.get(term.where) !== term.is) return [];
				const value = opening.get(term.quantity);
				const definition = engine.rules.definition(term.quantity);
				if (typeof value !== 'number' || value === 0 || !definition) return [];
				const each = formatQuantity(value, unitFor(definition, job.measures));
				return [
					{
						name: join(term.quantity, opening.row.id),
						title: `${nameOf(opening)}${question.terms.length > 1 ? `, ${definition.title.toLowerCase()}` : ''}`,
						text: opening.quantity === 1 ? each : `${opening.quantity} × ${each}`,
						canOpen: true
					}
				];
			})
		);
		const names = [
			...new Set(question.terms.map((term) => engine.rules.definition(term.quantity)?.title ?? term.quantity))
		];
		return {
			id: 'sum',
			title: question.title,
			unit: '1',
			formula: `sum over all openings: ${names.join(' + ')}`,
			substituted: '',
			value: null,
			text: question.text,
			why: 'Each opening’s figure, times the openings it stands for, added up.',
			source: { basis: 'definition', text: 'A sum.' },
			from,
			steps: question.then ?? []
		};
	};

	return (id) => {
		const [quantity, row] = id.split('@');
		const opening = row === undefined ? undefined : byRow.get(row);
		if (!opening || quantity === undefined) return id === 'sum' ? whole() : null;
		const explanation = engine.explain(opening, quantity, job.measures);
		return {
			...explanation,
			title: `${explanation.title} of ${nameOf(opening)}`,
			from: explanation.from.map((part) => ({ ...part, name: join(part.name, opening.row.id) }))
		};
	};
}

const nameOf = (opening: OpeningTakeoff): string => opening.openingId ?? opening.mark;
