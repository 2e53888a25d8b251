/** What packing lists, decisions and counts have of one part. */
import type { ChainLine } from '../../changes/chain.ts';
import type { Comparison, ComparedLine } from '../../delivery/comparison.ts';
import { countedThings, keyOfLine } from '../../delivery/counting/counted-lines.ts';
import type { LineDecision } from '../../delivery/line-decision.ts';
import { plainMark } from '../../delivery/spelling.ts';
import type { JobBuying } from './job-buying.ts';

/** Parts a person said a line is about. */
function decidedParts(decision: LineDecision): readonly string[] {
	switch (decision.kind) {
		case 'means':
		case 'substitutes':
			return decision.partIds;
		case 'opens':
			return decision.contents.flatMap(({ partIds }) => partIds);
		case 'notOurs':
		case 'repeats':
		case 'reads':
			return [];
	}
}

function decisionWords(decision: LineDecision): string {
	switch (decision.kind) {
		case 'means':
			return 'It means these parts.';
		case 'opens':
			return 'A kit, opened into what is in it.';
		case 'substitutes':
			return 'Something else than ordered, taken in its place.';
		case 'notOurs':
			return 'Not for this job, or nobody ordered it.';
		case 'repeats':
			return `The same goods as line ${decision.line} of an earlier list.`;
		case 'reads':
			return 'Corrected: it was misread.';
	}
}

/** In the order of the lists. Lines that name the part by its id are among them, whatever they were matched with. */
export function chainLines(
	{ deliveries, counts }: Pick<JobBuying, 'deliveries' | 'counts'>,
	{ lines }: Pick<Comparison, 'lines'>,
	partId: string
): ChainLine[] {
	const byId = new Map(deliveries.map((delivery) => [delivery.deliveryId, delivery]));
	const names = (line: ComparedLine): boolean => {
		const listed = byId
			.get(line.deliveryId ?? '')
			?.lines.find((one) => one.line === line.line && one.partId !== null);
		return (
			line.partIds.includes(partId) ||
			(line.asked && line.proposals.some((proposal) => proposal.partIds.includes(partId))) ||
			(line.decision !== null && decidedParts(line.decision.decision).includes(partId)) ||
			plainMark(listed?.partId ?? '') === plainMark(partId)
		);
	};
	return lines.filter(names).flatMap((compared): ChainLine[] => {
		const { deliveryId, line, decision, state, description, how, text, asked } = compared;
		const delivery = byId.get(deliveryId ?? '');
		if (!delivery || line === null) return [];
		const things = countedThings(counts.filter((count) => count.deliveryId === delivery.deliveryId));
		const counted = things.get(keyOfLine(line));
		return [
			{
				deliveryId: delivery.deliveryId,
				delivery: delivery.name,
				receivedAt: delivery.receivedAt,
				finished: delivery.counted,
				...{ line, state, description, how, text, asked },
				differences: compared.differences,
				amounts: compared.amounts,
				unit: compared.unit,
				parts: compared.partIds.length,
				decided: decision
					? { what: decisionWords(decision.decision), by: decision.by, at: decision.at }
					: null,
				counts: counted ? [counted.latest, ...counted.earlier] : []
			}
		];
	});
}
