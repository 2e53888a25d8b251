/** Whether a packing list is for this job, and whether it came before. */
import type { DeliveryList, ListQuestion } from './comparison.ts';
import type { PackingLine } from './line.ts';
import { either } from './matched.ts';
import type { OrderLines } from './order-lines.ts';
import { findPartId } from './part-id.ts';
import { findPlace } from './place.ts';
import { orderKey, plainMark } from './spelling.ts';
import type { Wanted } from './wanted.ts';
import { wordsOf } from './words.ts';

export interface OwnNames {
	readonly wanted: Wanted;
	readonly orderLines: OrderLines;
	/** Numbers of our orders for this job, also of those without lines here. */
	readonly orderNumbers: readonly string[];
	/** As the job is called. */
	readonly jobNames: readonly string[];
}

/** One name in another spelling, or shortened: `saltmarsh pier mkt hall`. */
function sameName(a: string, b: string): boolean {
	const [some, others] = [new Set(wordsOf(a)), new Set(wordsOf(b))];
	const shared = [...some].filter((word) => others.has(word)).length;
	return shared * 2 >= Math.min(some.size, others.size);
}

const isSaid = (text: string | null): text is string => text !== null && text.trim() !== '';

export function isOursQuestion(list: DeliveryList, names: OwnNames): ListQuestion | null {
	const { wanted, orderLines, orderNumbers, jobNames } = names;
	const orderNumber = list.facts?.orderNumber ?? null;
	const jobName = list.facts?.jobName ?? null;
	const ask = (reason: string): ListQuestion => ({ kind: 'isOurs', reason });
	if (isSaid(orderNumber) && orderNumbers.length > 0) {
		if (orderNumbers.some((own) => orderKey(own) === orderKey(orderNumber))) return null;
		const ours = list.lines.filter(({ partId }) => findPartId(wanted, partId)?.found === 'current');
		const though =
			ours.length === 0
				? ''
				: `, although part id ${ours[0]?.partId ?? ''} on line ${ours[0]?.line ?? ''} is of this job`;
		return ask(
			`the list is for order ${orderNumber}${jobName === null ? '' : `, ${jobName}`}; the orders of this job are ${either(orderNumbers, 'and')}${though}`
		);
	}
	if (isSaid(jobName) && jobNames.length > 0 && !jobNames.some((own) => sameName(own, jobName)))
		return ask(`the list is for ${jobName}; this job is ${jobNames[0] ?? ''}`);
	const naming = list.lines.filter(
		({ mark, partId, orderLine }) =>
			isSaid(mark) || isSaid(partId) || (isSaid(orderLine) && !orderLines.isEmpty)
	);
	const isKnown = (line: PackingLine): boolean => {
		if (findPartId(wanted, line.partId)) return true;
		const place = findPlace(wanted, line);
		if (place && place.found !== 'none') return true;
		return isSaid(line.orderLine) && orderLines.find(line.orderLine, orderNumber).lines.length > 0;
	};
	return naming.length > 0 && wanted.parts.length > 0 && !naming.some(isKnown)
		? ask('none of the marks, part ids and order lines of the list is of this job')
		: null;
}

const contentOf = (line: PackingLine): string => JSON.stringify({ ...line, line: null });

/** How many lines two lists have in common. */
function inCommon(a: readonly PackingLine[], b: readonly PackingLine[]): number {
	const left = new Map<string, number>();
	for (const line of a) left.set(contentOf(line), (left.get(contentOf(line)) ?? 0) + 1);
	return b.filter((line) => {
		const count = left.get(contentOf(line)) ?? 0;
		left.set(contentOf(line), count - 1);
		return count > 0;
	}).length;
}

/** One line alone may well come twice. */
const fewestLines = 2;

/** Whether a list came before: its number with a line of it, or, where one of them has no number, all its lines. */
export function isAnotherTruckQuestion(
	list: DeliveryList,
	earlier: readonly DeliveryList[]
): ListQuestion | null {
	const number = list.facts?.listNumber ?? null;
	for (const other of earlier) {
		const suppliers = [list.supplierId ?? null, other.supplierId ?? null];
		if (!suppliers.includes(null) && suppliers[0] !== suppliers[1]) continue;
		const its = other.facts?.listNumber ?? null;
		const numbered = isSaid(number) && isSaid(its);
		if (numbered ? plainMark(number) !== plainMark(its) : list.lines.length !== other.lines.length) continue;
		const common = inCommon(other.lines, list.lines);
		const repeats = numbered ? common > 0 : list.lines.length >= fewestLines && common === list.lines.length;
		if (repeats)
			return {
				kind: 'isAnotherTruck',
				deliveryId: other.deliveryId,
				reason: numbered
					? `list ${number} is already there as ${other.name}, with ${common} of the same lines`
					: `all its lines are those of ${other.name}`
			};
	}
	return null;
}
