import { describe, expect, it } from 'vitest';
import { changesJob, commandFor, commands, keysOf, motionFor } from './keys.ts';

const press = (key: string, held: readonly ('ctrl' | 'meta' | 'alt' | 'shift')[] = []) => ({
	key,
	ctrlKey: held.includes('ctrl'),
	metaKey: held.includes('meta'),
	altKey: held.includes('alt'),
	shiftKey: held.includes('shift'),
	isComposing: false
});

describe('the keys of the sheet', () => {
	it('give no two commands the same keys, but while typing', () => {
		const keys = commands.filter(({ typing }) => !typing).flatMap((command) => command.keys);
		expect(new Set(keys).size).toBe(keys.length);
	});

	it('are found from the event, with Cmd as Ctrl and capitals as they come', () => {
		expect(commandFor(press('d', ['ctrl']))).toBe('fillDown');
		expect(commandFor(press('D', ['meta', 'shift']))).toBe('fillSeries');
		expect(commandFor(press('ArrowUp', ['alt']))).toBe('moveUp');
		expect(commandFor(press('ArrowLeft', ['alt', 'shift']))).toBe('columnLeft');
		expect(commandFor(press(' ', ['shift']))).toBe('selectRow');
		expect(commandFor(press('z', ['ctrl', 'shift']))).toBe('redo');
		expect(commandFor(press('Enter', ['ctrl']))).toBe('addOpening');
	});

	it('know a sign whatever it takes to make it', () => {
		expect(commandFor(press('?'))).toBe('keys');
		expect(commandFor(press('?', ['shift']))).toBe('keys');
	});

	it('leave letters, and what an input method is making, to be typed', () => {
		expect(commandFor(press('d'))).toBeNull();
		expect(commandFor({ ...press('d', ['ctrl']), isComposing: true })).toBeNull();
	});

	it('leave zooming to the browser', () => {
		for (const key of ['+', '-', '0', '=']) expect(commandFor(press(key, ['ctrl']))).toBeNull();
	});

	it('change the job, or only how it is looked at', () => {
		// Those that someone who may only look can still do; whatever else there is changes the job.
		const looking = `selectRow selectColumn selectAll deselect copy open find findNext findPrevious leave keys
			columnLeft columnRight widen narrow foldGroup hideColumn freeze columns sort filterByCell clearFilter rowHeight
			views`.split(/\s+/u);
		const others = commands.map(({ id }) => id).filter((id) => !changesJob(id));
		expect(others.sort()).toEqual(looking.sort());
	});

	it('stand in the titles of buttons', () => {
		expect(keysOf('fillDown')).toBe('Ctrl+D');
		expect(keysOf('views')).toBe('');
	});
});

describe('keys that move', () => {
	it('go a cell, to the end of what is filled, to the end of the row, to the corner, a window', () => {
		expect(motionFor(press('ArrowDown'))).toEqual({ direction: 'down', reach: 'cell', extend: false });
		expect(motionFor(press('ArrowRight', ['ctrl', 'shift']))).toEqual({
			direction: 'right',
			reach: 'filled',
			extend: true
		});
		expect(motionFor(press('Home'))).toEqual({ direction: 'left', reach: 'row', extend: false });
		expect(motionFor(press('End', ['ctrl']))).toEqual({ direction: 'right', reach: 'corner', extend: false });
		expect(motionFor(press('PageDown', ['shift']))).toEqual({
			direction: 'down',
			reach: 'window',
			extend: true
		});
	});

	it('mean something else with Alt', () => {
		expect(motionFor(press('ArrowDown', ['alt']))).toBeNull();
		expect(motionFor(press('PageDown', ['ctrl']))).toBeNull();
	});
});
