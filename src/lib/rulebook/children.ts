/** The parts of a formula directly below a node: of a checked formula, and of one folded to display units. */
import type { Typed } from './check-formula.ts';
import type { Folded } from './fold-units.ts';

export function childrenOf(node: Typed): readonly Typed[];
export function childrenOf(node: Folded): readonly Folded[];
export function childrenOf(node: Typed | Folded): readonly (Typed | Folded)[] {
	switch (node.kind) {
		case 'scale':
		case 'negate':
		case 'not':
		case 'one':
		case 'round':
		case 'known':
			return [node.of];
		case 'arithmetic':
		case 'comparison':
		case 'sameKey':
		case 'logic':
			return [node.left, node.right];
		case 'power':
			return [node.base, node.exponent];
		case 'if':
			return [node.condition, node.then, node.otherwise];
		case 'extreme':
		case 'function':
		case 'keyOf':
			return node.arguments;
		default:
			return [];
	}
}
