/**
 * A rule is read three ways, and they agree: compiled program, working, exact decimals. (The fourth, the workbook
 * formula recalculated by LibreOffice, is in tests/exchange/rulebook-workbook.test.ts.)
 */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { randomRule, type Figures, type RandomRule } from '../../../tests/random-rules.ts';
import { loadRuleBook, type ExactValue, type Read, type RuleBook } from './rule-book.ts';
import { unit } from '../quantity/units.ts';

/** The same rules every time: a run in a hundred ended its process, and could not be had again without its seed. */
const seed = 20_261_125;

function load({ source }: RandomRule): RuleBook {
	const loaded = loadRuleBook(source);
	if (!loaded.ok) throw new Error(loaded.problems.map((p) => `${p.rule}: ${p.problem}`).join('\n'));
	return loaded.book;
}

/** The value of a rule by the compiled program, in the unit of its definition; row 2 of 3, to see that rows keep apart. */
function computed(book: RuleBook, rule: string, figures: Figures): number {
	const program = book.program({ rules: book.order, given: [], capacity: 3 });
	for (const name of program.given) {
		const figure = figures.get(name) ?? '';
		const keys = book.keysOf(name);
		if (typeof figure === 'boolean') program.column(name)[1] = figure ? 1 : 0;
		else program.column(name)[1] = keys ? keys.indexOf(figure) : book.toBase(name, Number(figure));
	}
	program.run(3);
	return (program.column(rule)[1] ?? NaN) / unit(book.definition(rule)?.unit ?? '1').scale;
}

/** Values for the working; those of other rules by their own working. */
function reading(book: RuleBook, figures: Figures): Read {
	const read: Read = (name) => {
		if (book.rule(name)) return book.toBase(name, Number(book.explain(name, read).value ?? NaN));
		const figure = figures.get(name);
		if (typeof figure === 'boolean') return figure ? 1 : 0;
		if (figure === undefined) return null;
		return book.keysOf(name) ? figure : book.toBase(name, Number(figure));
	};
	return read;
}

function explained(book: RuleBook, rule: string, figures: Figures): number {
	return Number(book.explain(rule, reading(book, figures)).value ?? NaN);
}

function exact(book: RuleBook, rule: string, figures: Figures): number {
	const read = (name: string): ExactValue => {
		const figure = figures.get(name);
		if (book.rule(name)) return book.evaluateExact(name, read);
		if (figure === undefined) return null;
		return typeof figure === 'boolean' || book.keysOf(name) ? figure : new Decimal(figure);
	};
	return book.evaluateExact(rule, read).toNumber();
}

test('the compiled value, the value of the working and the exact value are one', () => {
	fc.assert(
		fc.property(randomRule, (random) => {
			const book = load(random);
			for (const figures of [random.figures, random.changed]) {
				const value = exact(book, random.rule, figures);
				const noise = 1e-9 * Math.max(Math.abs(value), Math.abs(exact(book, random.magnitude, figures)));
				const formula = book.rule(random.rule)?.formula;
				expect(Math.abs(computed(book, random.rule, figures) - value), formula).toBeLessThanOrEqual(noise);
				expect(Math.abs(explained(book, random.rule, figures) - value), formula).toBeLessThanOrEqual(noise);
			}
		}),
		{ numRuns: 1500, seed }
	);
});

test('the working is the same figure in whatever units it is shown', () => {
	const metric: Record<string, string> = {
		in: 'mm',
		ft: 'm',
		'lb/ft': 'kg/m',
		lb: 'kg',
		ft2: 'm2',
		psf: 'kPa'
	};
	fc.assert(
		fc.property(randomRule, (random) => {
			const book = load(random);
			const read = reading(book, random.figures);
			const own = book.explain(random.rule, read);
			const other = book.explain(
				random.rule,
				read,
				(definition) => metric[definition.unit] ?? definition.unit
			);
			const value = Number(own.value) * unit(own.unit).scale;
			const magnitude = Number(book.explain(random.magnitude, read).value);
			const noise = 1e-9 * Math.max(Math.abs(value), Math.abs(magnitude * unit(own.unit).scale));
			expect(Math.abs(Number(other.value) * unit(other.unit).scale - value)).toBeLessThanOrEqual(noise);
		}),
		{ numRuns: 500, seed }
	);
});
