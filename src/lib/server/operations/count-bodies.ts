/** What a phone may send of a count. */
import { z } from 'zod';
import { mostCounts, mostPhotosOfCount } from '../../changes/site.ts';

/** As the phone made it: opaque, and short enough for a key. */
export const sentId = z
	.string()
	.regex(/^[A-Za-z0-9-]{8,64}$/u, 'An id is 8 to 64 letters, digits and hyphens.');

/** A moment by the clock of the phone, in one spelling. */
const phoneMoment = z.iso
	.datetime({ offset: true, error: 'A moment is written as 2026-12-01T09:30:00Z.' })
	.transform((text) => new Date(text))
	.refine((moment) => moment.getUTCFullYear() >= 2000 && moment.getUTCFullYear() < 2100, {
		message: 'The clock of the phone shows another century. Set it, and count again.'
	})
	.transform((moment) => moment.toISOString());

/** Text that somebody typed: white space counts once, half letters and control characters are gone. */
const typedText = (most: number, what: string) =>
	z
		.string()
		.transform((text) =>
			text
				.toWellFormed()
				.replace(/[\p{Cc}\s]+/gu, ' ')
				.trim()
		)
		.pipe(z.string().max(most, `${what} has at most ${most} characters.`));

const amount = z.string().max(40, 'A count is a number, such as 3.');

const sentCount = z
	.strictObject({
		countId: sentId,
		deliveryId: z.string().min(1).max(100),
		line: z.number().int().min(1).max(1_000_000).nullable(),
		crate: typedText(200, 'The name of a crate').nullable(),
		description: typedText(300, 'What it is'),
		amounts: z.strictObject({ whole: amount, damaged: amount, wrong: amount }),
		note: typedText(2000, 'A note'),
		photoIds: z.array(sentId).max(mostPhotosOfCount, `A count has at most ${mostPhotosOfCount} photos.`),
		countedAt: phoneMoment
	})
	.refine(({ line, description }) => line !== null || description !== '', {
		message: 'Say what it is that stands on no line.',
		path: ['description']
	});

export const countsBody = z.strictObject({
	counts: z
		.array(sentCount)
		.min(1, 'There is no count in it.')
		.max(mostCounts, `At most ${mostCounts} counts are taken at once.`)
});

export const finishBody = z.strictObject({ finished: z.boolean(), at: phoneMoment });
