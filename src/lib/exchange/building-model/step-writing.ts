/**
 * Whether a file is written as ISO 10303-21 asks. The library that reads models passes over what it does not understand:
 * a statement whose `;` is missing takes the next one with it, a number without its first digit turns into something
 * else. A door would be missing and nobody would know. So the writing is looked through first, and one mistake refuses
 * the file with its line.
 */

const deepest = 64;
const highestId = 4_294_967_295;

const code = (character: string): number => character.charCodeAt(0);
const [newLine, quote, doubleQuote, slash, star] = [10, code("'"), code('"'), code('/'), code('*')];
const [open, close, semicolon, hash, dot] = [code('('), code(')'), code(';'), code('#'), code('.')];
const [plus, minus, underscore, bang] = [code('+'), code('-'), code('_'), code('!')];
const [comma, dollar, equals, zero] = [code(','), code('$'), code('='), code('0')];

const isSpace = (byte: number): boolean => byte === 32 || (byte >= 9 && byte <= 13);
const isDigit = (byte: number): boolean => byte >= zero && byte <= zero + 9;
const isCapital = (byte: number): boolean => (byte >= 65 && byte <= 90) || byte === underscore;
const isSmall = (byte: number): boolean => byte >= 97 && byte <= 122;
const isExponent = (byte: number): boolean => byte === 69 || byte === 101;

/** Walks over the bytes of a file, token by token. */
class Writing {
	readonly #bytes: Uint8Array;
	#at = 0;
	#depth = 0;
	/** Where the statement began, or -1 between statements. */
	#start = -1;
	/** What the statement has outside brackets so far: `#=(` for a line of data, `word` or `word(` for others. */
	#form = '';
	/** The word that began the last statement but lines of data. */
	#last = '';

	constructor(bytes: Uint8Array) {
		this.#bytes = bytes;
	}

	/** The first mistake, with its line; null when there is none. */
	problem(): string | null {
		for (;;) {
			const problem = this.#token();
			if (problem !== null) return problem;
			if (this.#at >= this.#bytes.length) break;
		}
		if (this.#start >= 0) return this.#cutOff();
		if (this.#last !== 'END-ISO-10303-21') return 'its end (END-ISO-10303-21) is missing';
		return null;
	}

	#byte(at = this.#at): number {
		return this.#bytes[at] ?? 0;
	}

	#line(at: number): string {
		let lines = 1;
		for (let i = this.#bytes.indexOf(newLine); i >= 0 && i < at; i = this.#bytes.indexOf(newLine, i + 1))
			lines++;
		return `line ${lines}`;
	}

	#skipSpace(): void {
		while (this.#at < this.#bytes.length && isSpace(this.#byte())) this.#at++;
	}

	/** The whole number that stands here; NaN where there is none. */
	#digits(): number {
		let value = isDigit(this.#byte()) ? 0 : NaN;
		for (; isDigit(this.#byte()); this.#at++) value = value * 10 + this.#byte() - zero;
		return value;
	}

	#token(): string | null {
		this.#skipSpace();
		const at = this.#at;
		if (at >= this.#bytes.length) return null;
		const byte = this.#byte();
		if (byte === slash && this.#byte(at + 1) === star) return this.#comment(at);
		if (this.#start < 0) this.#start = at;
		this.#at++;
		switch (byte) {
			case quote:
			case doubleQuote:
				return this.#text(at, byte);
			case open:
				if (this.#depth === 0) this.#form += '(';
				if (++this.#depth > deepest)
					return `${this.#line(at)} has more than ${deepest} brackets in each other`;
				return null;
			case close:
				return --this.#depth < 0 ? `${this.#line(at)} has a ")" too many` : null;
			case semicolon:
				return this.#statementEnd(at);
			case hash: {
				const id = this.#digits();
				if (!(id >= 1 && id <= highestId))
					return `the "#" in ${this.#line(at)} is not followed by a number from 1 to ${highestId}`;
				if (this.#depth === 0) this.#form += '#';
				return null;
			}
			case equals:
				if (this.#depth === 0) this.#form += '=';
				return null;
			case comma:
			case dollar:
			case star:
				return null;
			case dot:
				while (isCapital(this.#byte()) || isDigit(this.#byte())) this.#at++;
				if (this.#byte() !== dot || this.#at === at + 1) return this.#misplaced(at);
				this.#at++;
				return null;
		}
		if (isDigit(byte) || plus === byte || minus === byte) return this.#number(at);
		if (isCapital(byte) || isSmall(byte) || byte === bang) return this.#keyword(at);
		return this.#misplaced(at);
	}

	#cutOff(): string {
		return `it ends in the middle of the statement in ${this.#line(this.#start)}`;
	}

	#misplaced(at: number): string {
		if (this.#at >= this.#bytes.length) return this.#cutOff();
		const sample = new TextDecoder('latin1')
			.decode(this.#bytes.subarray(at, at + 12))
			.replace(/[^\x20-\x7e]+.*$/su, '');
		return `${this.#line(at)} holds something that does not belong there${sample === '' ? '' : `: ${sample}`}`;
	}

	#comment(from: number): string | null {
		let at = this.#bytes.indexOf(star, from + 2);
		while (at >= 0 && this.#byte(at + 1) !== slash) at = this.#bytes.indexOf(star, at + 1);
		if (at < 0) return `the comment in ${this.#line(from)} has no end`;
		this.#at = at + 2;
		return null;
	}

	#text(from: number, mark: number): string | null {
		const end = this.#bytes.indexOf(mark, from + 1);
		if (end < 0) return `the text in ${this.#line(from)} has no end`;
		this.#at = end + 1;
		return null;
	}

	#number(from: number): string | null {
		this.#at = isDigit(this.#byte(from)) ? from : from + 1;
		if (Number.isNaN(this.#digits())) return this.#misplaced(from);
		if (this.#byte() === dot) {
			this.#at++;
			this.#digits();
		}
		if (isExponent(this.#byte())) {
			this.#at++;
			if (this.#byte() === plus || this.#byte() === minus) this.#at++;
			if (Number.isNaN(this.#digits())) return this.#misplaced(from);
		}
		return this.#byte() === dot ? this.#misplaced(from) : null;
	}

	/** Inside a statement a word names what stands in the brackets after it. */
	#keyword(from: number): string | null {
		let small = false;
		for (;;) {
			const byte = this.#byte();
			small ||= isSmall(byte);
			// `END-ISO-10303-21` is the only word with hyphens.
			if (!isCapital(byte) && !isSmall(byte) && !isDigit(byte) && (this.#form !== '' || byte !== minus))
				break;
			this.#at++;
		}
		small ||= isSmall(this.#byte(from));
		const end = this.#at;
		if (this.#form === '' && this.#depth === 0) {
			this.#last = new TextDecoder().decode(this.#bytes.subarray(from, Math.min(end, from + 40)));
			this.#form = 'word';
			return null;
		}
		this.#skipSpace();
		return small || this.#byte() !== open ? this.#misplaced(from) : null;
	}

	#statementEnd(at: number): string | null {
		const form = this.#form;
		if (this.#depth !== 0)
			return `the statement in ${this.#line(this.#start)} has a "(" too many or a ")" too few`;
		if (form !== '#=(' && form !== 'word' && form !== 'word(') {
			if (form.startsWith('#=(')) return `the ";" after ${this.#line(this.#start)} is missing`;
			if (form.startsWith('word')) return `a ";" before ${this.#line(at)} is missing`;
			return this.#misplaced(this.#start);
		}
		this.#start = -1;
		this.#form = '';
		return null;
	}
}

/**
 * The first mistake in the writing of a STEP file, as half a sentence with its line (`the text in line 12 has no end`);
 * null when there is none. Which words and attributes the schema knows is not looked at.
 */
export const writingProblem = (bytes: Uint8Array): string | null => new Writing(bytes).problem();
