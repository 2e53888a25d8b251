/**
 * Lengths as people type and read them.
 *
 * Exact: everything is reckoned in whole-number fractions and the result is a whole number of nanometres
 * (1 in = 25 400 000 nm by definition, so 1/64 in = 396 875 nm). No float takes part before the result.
 *
 * What is read one documented way:
 * - A bare number takes the unit of the job. In `2 * (3'-4")` the 2 is a factor; in `10 + 6"` the 10 is a length.
 * - A hyphen with a space on both sides subtracts: `12' - 6"` is 11'-6". Any other hyphen after feet joins the
 *   inches to them: `12'-6"`, `12' -6"` and `12'- 6"` are all 12'-6".
 * - After feet, a number without a mark is inches: `12'6` and `12' 6` are 12'-6".
 * - `12-6.5` is 12'-6 1/2" in an inch job. In a millimetre job it is refused, unless an inch mark follows (`12-6.5"`).
 * - A hyphen straight before a fraction joins it to the whole number: `12-1/2"` is twelve and a half inches,
 *   `12-6-1/2` is 12'-6 1/2".
 * - `12.6'` is 12.6 feet, 12'-7.2".
 * - `10/4` is refused: it is written both for 10'-4" and for a division. Divide with spaces: `10 / 4`.
 * - `1/2` without spaces is a fraction; to divide by one, put it in brackets.
 * - A dot is always the decimal mark. A comma is one in a millimetre job only (`3,81 m`), and not where it could
 *   stand for thousands (`1,234`).
 */
import { readDecimal } from './decimal-text.ts';

type LengthUnit = 'in' | 'mm';
export type LengthStyle = 'feetInches' | 'inches' | 'mm';
export type LengthReading = { ok: true; nm: number } | { ok: false; reason: string };

const longestText = 120;
/** 1 km. */
const longestNm = 1_000_000_000_000n;

const inchNm = 25_400_000n;
const footNm = 12n * inchNm;
const sixteenthNm = 1_587_500n;
const sixtyFourthNm = 396_875n;
const millimetreNm = 1_000_000n;

type UnitName = 'ft' | 'in' | 'mm' | 'cm' | 'm';

const unitNm: Readonly<Record<UnitName, bigint>> = {
	ft: footNm,
	in: inchNm,
	mm: millimetreNm,
	cm: 10_000_000n,
	m: 1_000_000_000n
};

const unitWords = new Map<string, UnitName>([
	["'", 'ft'],
	['ft', 'ft'],
	['foot', 'ft'],
	['feet', 'ft'],
	['"', 'in'],
	['in', 'in'],
	['inch', 'in'],
	['inches', 'in'],
	['mm', 'mm'],
	['millimetre', 'mm'],
	['millimetres', 'mm'],
	['millimeter', 'mm'],
	['millimeters', 'mm'],
	['cm', 'cm'],
	['centimetre', 'cm'],
	['centimetres', 'cm'],
	['centimeter', 'cm'],
	['centimeters', 'cm'],
	['m', 'm'],
	['metre', 'm'],
	['metres', 'm'],
	['meter', 'm'],
	['meters', 'm']
]);

const vulgarFractions = new Map<string, string>([
	['½', '1/2'],
	['⅓', '1/3'],
	['⅔', '2/3'],
	['¼', '1/4'],
	['¾', '3/4'],
	['⅕', '1/5'],
	['⅖', '2/5'],
	['⅗', '3/5'],
	['⅘', '4/5'],
	['⅙', '1/6'],
	['⅚', '5/6'],
	['⅐', '1/7'],
	['⅛', '1/8'],
	['⅜', '3/8'],
	['⅝', '5/8'],
	['⅞', '7/8'],
	['⅑', '1/9'],
	['⅒', '1/10']
]);

const superscripts = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const subscripts = '₀₁₂₃₄₅₆₇₈₉';

const plainDigits = (text: string, from: string): string =>
	Array.from(text, (digit) => String(from.indexOf(digit))).join('');

/** One spelling for every mark, dash, space and fraction. */
function plainSpelling(text: string): string {
	return text
		.replace(
			/(\d?)([⁰¹²³⁴-⁹]+)[⁄/]([₀-₉]+)/gu,
			(_, before: string, top: string, bottom: string) =>
				`${before}${before === '' ? '' : ' '}${plainDigits(top, superscripts)}/${plainDigits(bottom, subscripts)}`
		)
		.replace(/(\d?)([½⅓⅔¼¾⅕-⅞⅐⅑⅒])(?=(\d?))/gu, (_, before: string, sign: string, after: string) => {
			const written = vulgarFractions.get(sign) ?? sign;
			return `${before}${before === '' ? '' : ' '}${written}${after === '' ? '' : ' '}`;
		})
		.replace(/[’‘‛′‵ʹʼ´`＇]/gu, "'")
		.replace(/[”“„‟″‶ʺ＂]/gu, '"')
		.replace(/''/gu, '"')
		.replace(/[‐‑‒–—−]/gu, '-')
		.replace(/⁄/gu, '/')
		.replace(/\s+/gu, ' ')
		.trim()
		.toLowerCase();
}

/** A value on the way: `n / d`, a length in nm or a plain number that has not found its unit yet. */
interface Value {
	readonly n: bigint;
	readonly d: bigint;
	readonly kind: 'plain' | 'length';
}

interface Mixed {
	readonly n: bigint;
	readonly d: bigint;
	/** Without decimals or a fraction. */
	readonly whole: boolean;
	/** A fraction joined on by a hyphen. */
	readonly hyphen: boolean;
	readonly text: string;
}

/** Says why a text is not a length. Never leaves this file. */
class Refusal extends Error {}

/** The part of a text that goes into a message. */
function shown(text: string): string {
	const plain = text.replace(/\p{Cc}/gu, ' ');
	return plain.length > 40 ? `${plain.slice(0, 40)}…` : plain;
}

class LengthReader {
	readonly #text: string;
	readonly #unit: LengthUnit;
	#at = 0;

	constructor(text: string, unit: LengthUnit) {
		this.#text = text;
		this.#unit = unit;
	}

	/** The whole text as one length. */
	read(): Value {
		const value = this.#asLength(this.#sum());
		this.#skipSpace();
		if (this.#at < this.#text.length) throw this.#unexpected();
		return value;
	}

	#skipSpace(): void {
		this.#take(/ */y);
	}

	/** Takes what the sticky pattern finds here. */
	#take(pattern: RegExp): RegExpExecArray | null {
		pattern.lastIndex = this.#at;
		const match = pattern.exec(this.#text);
		if (match) this.#at += match[0].length;
		return match;
	}

	/** What the sticky pattern finds here, left in place. */
	#looksLike(pattern: RegExp): string | null {
		pattern.lastIndex = this.#at;
		return pattern.exec(this.#text)?.[0] ?? null;
	}

	#sees(pattern: RegExp): boolean {
		return this.#looksLike(pattern) !== null;
	}

	#unexpected(): Refusal {
		const rest = this.#text.slice(this.#at).trim();
		if (this.#sees(/ *-/y) && this.#at > 0 && this.#text.charAt(this.#at - 1) !== '-') {
			return new Refusal(`"${shown(rest)}" is not clear; write a space on both sides of - to subtract`);
		}
		if (this.#sees(/ *(?:x|×|by )/y)) {
			return new Refusal('two sizes in one place; write one length here and the other in its own column');
		}
		if (this.#sees(/ *\([\d(]/y)) return new Refusal('no operator before "("; write * or + before it');
		if (this.#sees(/ *[\d.,]/y) && this.#at > 0) {
			const before = this.#text.slice(0, this.#at).trim();
			if (/(?:^|\D)\d{1,3}$/u.test(before) && /^\d{3}(?!\d)/u.test(rest)) {
				return new Refusal(
					`"${shown(before)} ${shown(rest)}" has a space in a number; write it without the space`
				);
			}
			return new Refusal(`"${shown(before)}" and "${shown(rest)}" stand side by side; write + between them`);
		}
		if (rest === '') return new Refusal('it ends too early; write the length that is missing');
		return new Refusal(`"${shown(rest)}" can’t be read as a length; write ${example(this.#unit)}`);
	}

	#asLength(value: Value): Value {
		if (value.kind === 'length') return value;
		return { n: value.n * unitNm[this.#unit], d: value.d, kind: 'length' };
	}

	#sum(): Value {
		let left = this.#product();
		for (;;) {
			const operator = this.#take(/ - | *\+ */y);
			if (!operator) return left;
			const sign = operator[0].includes('+') ? 1n : -1n;
			let right = this.#product();
			if (left.kind !== right.kind) [left, right] = [this.#asLength(left), this.#asLength(right)];
			left = { n: left.n * right.d + sign * right.n * left.d, d: left.d * right.d, kind: left.kind };
		}
	}

	#product(): Value {
		let left = this.#factor();
		for (;;) {
			const operator = this.#take(/ *([*/÷]) */y)?.[1];
			if (operator === undefined) return left;
			const fraction = operator === '*' ? null : this.#looksLike(/(?:\d+(?: |-))?\d+\/\d+/y);
			if (fraction !== null) {
				throw new Refusal(
					`division by ${fraction} is not clear; write brackets, (${fraction}), or its value`
				);
			}
			const right = this.#factor();
			if (operator === '*') {
				if (left.kind === 'length' && right.kind === 'length') {
					throw new Refusal(`a length times a length is an area; write a length times a plain number`);
				}
				const kind = left.kind === 'length' ? left.kind : right.kind;
				left = { n: left.n * right.n, d: left.d * right.d, kind };
			} else {
				if (right.kind === 'length') {
					throw new Refusal(`only a plain number divides a length; write 12' / 2, or 1/2" for a fraction`);
				}
				if (right.n === 0n) throw new Refusal('it divides by 0; write a divisor other than 0');
				const sign = right.n < 0n ? -1n : 1n;
				left = { n: sign * left.n * right.d, d: sign * left.d * right.n, kind: left.kind };
			}
		}
	}

	#factor(): Value {
		this.#skipSpace();
		const sign = this.#take(/([+-]) ?/y)?.[1] === '-' ? -1n : 1n;
		let value: Value;
		if (this.#take(/\(/y)) {
			value = this.#sum();
			this.#skipSpace();
			if (!this.#take(/\)/y)) {
				throw this.#at < this.#text.length
					? this.#unexpected()
					: new Refusal('a "(" is not closed; write the ")" that is missing');
			}
		} else {
			value = this.#literal();
		}
		return { ...value, n: sign * value.n };
	}

	/** One length as written, feet and inches together, or a bare number. */
	#literal(): Value {
		const first = this.#mixed();
		const unit = this.#unitWord();
		if (unit === 'ft') return this.#inchesAfter(first);
		if (unit !== null) return { n: first.n * unitNm[unit], d: first.d, kind: 'length' };
		if (this.#sees(/-\.?\d/y)) {
			if (!first.whole) throw this.#unexpected();
			this.#at++;
			const inches = this.#mixed();
			const mark = this.#unitWord();
			const both = `${first.text}-${inches.text}`;
			if (mark !== null && mark !== 'in') {
				throw new Refusal(`"${both}" with a unit of ${mark} is not clear; write ${example(this.#unit)}`);
			}
			if (mark === null && this.#unit === 'mm') {
				throw new Refusal(
					`"${both}" could be feet and inches or a subtraction; write ${first.text}'-${inches.text}" or ${first.text} - ${inches.text}`
				);
			}
			return this.#feetAndInches(first, inches);
		}
		if (first.hyphen && this.#unit === 'mm') {
			throw new Refusal(
				`"${first.text}" has no unit; write ${first.text}" for inches, or millimetres with decimals`
			);
		}
		return { n: first.n, d: first.d, kind: 'plain' };
	}

	/** What follows a foot mark: nothing, or inches, joined on by nothing, a space or a hyphen without two spaces. */
	#inchesAfter(feet: Mixed): Value {
		if (!this.#sees(/ - /y) && this.#take(/ ?(?:- ?)?(?=[\d.])/y)) {
			const inches = this.#mixed();
			const unit = this.#unitWord();
			if (unit === null || unit === 'in') return this.#feetAndInches(feet, inches);
			throw new Refusal(`${feet.text}' and ${inches.text} ${unit} do not go together; write + between them`);
		}
		return { n: feet.n * footNm, d: feet.d, kind: 'length' };
	}

	#feetAndInches(feet: Mixed, inches: Mixed): Value {
		if (!feet.whole) {
			throw new Refusal(
				`${feet.text} feet and ${inches.text} inches together; write whole feet, such as 12'-6 1/2"`
			);
		}
		const n = feet.n * footNm * inches.d + inches.n * inchNm;
		if (inches.n >= 12n * inches.d) {
			const carried = n % (inches.d * sixteenthNm) === 0n;
			const hint = carried ? feetInches(n / (inches.d * sixteenthNm)) : 'less than 12 inches after the feet';
			throw new Refusal(`${inches.text} inches after feet is a foot or more; write ${hint}`);
		}
		return { n, d: inches.d, kind: 'length' };
	}

	#unitWord(): UnitName | null {
		const start = this.#at;
		const word = this.#take(/ ?(?:(['"])|([a-z]+)\.?)/y);
		const unit = word ? unitWords.get(word[1] ?? word[2] ?? '') : undefined;
		if (unit === undefined) this.#at = start;
		return unit ?? null;
	}

	/** `6`, `6.5`, `1/2`, `6 1/2` or `6-1/2`. */
	#mixed(): Mixed {
		const fraction = this.#take(/(?:(\d+)( |-))?(\d+)\/(\d+)(?![\d.,])/y);
		if (fraction) {
			const [text, whole = '0', joint, top = '', bottom = ''] = fraction;
			const [n, d] = [BigInt(top), BigInt(bottom)];
			if (n >= d) {
				const hints = [
					...(joint === undefined ? [`${top}'-${bottom}" for feet and inches`] : []),
					...(d === 0n ? [] : [`${top} / ${bottom} with spaces for a division`])
				];
				throw new Refusal(
					`"${top}/${bottom}" is not a fraction below 1; write ${hints.join(', or ') || example(this.#unit)}`
				);
			}
			return { n: BigInt(whole) * d + n, d, whole: false, hyphen: joint === '-', text };
		}
		const number = this.#take(/[\d.,]+/y)?.[0];
		if (number === undefined) throw this.#unexpected();
		const read = readDecimal(number, this.#unit === 'mm' ? 'decimal' : 'refused');
		if (!read.ok) throw new Refusal(read.reason);
		const { digits, places } = read.value;
		return { n: digits, d: 10n ** BigInt(places), whole: places === 0, hyphen: false, text: number };
	}
}

const example = (unit: LengthUnit): string =>
	unit === 'in'
		? `a length such as 12'-6 1/2", 150.5 or 3.81 m`
		: `a length such as 3810, 3.81 m or 12'-6 1/2"`;

const magnitude = (n: bigint): bigint => (n < 0n ? -n : n);

/** The whole number nearest to `n / d` (`d` > 0), halves away from zero. */
function nearest(n: bigint, d: bigint): bigint {
	const size = (2n * magnitude(n) + d) / (2n * d);
	return n < 0n ? -size : size;
}

/** What to write instead of a length finer than a nanometre. */
function nearestPossible({ n, d }: Value, unit: LengthUnit): string {
	const inMillimetres = exactMillimetres(nearest(n, d));
	if (unit === 'mm') return inMillimetres;
	return `${inches(nearest(n, d * sixtyFourthNm), 64n)} or ${inMillimetres}`;
}

/** Whole nanometres as millimetres with as many decimals as it takes. */
function exactMillimetres(nm: bigint): string {
	const size = magnitude(nm);
	const decimals = String(size % millimetreNm)
		.padStart(6, '0')
		.replace(/0+$/u, '');
	return `${nm < 0n ? '-' : ''}${size / millimetreNm}${decimals === '' ? '' : `.${decimals}`} mm`;
}

/**
 * Reads a length. A bare number takes `unit`.
 *
 * Feet and inches (`12'-6 1/2"`, `12' 6.5"`, `12 ft 6 in`), inches (`150 1/2"`, `150.5`), `mm`, `cm`, `m`; straight,
 * curly and prime marks, two apostrophes for inches, one-sign fractions (`6½`); a leading minus; sums and
 * differences with a space on both sides of the minus, products with plain factors, division by a plain number,
 * brackets. See the top of this file for what is read one documented way.
 *
 * The result is exact: a whole number of nanometres, at most 1 km either way. Whatever is finer, longer than 120
 * characters, or can't be read is refused; the reason says what is wrong and, after a semicolon, what to write.
 */
export function parseLength(text: string, unit: LengthUnit): LengthReading {
	if (text.length > longestText) {
		return { ok: false, reason: `longer than ${longestText} characters; write ${example(unit)}` };
	}
	const plain = plainSpelling(text);
	if (plain === '') return { ok: false, reason: `nothing is there; write ${example(unit)}` };
	if (!/\d/u.test(plain)) {
		return {
			ok: false,
			reason: `"${shown(text.trim())}" is not a length; write ${example(unit)}, or leave it empty`
		};
	}
	try {
		const { n, d } = new LengthReader(plain, unit).read();
		if (magnitude(n) > longestNm * d) {
			return { ok: false, reason: `longer than 1 km; write ${example(unit)}` };
		}
		if (n % d !== 0n) {
			return {
				ok: false,
				reason: `finer than a nanometre; write ${nearestPossible({ n, d, kind: 'length' }, unit)}`
			};
		}
		return { ok: true, nm: Number(n / d) };
	} catch (problem) {
		if (problem instanceof Refusal) return { ok: false, reason: problem.message };
		throw problem;
	}
}

/** `150 1/2"` from a whole number of `parts` of an inch (16 or 64). */
function inches(count: bigint, parts: bigint): string {
	const size = magnitude(count);
	let [top, bottom] = [size % parts, parts];
	while (top !== 0n && top % 2n === 0n) [top, bottom] = [top / 2n, bottom / 2n];
	const whole = size / parts;
	const figures = [
		...(whole !== 0n || top === 0n ? [String(whole)] : []),
		...(top === 0n ? [] : [`${top}/${bottom}`])
	];
	return `${count < 0n ? '-' : ''}${figures.join(' ')}"`;
}

/**
 * Writes a length in nanometres for people.
 *
 * `feetInches` `12'-6 1/2"` and `inches` `150 1/2"`: to the sixteenth, halves away from zero, fractions in lowest
 * terms, a full foot carried. `mm`: `3810 mm`, to the tenth where it takes one: `3813.5 mm`. Never `-0`.
 * A computed length is first rounded to the whole nanometre, which takes up the noise of floats.
 * @throws RangeError when `nm` is not a finite number.
 */
export function formatLength(nm: number, style: LengthStyle): string {
	if (!Number.isFinite(nm)) throw new RangeError(`a length of ${nm} nm can’t be written`);
	const exact = BigInt(Math.round(nm));
	if (style === 'mm') return exactMillimetres(nearest(exact, 100_000n) * 100_000n);
	const sixteenths = nearest(exact, sixteenthNm);
	return style === 'inches' ? inches(sixteenths, 16n) : feetInches(sixteenths);
}

function feetInches(sixteenths: bigint): string {
	const size = magnitude(sixteenths);
	const [feet, rest] = [size / 192n, size % 192n];
	// Under an inch after the feet, the inches are written as 0: 12'-0 1/2".
	const zero = rest > 0n && rest < 16n ? '0 ' : '';
	return `${sixteenths < 0n ? '-' : ''}${feet}'-${zero}${inches(rest, 16n)}`;
}

/**
 * Writes a length of whole nanometres so that reading it gives the very same one, whatever the unit of the job: in
 * inches where it is a whole number of 64ths and `unit` is `in` (`150 1/64"`), else in millimetres with as many
 * decimals as it takes (`303.2125 mm`).
 * @throws RangeError when `nm` is not a whole number.
 */
export function exactLength(nm: number, unit: LengthUnit): string {
	if (!Number.isSafeInteger(nm)) throw new RangeError(`${nm} is not a whole number of nanometres`);
	const exact = BigInt(nm);
	if (unit === 'in' && exact % sixtyFourthNm === 0n) return inches(exact / sixtyFourthNm, 64n);
	return exactMillimetres(exact);
}
