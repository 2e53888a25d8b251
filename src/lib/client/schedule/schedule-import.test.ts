/** A schedule on its way into a job: what is sent to be read. The server's answers are stood in for. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { ScheduleImport } from './schedule-import.svelte.ts';

const preview = {
	sheet: 'Phase 1',
	sheets: ['Phase 1', 'Phase 2'],
	headerRow: 7,
	signature: '',
	columns: [],
	rows: [],
	questions: [],
	problems: [],
	notes: [],
	remembered: null,
	jobRows: 0
};

describe('what was decided about a file', () => {
	afterEach(() => vi.unstubAllGlobals());

	it('says nothing of another sheet of it', () => {
		const sent: unknown[] = [];
		vi.stubGlobal('fetch', (_: string, { body }: { body: FormData }) => {
			const mapping = body.get('mapping');
			sent.push(JSON.parse(typeof mapping === 'string' ? mapping : 'null'));
			return Promise.resolve(new Response(JSON.stringify(preview)));
		});
		const schedule = new ScheduleImport({
			id: 'a',
			name: 'Saltmarsh',
			measures: 'imperial',
			revision: 1,
			demo: false
		});
		schedule.take(new File(['Mark'], 'schedule.xlsx'));
		schedule.chooseHeadings(7);
		schedule.assign(2, 'openingWidth');
		schedule.answer('date:C', 'probable');
		schedule.chooseSheet('Phase 2');
		expect(sent).toEqual([
			{},
			{ headerRow: 7 },
			{ headerRow: 7, columns: { '2': 'openingWidth' } },
			{ headerRow: 7, columns: { '2': 'openingWidth' }, answers: { 'date:C': 'probable' } },
			{ sheet: 'Phase 2' }
		]);
	});
});
