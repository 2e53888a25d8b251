/** What the takeoff itself holds up: an opening with a stop does not start, whatever has come for it. */
import type { JobTakeoff } from './engine.ts';

/** Openings with stops, in the order of the rows, each with the sentences of its stops. */
export function stopsOf(job: JobTakeoff): { openingId: string; mark: string; stops: readonly string[] }[] {
	return job.openings.flatMap((opening) => {
		const stops = opening.checks.filter(({ severity }) => severity === 'stop').map(({ text }) => text);
		return stops.length === 0
			? []
			: opening.openingIds.map((openingId) => ({ openingId, mark: opening.mark, stops }));
	});
}
