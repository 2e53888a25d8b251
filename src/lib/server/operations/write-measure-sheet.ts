import { z } from 'zod';
import { paperIds } from '../../exchange/paper-sizes.ts';
import type { PrintedMeasure } from '../../exchange/print/measure-sheet-pdf.ts';
import { printJob } from '../../exchange/print/print-job.ts';
import { sides } from '../../fieldwork/governing.ts';
import { measuringCautions } from '../../fieldwork/measuring-cautions.ts';
import { readMeasure } from '../../fieldwork/read-measure.ts';
import { readingList } from '../../fieldwork/reading-list.ts';
import { sayLength, type SayLength } from '../../fieldwork/sentence.ts';
import type { GuideShims } from '../../fieldwork/shims.ts';
import { suggestedHeights } from '../../fieldwork/suggested-heights.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { spaced } from '../../takeoff/show.ts';
import type { Actor } from '../identity/actor.ts';
import { noSuchOpening } from './find-opening.ts';
import { bodyProblem } from './job-bodies.ts';
import { measuresThatCount, readBuying, type JobBuying } from './job-buying.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { orderLinesOf } from './read-measure.ts';
import type { Services } from './services.ts';

/** In one file. */
const mostSheets = 200;

const request = z.strictObject({
	/** `blank`: to be written on. `measured`: openings with a measure that counts, filled in. */
	what: z.enum(['blank', 'measured'], 'Print the sheets blank or measured.').default('blank'),
	/** Key of one opening; all of the job without it. */
	opening: z.string().min(1).max(100).optional(),
	paper: z.enum(paperIds, `The paper is one of ${paperIds.join(', ')}.`).default('letter')
});

/** Drawn figures that stand beside a reading. */
const drawnAs = {
	widthBottom: 'openingWidth',
	widthMiddle: 'openingWidth',
	widthTop: 'openingWidth',
	heightLeft: 'openingHeight',
	heightRight: 'openingHeight',
	diagonalRising: null,
	diagonalFalling: null,
	sillRise: null,
	headroom: 'headroom',
	sideRoomLeft: 'sideRoomLeft',
	sideRoomRight: 'sideRoomRight'
} as const;

const stateWords = { within: 'within', stop: 'STOP', notMeasured: 'to measure' } as const;

/** Lines for heights that nobody suggests. */
const spareLines = 2;

const signed = (nm: number | null, say: SayLength): string =>
	nm === null ? '' : `${nm > 0 ? '+' : ''}${say(nm)}`;

function shimWords({ side, at }: GuideShims, say: SayLength): string {
	const each = at.map(({ anchor, height, made }) =>
		made === 0 ? `anchor ${anchor} at ${say(height)} none` : `anchor ${anchor} at ${say(height)} ${say(made)}`
	);
	return `Shims, ${side} guide: ${each.join(', ')}.`;
}

function sheetOf(
	{ engine, job, parts, orders, measures }: JobBuying,
	opening: OpeningTakeoff,
	openingId: string,
	filled: boolean
): PrintedMeasure {
	const say = sayLength(job.measures);
	const measure = filled ? measuresThatCount(measures).get(openingId) : undefined;
	const readings = measure?.readings;
	const drawn = (quantity: string | null): string => {
		const nm = quantity === null ? null : opening.get(quantity);
		return typeof nm === 'number' ? say(nm) : '';
	};
	const verdict =
		readings &&
		readMeasure({
			engine,
			opening,
			openingId,
			readings,
			measures: job.measures,
			parts: parts.filter((part) => part.openingId === openingId),
			orderLines: orderLinesOf(orders)
		});
	return {
		openingId,
		where: [opening.location, opening.phase === '' ? '' : `phase ${opening.phase}`]
			.filter(Boolean)
			.join(', '),
		readings: [
			...readingList.map(({ id, title, how, of }) => {
				const nm = readings ? of(readings) : null;
				return {
					title,
					how: readings ? '' : how,
					drawn: drawn(drawnAs[id]),
					measured: nm === null ? '' : say(nm)
				};
			}),
			...sides.map((side) => {
				const wall = opening.get(side === 'left' ? 'substrateLeft' : 'substrateRight');
				return {
					title: `Wall at the ${side}`,
					how: readings ? '' : 'What it is behind its board or tile.',
					drawn: typeof wall === 'string' ? spaced(wall) : '',
					measured: spaced(readings?.[`${side}Substrate`] ?? '')
				};
			})
		],
		plumb: sides.map((side) => ({
			title: `Plumb of the ${side} jamb`,
			rows: readings
				? readings.plumb[side].map(({ height, inPlane, outOfPlane }) => ({
						height: say(height),
						inPlane: signed(inPlane, say),
						outOfPlane: signed(outOfPlane, say)
					}))
				: [
						...suggestedHeights(opening, side, engine.book, job.measures).map(say),
						...Array.from({ length: spareLines }, () => '')
					].map((height) => ({ height, inPlane: '', outOfPlane: '' }))
		})),
		note: measure?.note ?? '',
		who: measure ? `Measured by ${measure.by}, ${measure.measuredAt.slice(0, 16).replace('T', ' ')} UTC` : '',
		verdict: verdict
			? {
					text: verdict.text,
					findings: verdict.findings.map(({ title, state, text }) => ({
						title,
						state: stateWords[state],
						text
					})),
					effects: `With the measured sizes: ${verdict.effects.text}`,
					shims: sides.flatMap((side) => {
						const shims = verdict.shims[side];
						return shims ? [shimWords(shims, say)] : [];
					}),
					cautions: verdict.cautions.map(({ text, clears }) => `Caution: ${text} ${clears}`)
				}
			: null
	};
}

/** Field measures on paper, a page an opening: to be filled in, or as they were taken. No price is on them. */
export async function writeMeasureSheet(
	actor: Actor,
	services: Services,
	jobId: string,
	query: unknown
): Promise<Outcome<{ readonly content: Uint8Array; readonly jobName: string }>> {
	const parsed = request.safeParse(query);
	if (!parsed.success) return bodyProblem(parsed.error);
	const read = await readBuying(actor, services, jobId);
	if (!read.ok) return read;
	const { what, opening: only, paper } = parsed.data;
	const { takeoff, job, openingKeys, measures } = read.value;
	const onlyId = only === undefined ? null : openingKeys.openings.get(only);
	if (onlyId === undefined) return noSuchOpening;
	const measured = measuresThatCount(measures);
	const chosen = takeoff.openings.flatMap((opening) =>
		opening.openingIds
			.filter((id) => (onlyId === null || id === onlyId) && (what === 'blank' || measured.has(id)))
			.map((id) => ({ opening, id }))
	);
	if (chosen.length === 0)
		return refuse(422, {
			message:
				what === 'blank'
					? 'There are no openings to measure. Enter them in the sheet first.'
					: 'Nothing is measured yet. Print the sheets blank, and measure.'
		});
	if (chosen.length > mostSheets)
		return refuse(413, {
			message: `These are ${chosen.length} sheets; at most ${mostSheets} go into one file. Print them opening by opening.`
		});
	const print = await printJob({
		what: 'measureSheet',
		paper,
		jobName: job.name,
		printedAt: services.now(),
		openings: chosen.map(({ opening, id }) => sheetOf(read.value, opening, id, what === 'measured')),
		cautions: measuringCautions
	});
	if (!print.ok) return refuse(print.problem === 'tooLarge' ? 413 : 422, { message: print.message });
	return done({ content: print.content, jobName: job.name });
}
