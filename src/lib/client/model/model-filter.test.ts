import { describe, expect, it } from 'vitest';
import type { ModelOpening } from '../../exchange/building-model/model.ts';
import { everything, filtered, namesOf, without } from './model-filter.ts';

const opening = (line: number, more: Partial<ModelOpening>): ModelOpening => ({
	line,
	globalId: '',
	kind: 'door',
	tag: '',
	name: '',
	type: '',
	storey: '',
	space: '',
	width: null,
	height: null,
	exterior: null,
	notes: [],
	...more
});

const all = [
	opening(1, { tag: 'D-101', name: 'Grille at the stalls', storey: 'Level 2', type: 'G1' }),
	opening(2, { tag: 'D-102', name: 'Shutter', storey: 'Level 10' }),
	opening(3, {
		kind: 'window',
		name: 'Ticket counter',
		storey: 'Level 2',
		notes: ['Fire rating in the model: 60 min.']
	}),
	opening(4, { kind: 'opening', name: 'Servery' })
];
const lines = (filter: Partial<typeof everything>): number[] =>
	filtered(all, { ...everything, ...filter }).map(({ line }) => line);

describe('what is shown of a model', () => {
	it('is everything at first', () => {
		expect(lines({})).toEqual([1, 2, 3, 4]);
	});

	it.each([
		[{ text: 'grille D-101' }, [1]],
		[{ text: ' FIRE ' }, [3]],
		[{ text: 'grille shutter' }, []],
		[{ kind: 'door' }, [1, 2]],
		[{ storey: 'Level 2' }, [1, 3]],
		[{ storey: without }, [4]],
		[{ type: without, kind: 'door' }, [2]]
	] as const)('is narrowed by %o', (filter, shown) => {
		expect(lines(filter)).toEqual(shown);
	});

	it('offers each name once, numbers in order, none at the end', () => {
		expect(namesOf(all, 'storey')).toEqual(['Level 2', 'Level 10', without]);
		expect(namesOf(all, 'type')).toEqual(['G1', without]);
	});
});
