import { z } from 'zod';
import type { DayAnswer } from '../../changes/readiness.ts';
import {
	dealtText,
	holderText,
	notCheckedTexts,
	startingCautions,
	taskTitles,
	whatClearMeans
} from '../../delivery/readiness/words.ts';
import { printJob } from '../../exchange/print/print-job.ts';
import type { TomorrowTask } from '../../exchange/print/tomorrow-pdf.ts';
import type { Actor } from '../identity/actor.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { readDay } from './read-day.ts';
import type { Services } from './services.ts';

const paperQuery = z.object({
	paper: z.enum(['letter', 'a4'], 'The paper is letter or a4.').default('letter')
});

const printedDay = (
	{ list, sizes, places, deal, jobName, ...checked }: DayAnswer,
	paper: TomorrowTask['paper'],
	printedAt: Date
): TomorrowTask => ({
	what: 'tomorrow',
	...{ paper, jobName, printedAt, day: list.day, dealt: dealtText[deal] },
	start: list.start.map(({ openingId, startsOn, tasks }) => ({
		opening: openingId,
		place: places[openingId] ?? '',
		planned: `planned for ${startsOn}`,
		tasks: tasks.map(({ task, bring }) => ({
			task: taskTitles[task],
			bring: bring.map(({ partId, title, quantity, unit }) =>
				[`${quantity} ${unit}  ${title}`, sizes[partId] ?? '', partId]
					.filter((text) => text !== '')
					.join(', ')
			)
		}))
	})),
	held: list.held.map(({ openingId, startsOn, tasks, holds }) => ({
		opening: openingId,
		place: places[openingId] ?? '',
		planned: `planned for ${startsOn}`,
		tasks: tasks.map((task) => taskTitles[task].toLowerCase()).join(', '),
		holds: holds.map(({ task, text, who, since }) => ({
			text: task === null ? text : `${taskTitles[task]}: ${text}`,
			who: holderText(who),
			since: since === null ? 'not known' : since.slice(0, 10)
		}))
	})),
	withoutDay: list.withoutDay.join(', '),
	checked: [whatClearMeans, ...notCheckedTexts(checked)],
	cautions: startingCautions
});

/** The list for a day as pages to print. No price is on them. */
export async function writeDay(
	actor: Actor,
	services: Services,
	jobId: string,
	query: Readonly<Record<string, string>>
): Promise<Outcome<{ readonly content: Uint8Array; readonly jobName: string; readonly day: string }>> {
	const { paper: wanted, ...asked } = query;
	const parsed = paperQuery.safeParse(wanted === undefined ? {} : { paper: wanted });
	if (!parsed.success) return bodyProblem(parsed.error);
	const read = await readDay(actor, services, jobId, asked);
	if (!read.ok) return read;
	const { jobName, list } = read.value;
	const print = await printJob(printedDay(read.value, parsed.data.paper, services.now()));
	if (!print.ok) return refuse(print.problem === 'tooLarge' ? 413 : 422, { message: print.message });
	return done({ content: print.content, jobName, day: list.day });
}
