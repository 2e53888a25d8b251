import { describe, expect, it } from 'vitest';
import { newEntries, readWind, type WindEntries } from './wind-entries.ts';

const entries = (change: Partial<WindEntries> = {}): WindEntries => ({
	...newEntries(),
	speed: '115',
	exposure: 'C',
	roofHeight: '20',
	enclosure: 'enclosed',
	openingHeight: '10',
	zone: 5,
	area: '33.3',
	...change
});

describe('entries of the wind aid', () => {
	it('are a case when all is there', () => {
		expect(readWind(entries(), 'ASCE 7-22', 'imperial').wind).toEqual({
			edition: 'ASCE 7-22',
			measures: 'imperial',
			speed: 115,
			exposure: 'C',
			roofHeight: 20,
			enclosure: 'enclosed',
			openingHeight: 10,
			topography: 1,
			groundElevation: 0,
			zone: 5,
			area: 33.3
		});
	});

	it('say what is missing, and are no case yet', () => {
		const reading = readWind(entries({ speed: '  ', exposure: '', zone: null }), 'ASCE 7-16', 'imperial');
		expect(reading).toEqual({ wind: null, faults: {}, missing: ['speed', 'exposure', 'zone'] });
		expect(readWind(newEntries(), 'ASCE 7-16', 'imperial').missing).toEqual([
			'speed',
			'exposure',
			'roofHeight',
			'enclosure',
			'openingHeight',
			'zone',
			'area'
		]);
	});

	it('read a minus of either kind, and a comma in metric jobs', () => {
		const elevation = (text: string, measures: 'imperial' | 'metric') =>
			readWind(entries({ groundElevation: text }), 'ASCE 7-16', measures);
		expect(elevation('-280', 'imperial').wind?.groundElevation).toBe(-280);
		expect(elevation('−2.5', 'imperial').wind?.groundElevation).toBe(-2.5);
		expect(readWind(entries({ speed: '50,5', roofHeight: '12' }), 'ASCE 7-16', 'metric').wind?.speed).toBe(
			50.5
		);
		expect(elevation('1,5', 'imperial').faults.groundElevation).toBe('"1,5" has a comma; write 1.5.');
	});

	it('that cannot be read or are out of range say why beside them', () => {
		const reading = readWind(
			entries({ speed: '-115', area: 'large', roofHeight: '70' }),
			'ASCE 7-16',
			'imperial'
		);
		expect(reading.wind).toBeNull();
		expect(reading.faults.speed).toContain('60 to 250 mph');
		expect(reading.faults.area).toContain('"large" is not a plain number');
		expect(reading.faults.roofHeight).toContain('ask the engineer');
	});
});
