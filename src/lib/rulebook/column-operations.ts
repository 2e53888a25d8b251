/**
 * The loops of a compiled program. Each maker returns a step that computes `count` rows of one column from others.
 * One maker for each combination of columns and constants, so that every loop stays simple for the machine.
 * NaN is a value that is not known; it runs through everything but `&&`, `||` and the branch of `if` not taken.
 */
import type { OneArgument } from './check-formula.ts';
import { powerOf } from './power.ts';
import { centsOf, ceilOf, floorOf, roundOf } from './rounding.ts';

export type Column = Float64Array;
/** A column or one number for every row. */
export type Operand = Column | number;
export type Step = (count: number) => void;

type Two = (out: Column, a: Operand, b: Operand) => Step;

/** Reads out of range never happen: every column has the program's capacity. The compiler drops the alternative. */
const at = (column: Column, i: number): number => column[i] ?? NaN;

/** A constant as a column, where a loop of its own is not worth it. */
function spread(operand: Operand, capacity: number): Column {
	return typeof operand === 'number' ? new Float64Array(capacity).fill(operand) : operand;
}

export const add: Two = (out, a, b) => {
	if (typeof a === 'number') return add(out, b, a);
	if (typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = at(a, i) + b;
		};
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = at(a, i) + at(b, i);
	};
};

export const subtract: Two = (out, a, b) => {
	if (typeof b === 'number') return add(out, a, -b);
	if (typeof a === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = a - at(b, i);
		};
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = at(a, i) - at(b, i);
	};
};

export const multiply: Two = (out, a, b) => {
	if (typeof a === 'number') return multiply(out, b, a);
	if (typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = at(a, i) * b;
		};
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = at(a, i) * at(b, i);
	};
};

/** Division by 0 is not known. */
export const divide: Two = (out, a, b) => {
	if (typeof b === 'number') {
		const divisor = b === 0 ? NaN : b;
		const column = spread(a, out.length);
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = at(column, i) / divisor;
		};
	}
	if (typeof a === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) {
				const divisor = at(b, i);
				out[i] = divisor === 0 ? NaN : a / divisor;
			}
		};
	return (count) => {
		for (let i = 0; i < count; i++) {
			const divisor = at(b, i);
			out[i] = divisor === 0 ? NaN : at(a, i) / divisor;
		}
	};
};

export const least: Two = (out, a, b) => {
	if (typeof a === 'number') return least(out, b, a);
	if (typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = Math.min(at(a, i), b);
		};
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = Math.min(at(a, i), at(b, i));
	};
};

export const greatest: Two = (out, a, b) => {
	if (typeof a === 'number') return greatest(out, b, a);
	if (typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = Math.max(at(a, i), b);
		};
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = Math.max(at(a, i), at(b, i));
	};
};

/** `a ≥ b` when the difference is above -noise, else not; not known when it is NaN. */
export function atLeast(out: Column, a: Operand, b: Operand, noise: number): Step {
	const limit = -noise;
	const first = spread(a, out.length);
	if (typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) {
				const difference = at(first, i) - b;
				out[i] = difference > limit ? 1 : difference <= limit ? 0 : NaN;
			}
		};
	return (count) => {
		for (let i = 0; i < count; i++) {
			const difference = at(first, i) - at(b, i);
			out[i] = difference > limit ? 1 : difference <= limit ? 0 : NaN;
		}
	};
}

/** `a = b` when the difference is less than the noise either way. */
export function equal(out: Column, a: Operand, b: Operand, noise: number): Step {
	const [first, second] = [spread(a, out.length), spread(b, out.length)];
	return (count) => {
		for (let i = 0; i < count; i++) {
			const difference = Math.abs(at(first, i) - at(second, i));
			out[i] = difference < noise ? 1 : difference >= noise ? 0 : NaN;
		}
	};
}

/** Keys by their index; none (-1) equals only none. */
export function sameKey(out: Column, a: Operand, b: Operand): Step {
	const first = spread(a, out.length);
	if (typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = at(first, i) === b ? 1 : 0;
		};
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = at(first, i) === at(b, i) ? 1 : 0;
	};
}

export const both: Two = (out, a, b) => {
	const [first, second] = [spread(a, out.length), spread(b, out.length)];
	return (count) => {
		for (let i = 0; i < count; i++) {
			const [x, y] = [at(first, i), at(second, i)];
			out[i] = x === 0 || y === 0 ? 0 : x * y;
		}
	};
};

export const either: Two = (out, a, b) => {
	const [first, second] = [spread(a, out.length), spread(b, out.length)];
	return (count) => {
		for (let i = 0; i < count; i++) {
			const [x, y] = [at(first, i), at(second, i)];
			out[i] = x === 1 || y === 1 ? 1 : x + y;
		}
	};
};

export function choose(out: Column, condition: Operand, a: Operand, b: Operand): Step {
	const flags = spread(condition, out.length);
	if (typeof a === 'number' && typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) {
				const flag = at(flags, i);
				out[i] = flag === 1 ? a : flag === 0 ? b : NaN;
			}
		};
	if (typeof a === 'number') {
		const second = spread(b, out.length);
		return (count) => {
			for (let i = 0; i < count; i++) {
				const flag = at(flags, i);
				out[i] = flag === 1 ? a : flag === 0 ? at(second, i) : NaN;
			}
		};
	}
	if (typeof b === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) {
				const flag = at(flags, i);
				out[i] = flag === 1 ? at(a, i) : flag === 0 ? b : NaN;
			}
		};
	return (count) => {
		for (let i = 0; i < count; i++) {
			const flag = at(flags, i);
			out[i] = flag === 1 ? at(a, i) : flag === 0 ? at(b, i) : NaN;
		}
	};
}

const scalars: Record<Exclude<OneArgument, 'square'>, (out: Column, a: Column) => Step> = {
	ceil: (out, a) => (count) => {
		for (let i = 0; i < count; i++) out[i] = ceilOf(at(a, i));
	},
	floor: (out, a) => (count) => {
		for (let i = 0; i < count; i++) out[i] = floorOf(at(a, i));
	},
	cents: (out, a) => (count) => {
		for (let i = 0; i < count; i++) out[i] = centsOf(at(a, i));
	},
	abs: (out, a) => (count) => {
		for (let i = 0; i < count; i++) out[i] = Math.abs(at(a, i));
	},
	sqrt: (out, a) => (count) => {
		for (let i = 0; i < count; i++) out[i] = Math.sqrt(at(a, i));
	}
};

export const scalar = (name: Exclude<OneArgument, 'square'>, out: Column, a: Operand): Step =>
	scalars[name](out, spread(a, out.length));

export function round(out: Column, a: Operand, digits: number): Step {
	const column = spread(a, out.length);
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = roundOf(at(column, i), digits);
	};
}

export function power(out: Column, base: Operand, exponent: Operand): Step {
	const first = spread(base, out.length);
	if (typeof exponent === 'number')
		return (count) => {
			for (let i = 0; i < count; i++) out[i] = powerOf(at(first, i), exponent);
		};
	return (count) => {
		for (let i = 0; i < count; i++) out[i] = powerOf(at(first, i), at(exponent, i));
	};
}

/** The attribute of the row that a key picks; `none` where the key is none. `values` are in the order of the keys. */
export function gather(out: Column, key: Operand, values: Column, none: number): Step {
	const keys = spread(key, out.length);
	return (count) => {
		for (let i = 0; i < count; i++) {
			const row = at(keys, i);
			out[i] = row >= 0 ? at(values, row) : none;
		}
	};
}

/** 1 where a number is known, else 0. */
export function isKnown(out: Column, a: Operand): Step {
	const column = spread(a, out.length);
	return (count) => {
		for (let i = 0; i < count; i++) {
			const value = at(column, i);
			out[i] = Number.isNaN(value) ? 0 : 1;
		}
	};
}

/** The key that others make together: `values` has its index for each of their combinations, the last key fastest. */
export function joinKeys(
	out: Column,
	given: readonly Operand[],
	sizes: readonly number[],
	values: Column
): Step {
	const keys = given.map((operand, j) => ({ column: spread(operand, out.length), size: sizes[j] ?? 0 }));
	return (count) => {
		for (let i = 0; i < count; i++) {
			let place = 0;
			for (const { column, size } of keys) {
				const key = at(column, i);
				place = key >= 0 && place >= 0 ? place * size + key : -1;
			}
			out[i] = place >= 0 ? at(values, place) : -1;
		}
	};
}

/** A named function, a row at a time; its arguments and its result in its own units. */
export function callFunction(
	out: Column,
	compute: (...values: number[]) => number,
	given: readonly Operand[],
	scales: readonly number[],
	resultScale: number
): Step {
	const columns = given.map((operand, place) => ({
		column: spread(operand, out.length),
		scale: scales[place] ?? 1,
		place
	}));
	const values = columns.map(() => 0);
	return (count) => {
		for (let i = 0; i < count; i++) {
			let known = true;
			for (const { column, scale, place } of columns) {
				const value = at(column, i) / scale;
				values[place] = value;
				known &&= !Number.isNaN(value);
			}
			out[i] = known ? compute(...values) * resultScale : NaN;
		}
	};
}
