import { describe, expect, it } from 'vitest';
import { readRemark, type RemarkReading } from './remark.ts';

const none: RemarkReading = { damaged: 0, backordered: 0, missing: 0, wrong: 0 };

describe('remarks', () => {
	it.each<[string, Partial<RemarkReading>]>([
		['1 dented in transit', { damaged: 1 }],
		['one bent at the foot', { damaged: 1 }],
		['damaged', { damaged: 'all' }],
		['2 of 4 damaged', { damaged: 2 }],
		['2 pcs bent, 1 scratched', { damaged: 3 }],
		['crate 3 damaged', { damaged: 'all' }],
		['2 of crate no. 3 damaged', { damaged: 'all' }],
		['Backordered, truck 2', { backordered: 'all' }],
		['1 to follow', { backordered: 1 }],
		['B/O 2', { backordered: 2 }],
		['back-order: 2', { backordered: 2 }],
		['2 B/O; 1 damaged', { backordered: 2, damaged: 1 }],
		['one missing', { missing: 1 }],
		['short 2', { missing: 2 }],
		['not in crate', { missing: 'all' }],
		['substituted', { wrong: 'all' }],
		['2 too short', { wrong: 2 }],
		['no damage', {}],
		['not bent', {}],
		['undamaged', {}],
		['completes back order', {}],
		['backorder filled', {}],
		['Cut to the nearest 1/16, "tight" lap', {}],
		['handle with care', {}],
		['', {}]
	])('%s', (remark, reading) => {
		expect(readRemark(remark)).toEqual({ ...none, ...reading });
	});

	it('reads no remark as nothing to tell', () => {
		expect(readRemark(null)).toEqual(none);
	});

	it('takes no long time over a long text', () => {
		expect(readRemark('1 '.repeat(100_000))).toEqual(none);
	});
});
