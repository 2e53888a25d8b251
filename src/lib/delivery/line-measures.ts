/** Length and width of a line where they have no column of their own: in its size, in its words. */
import type { Claims } from './differ.ts';
import { lengthsIn } from './size.ts';
import type { Lot } from './wanted.ts';

/** Inches of a foot, and the most that a bare figure can be inches: 40 ft. */
const [fewestInches, mostInches] = [12, 480];

/**
 * What the column of sizes measures, nm, where it is no nominal size: the part has none, or its length is nearer. A bare
 * figure is inches, or millimetres where it is too much for inches.
 */
export function measuresInSize({ line, size }: Claims, { part, likeness }: Lot): readonly number[] {
	if (size === null || line.size === null || part.length === null) return [];
	const written = lengthsIn(line.size);
	const measures =
		written.length > 0
			? written
			: size.figures
					.filter((figure) => figure >= fewestInches)
					.map((figure) => figure * (figure > mostInches ? 1_000_000 : 25_400_000));
	if (part.size === '') return measures;
	const [nominal, ...more] = likeness.size.figures;
	const [measure, ...others] = measures;
	if (nominal === undefined || measure === undefined || more.length > 0 || others.length > 0) return [];
	return Math.abs(measure - part.length) < Math.abs(measure - nominal * 25_400_000) ? measures : [];
}

/**
 * The length and the width a line gives for a part: by its columns, else by its size or words. Of two measures without a
 * column of their own each is what it is nearer to. A length in the width column counts where it agrees.
 */
export function measuresOf(
	claims: Claims,
	lot: Lot,
	tolerance: number
): { readonly length: number | null; readonly width: number | null } {
	const { line, description } = claims;
	const { length, width } = lot.part;
	const near = (one: number, own: number | null): boolean => own !== null && Math.abs(one - own) <= tolerance;
	if (line.length !== null || length === null) return line;
	const inSize = measuresInSize(claims, lot);
	const free = inSize.length > 0 ? inSize : description.lengths;
	const [one, other, ...more] = free;
	if (
		one !== undefined &&
		other !== undefined &&
		more.length === 0 &&
		width !== null &&
		line.width === null
	) {
		const off = (a: number, b: number): number => Math.abs(a - length) + Math.abs(b - width);
		return off(one, other) <= off(other, one) ? { length: one, width: other } : { length: other, width: one };
	}
	if (line.width !== null && width === null && near(line.width, length))
		return { length: line.width, width: line.width };
	const said = free.filter((each) => !near(each, width));
	const [only] = said.length === 1 ? said : said.filter((each) => near(each, length));
	return { length: only ?? null, width: line.width };
}
