/** What a phone may send of a field measure. */
import { z } from 'zod';
import { mostPlumbReadings } from '../../changes/measures.ts';
import { sentId } from './count-bodies.ts';

const moment = z.iso
	.datetime({ offset: true, error: 'A moment is written as 2026-12-01T09:30:00Z.' })
	.transform((text) => new Date(text))
	.refine((at) => at.getUTCFullYear() >= 2000 && at.getUTCFullYear() < 2100, {
		message: 'The clock of the phone shows another century. Set it, and save the measure again.'
	})
	.transform((at) => at.toISOString());

const wrongLength = 'A reading is a whole number of nanometres, or null.';
/** What a length may be is said by the readings themselves, in words. */
const length = z.number(wrongLength).int(wrongLength).nullable();
const wall = z.string().max(100, 'A wall is one of the words of the shop book.').nullable();

const plumb = z
	.array(
		z.strictObject({ height: z.number(wrongLength).int(wrongLength), inPlane: length, outOfPlane: length })
	)
	.max(mostPlumbReadings, `At most ${mostPlumbReadings} plumb readings are taken of one jamb.`);

const readings = z.strictObject({
	widths: z.strictObject({ bottom: length, middle: length, top: length }),
	heights: z.strictObject({ left: length, right: length }),
	diagonals: z.strictObject({ rising: length, falling: length }),
	plumb: z.strictObject({ left: plumb, right: plumb }),
	sillRise: length,
	headroom: length,
	leftSideRoom: length,
	rightSideRoom: length,
	leftSubstrate: wall,
	rightSubstrate: wall
});

export const measureBody = z.strictObject({
	measureId: sentId,
	openingKey: z.string().min(1).max(100),
	readings,
	note: z
		.string()
		.transform((text) =>
			text
				.toWellFormed()
				.replace(/[\p{Cc}\s]+/gu, ' ')
				.trim()
		)
		.pipe(z.string().max(2000, 'A note has at most 2000 characters.')),
	measuredAt: moment
});

export const withdrawBody = z.strictObject({ withdrawn: z.boolean() });
