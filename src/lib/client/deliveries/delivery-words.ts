/** Lines, parts and proposals in words. */
import type { DeliveriesAnswer, DeliveryPart } from '../../changes/deliveries.ts';
import type { ComparedLine } from '../../delivery/comparison.ts';
import { confidences } from '../../delivery/confidence.ts';
import { decisionWords, type DecisionNames } from '../../delivery/decision-words.ts';
import type { PackingFacts, PackingLine } from '../../delivery/line.ts';
import type { LineDecision } from '../../delivery/line-decision.ts';
import { formatLength } from '../../quantity/length.ts';
import { lengthStyleOf, type Measures } from '../../takeoff/inputs.ts';

/** Words of a level and its percentage: `likely, 50 %`. */
export function confidenceWords(confidence: number): string {
	const word =
		confidence >= confidences.likely
			? 'likely'
			: confidence >= confidences.oneOfSeveral
				? 'one of several'
				: 'only looks like it';
	return `${word}, ${Math.round(confidence * 100)} %`;
}

export class Names implements DecisionNames {
	readonly #parts: ReadonlyMap<string, DeliveryPart>;
	readonly #lists: ReadonlyMap<string, string>;

	constructor({ parts, deliveries }: Pick<DeliveriesAnswer, 'parts' | 'deliveries'>) {
		this.#parts = new Map(parts.map((part) => [part.partId, part]));
		this.#lists = new Map(deliveries.map(({ id, name }) => [id, name]));
	}

	partOf(partId: string): DeliveryPart | undefined {
		return this.#parts.get(partId);
	}

	/** With its sizes, so that parts that differ in nothing else are told apart. */
	readonly part = (partId: string): { openingId: string; mark: string; title: string } | undefined => {
		const part = this.#parts.get(partId);
		if (!part) return undefined;
		const { openingId, mark, title, measures } = part;
		return { openingId, mark, title: measures === '' ? title : `${title} (${measures})` };
	};

	readonly list = (deliveryId: string): string => this.#lists.get(deliveryId) ?? 'a list that is taken out';

	decision(decision: LineDecision): string {
		const words = decisionWords(decision, this);
		return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
	}
}

/** Text that names one line on the page. */
export const lineKey = ({ deliveryId, line }: Pick<ComparedLine, 'deliveryId' | 'line'>): string =>
	`${deliveryId ?? ''} ${line ?? ''}`;

export const sidesWords = { coilSide: 'the coil side', farSide: 'the far side' } as const;
export const sizesWords = {
	part: 'the parts',
	opening: 'the openings',
	overall: 'the openings with their guides'
} as const;

/** What a list says of itself, a phrase each. */
export function factsWords(facts: PackingFacts | null): string[] {
	if (facts === null) return [];
	const { listNumber, orderNumber, orderRevision, jobName, handsFrom, sizes, crates, pages } = facts;
	const revision = orderRevision === null ? '' : `, revision ${orderRevision}`;
	return [
		...(listNumber === null ? [] : [`list ${listNumber}`]),
		...(orderNumber === null ? [] : [`our order ${orderNumber}${revision}`]),
		...(jobName === null ? [] : [`job ${jobName}`]),
		...(handsFrom === null ? [] : [`left and right seen from ${sidesWords[handsFrom]}`]),
		...(sizes === null ? [] : [`sizes of ${sizesWords[sizes]}`]),
		...(crates.all === null ? [] : [`${crates.all} crates in all`]),
		...(pages.all === null ? [] : [`${pages.all} pages in all`])
	];
}

/** The sizes of a line as read. */
export function sizesOfLine(
	{ length, width, size }: Pick<PackingLine, 'length' | 'width' | 'size'>,
	measures: Measures
): string {
	const style = lengthStyleOf(measures);
	return [
		...(size === null ? [] : [size]),
		...(length === null ? [] : [`length ${formatLength(length, style)}`]),
		...(width === null ? [] : [`width ${formatLength(width, style)}`])
	].join(', ');
}
