import { describe, expect, it } from 'vitest';
import { lineCommand, lineKeys } from './line-keys.ts';

const press = (
	key: string,
	held: Partial<Record<'ctrlKey' | 'metaKey' | 'altKey' | 'isComposing', true>> = {}
) => lineCommand({ key, ctrlKey: false, metaKey: false, altKey: false, isComposing: false, ...held });

describe('keys among the lines to explain', () => {
	it('mean one thing each', () => {
		const keys = lineKeys.flatMap((one) => one.keys);
		expect(new Set(keys).size).toBe(keys.length);
	});

	it.each([
		['Enter', 'accept', 0],
		['1', 'choose', 0],
		['9', 'choose', 8],
		['n', 'notOurs', 0],
		['N', 'notOurs', 0],
		['k', 'open', 0],
		['ArrowDown', 'down', 0]
	] as const)('%s: %s', (key, id, place) => {
		expect(press(key)).toEqual({ id, place });
	});

	it('mean nothing with Ctrl, Cmd or Alt, or while a word is being composed', () => {
		for (const held of ['ctrlKey', 'metaKey', 'altKey', 'isComposing'] as const)
			expect(press('r', { [held]: true })).toBeNull();
		expect(press('0')).toBeNull();
		expect(press('Tab')).toBeNull();
	});
});
