/** Says of every conflict whose value it is, from the history. */
import type { Conflict } from '../../changes/message.ts';
import type { FoundEntry } from '../storage/history.repository.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Refused } from './outcome.ts';
import type { Services } from './services.ts';

/** Conflicts of one refusal that are looked up, and entries looked through for them. */
const mostNamed = 20;
const mostEntries = 100;

const made = ({ changes }: FoundEntry, { row, field }: Conflict): boolean =>
	changes?.some(
		(change) =>
			change.row === row && (change.kind === 'setCell' ? change.field === field : change.kind !== 'moveRow')
	) ?? false;

/** The same refusal; its conflicts, where they have one, with the person who made the value that stands there. */
export async function nameConflicts({ storage }: Services, key: JobKey, refused: Refused): Promise<Refused> {
	const { conflicts = [] } = refused.refusal;
	if (conflicts.length === 0) return refused;
	const entries = await storage.history.search(key, {
		before: null,
		until: null,
		rowIds: [...new Set(conflicts.slice(0, mostNamed).map(({ row }) => row))],
		actorId: null,
		kind: null,
		most: mostEntries,
		largest: null
	});
	const named = conflicts.map((conflict): Conflict => {
		const entry = entries.find((candidate) => made(candidate, conflict));
		return entry ? { ...conflict, by: { name: entry.actorName, at: entry.madeAt } } : conflict;
	});
	return { ...refused, refusal: { ...refused.refusal, conflicts: named } };
}
