/** The exact coil, to check the closed form by. */
import type { NamedFunction } from '../rulebook/definition.ts';

/**
 * Length of an Archimedean spiral between two diameters: L = (b/2)·[φ√(1+φ²) + asinh φ] from φ₁ = D₁/2b to φ₂ = D₂/2b,
 * b = t/2π. Any one unit of length for all three; D₂ ≥ D₁ ≥ 0, t > 0.
 *
 * @param inner D₁, inner diameter
 * @param outer D₂, outer diameter
 * @param pitch t, distance from turn to turn
 */
export function spiralLength(inner: number, outer: number, pitch: number): number {
	const b = pitch / (2 * Math.PI);
	const upTo = (diameter: number): number => {
		const phi = diameter / (2 * b);
		return (b / 2) * (phi * Math.hypot(1, phi) + Math.asinh(phi));
	};
	return upTo(outer) - upTo(inner);
}

export const spiralFunction: NamedFunction = {
	name: 'spiralLength',
	parameters: [
		{ name: 'inner', unit: 'in' },
		{ name: 'outer', unit: 'in' },
		{ name: 'pitch', unit: 'in' }
	],
	unit: 'in',
	compute: spiralLength,
	explain: (d1, d2, t) => {
		const b = t / (2 * Math.PI);
		return [
			`b = t / 2π = ${b.toFixed(4)} in`,
			`φ₁ = D₁ / 2b = ${(d1 / (2 * b)).toFixed(3)}, φ₂ = D₂ / 2b = ${(d2 / (2 * b)).toFixed(3)}`,
			`L = (b/2) · [φ√(1+φ²) + asinh φ] from φ₁ to φ₂ = ${spiralLength(d1, d2, t).toFixed(3)} in`
		];
	},
	sentence: 'Exact length of a spiral with a constant distance from turn to turn.',
	source: { basis: 'published', text: 'Arc length of the Archimedean spiral (calculus).' }
};
