/** Decisions about lines as a person reads them, in the history and beside the line. */
import { either } from './matched.ts';
import type { LineDecision } from './line-decision.ts';

/** What a part is called where decisions are told. */
interface NamedPart {
	readonly openingId: string;
	readonly mark: string;
	readonly title: string;
}

export interface DecisionNames {
	readonly part: (partId: string) => NamedPart | undefined;
	readonly list: (deliveryId: string) => string;
}

const mostNamed = 3;

/** `Guide, left for C-101.1 and C-101.2`; `Guide, left for 12 openings` */
function partsWords(partIds: readonly string[], { part }: DecisionNames): string {
	const openings = new Map<string, Set<string>>();
	let gone = 0;
	for (const id of partIds) {
		const found = part(id);
		if (!found) gone++;
		else openings.set(found.title, (openings.get(found.title) ?? new Set()).add(found.openingId));
	}
	const named = [...openings].map(([title, those]) =>
		[...those].every((one) => one === '')
			? title
			: `${title} for ${those.size > mostNamed ? `${those.size} openings` : either([...those], 'and')}`
	);
	const more = named.length - mostNamed;
	return [
		...named.slice(0, mostNamed),
		...(more > 0 ? [`${more} more`] : []),
		...(gone > 0 ? [`${gone} ${gone === 1 ? 'part' : 'parts'} no longer in the material list`] : [])
	].join('; ');
}

export function decisionWords(decision: LineDecision, names: DecisionNames): string {
	switch (decision.kind) {
		case 'means':
			return `it means ${partsWords(decision.partIds, names)}`;
		case 'opens':
			return `in it are ${decision.contents
				.map(({ partIds, quantity }) => `${quantity} × ${partsWords(partIds, names)}`)
				.join('; ')}`;
		case 'substitutes':
			return `taken in place of ${partsWords(decision.partIds, names)}: ${decision.reason}`;
		case 'notOurs':
			return `not ours: ${decision.reason}`;
		case 'repeats':
			return `the same goods as line ${decision.line} of ${names.list(decision.deliveryId)}`;
		case 'reads':
			return `it reads ${Object.keys(decision.fields)
				.map(
					(name) => `${name} ${String(decision.fields[name as keyof typeof decision.fields] ?? 'nothing')}`
				)
				.join(', ')}`;
	}
}
