/**
 * Gives the parts of a takeoff their ids for good. It runs whenever the material list leaves the program (page, file,
 * comparison): until then nobody can have written an id down.
 */
import type { Engine, JobTakeoff } from '../../takeoff/engine.ts';
import { byOpening, partIdFor, partsOf, slotOf } from '../../takeoff/parts.ts';
import type { OpeningTakeoff, Part } from '../../takeoff/result.ts';
import type { IssuedPart } from '../storage/part.repository.ts';
import { markRows, openingKeyOf } from './opening-keys.ts';

interface Reconciled {
	/** The parts of the takeoff, under the ids they keep. */
	readonly parts: readonly Part[];
	/** What has to be stored: new parts, parts that changed in quantity or words, parts that are needed no more. */
	readonly changed: readonly IssuedPart[];
}

/** The slot by row and number, so that a mark can be renamed and its parts stay the same. */
function storedSlot(part: Part, opening: OpeningTakeoff, marks: ReadonlyMap<string, string>): string {
	return slotOf({ ...part, openingId: openingKeyOf(part.openingId, opening, marks) });
}

/**
 * A part whose size, item, hand and finish are as issued keeps its id; one that changed gets a new id and names the part
 * it took the place of; a slot that is needed no more retires its part, which comes back when it is needed again unchanged.
 */
export function reconcileParts(engine: Engine, job: JobTakeoff, issued: readonly IssuedPart[]): Reconciled {
	const used = new Set(issued.map(({ part }) => part.partId));
	const superseded = new Set(issued.flatMap(({ part }) => part.supersedes ?? []));
	const latest = new Map<string, IssuedPart>();
	for (const one of issued) if (!superseded.has(one.part.partId)) latest.set(one.slot, one);

	const freeId = (part: Part): string => {
		const slot = slotOf(part);
		for (let revision = 1; ; revision++) {
			const id = partIdFor(slot, revision);
			if (!used.has(id)) return id;
		}
	};
	const parts: Part[] = [];
	const changed: IssuedPart[] = [];
	const needed = new Set<string>();
	const marks = markRows(job);
	for (const opening of job.openings)
		for (const part of partsOf(engine, opening)) {
			const slot = storedSlot(part, opening, marks);
			const last = latest.get(slot);
			needed.add(slot);
			const kept = last?.part.interchangeKey === part.interchangeKey ? last : null;
			const now: Part = kept
				? { ...part, partId: kept.part.partId, supersedes: kept.part.supersedes }
				: { ...part, partId: freeId(part), supersedes: last?.part.partId ?? null };
			used.add(now.partId);
			parts.push(now);
			if (kept && !kept.retired && JSON.stringify(kept.part) === JSON.stringify(now)) continue;
			changed.push({ slot, part: now, retired: false });
			if (last && !kept) changed.push({ ...last, retired: true });
		}
	for (const one of latest.values())
		if (!needed.has(one.slot) && !one.retired) changed.push({ ...one, retired: true });
	return { parts: byOpening(parts), changed };
}
