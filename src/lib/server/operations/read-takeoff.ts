import { cutLists, type CutList } from '../../takeoff/cutting/cut-lists.ts';
import type { Part } from '../../takeoff/result.ts';
import { totalsOf, type JobTotals } from '../../takeoff/totals.ts';
import type { Actor } from '../identity/actor.ts';
import { issueParts } from './issue-parts.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** What the whole job comes to, how its stock is cut, and its material list. */
export async function readTakeoff(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ totals: JobTotals; cutLists: readonly CutList[]; parts: readonly Part[] }>> {
	const issued = await issueParts(actor, services, jobId);
	if (!issued.ok) return issued;
	const { engine, takeoff, parts } = issued.value;
	return done({ totals: totalsOf(engine, takeoff), cutLists: cutLists(engine, takeoff), parts });
}
