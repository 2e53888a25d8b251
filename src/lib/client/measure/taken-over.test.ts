import { describe, expect, it } from 'vitest';
import { engineOf, openingA, typedRow } from '../../../../tests/opening-rows.ts';
import { applyChanges } from '../../changes/apply.ts';
import { inches } from '../../fieldwork/sample-measures.ts';
import { measuredCell } from '../../fieldwork/taken-sizes.ts';
import type { OpeningRow } from '../../takeoff/inputs.ts';
import { takenOver } from './taken-over.ts';

const engine = engineOf();
/** Opening A is 10'-0" × 4'-0"; 10'-0 1/2" was measured. */
const wider = measuredCell(inches(120.5), 'imperial');
const take = (rows: readonly OpeningRow[], openingId: string, markHeld = false) => {
	const { openings } = engine.takeoff(rows, 'imperial');
	const opening = openings.find(({ openingIds }) => openingIds.includes(openingId));
	if (!opening) throw new Error(`${openingId} is not there`);
	return takenOver(opening, openingId, { openingWidth: wider }, { newRow: 'new', after: 'row-A-', markHeld });
};
/** Width and hold by opening, after the edit. */
function after(rows: readonly OpeningRow[], openingId: string, markHeld = false): Record<string, unknown> {
	const taken = take(rows, openingId, markHeld);
	const sheet = rows.map((row) => ({ ...row, removed: false }));
	const applied = applyChanges(sheet, taken?.changes ?? [], { reinstate: false });
	if (!applied.ok) throw new Error('not applied');
	const { openings } = engine.takeoff(applied.rows, 'imperial');
	return Object.fromEntries(
		openings.flatMap((opening) =>
			opening.openingIds.map((id) => [id, [opening.get('openingWidth'), opening.cell('hold')]])
		)
	);
}

describe('measured sizes in the sheet', () => {
	it('go into the row of the only opening of a mark, and end its hold', () => {
		const rows = [typedRow({ ...openingA, hold: 'fieldMeasure' })];
		expect(take(rows, 'A.1')).toMatchObject({ ownRow: false, staysHeld: false });
		expect(after(rows, 'A.1')).toEqual({ 'A.1': [inches(120.5), null] });
	});

	it('go into a row of its own where the mark has others, which stay as they are', () => {
		const rows = [typedRow({ ...openingA, quantity: '3', hold: 'fieldMeasure' })];
		// A blank cell takes the mark’s: the hold of the mark can’t be cleared for one opening.
		expect(take(rows, 'A.2')).toMatchObject({ ownRow: true, staysHeld: true });
		expect(after(rows, 'A.2')).toEqual({
			'A.1': [inches(120), 'fieldMeasure'],
			'A.2': [inches(120.5), 'fieldMeasure'],
			'A.3': [inches(120), 'fieldMeasure']
		});
	});

	it('go into the row that an opening has', () => {
		const own = typedRow({ mark: 'A', openingNumber: '2', hold: 'fieldMeasure' });
		const rows = [typedRow({ ...openingA, quantity: '2' }), own];
		expect(after(rows, 'A.2')).toEqual({ 'A.1': [inches(120), null], 'A.2': [inches(120.5), null] });
		const held = [typedRow({ ...openingA, quantity: '2', hold: 'fieldMeasure' }), own];
		expect(take(held, 'A.2', true)?.staysHeld).toBe(true);
	});

	it('leave walls to a person, and nothing to take is nothing', () => {
		const rows = [typedRow(openingA)];
		const [opening] = engine.takeoff(rows, 'imperial').openings;
		if (!opening) throw new Error('no opening');
		const where = { newRow: 'new', after: 'row-A-', markHeld: false };
		expect(
			takenOver(opening, 'A.1', { leftSubstrate: 'concrete', leftWallStrength: null }, where)
		).toBeNull();
		const both = takenOver(opening, 'A.1', { leftSubstrate: 'concrete', openingWidth: wider }, where);
		expect([both?.wallLeft, both?.cells.map(({ field }) => field)]).toEqual([true, ['openingWidth']]);
	});
});
