import type { FoundParts } from '../../changes/chain.ts';
import { lookalike, plainMark } from '../../delivery/spelling.ts';
import { partWords } from '../../delivery/part-words.ts';
import type { Part } from '../../takeoff/result.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobBuying } from './job-buying.ts';
import { done, type Outcome } from './outcome.ts';
import { readReadiness, type ReadinessFacts } from './readiness-facts.ts';
import type { Services } from './services.ts';

/** Parts that are listed. */
const mostFound = 100;

/** `K7QD0-01/14`, `K7QD0-01 line 14`, `truck 2.csv line 7` */
function lineSought(text: string): { readonly name: string; readonly line: number } | null {
	const [, name, line] = /^(.*?)(?:\s*\/\s*|[\s,]+line\s*)(\d{1,6})$/iu.exec(text) ?? [];
	return name === undefined || line === undefined ? null : { name: plainMark(name), line: Number(line) };
}

/** Parts of a line of an order or of a packing list, in all its revisions. */
function ofLine({ buying, comparison }: ReadinessFacts, text: string): ReadonlySet<string> {
	const sought = lineSought(text);
	if (!sought) return new Set();
	const ordered = buying.orders
		.filter(({ number }) => plainMark(number) === sought.name)
		.flatMap(({ revisions }) => revisions.flatMap(({ order }) => order.lines))
		.filter(({ number }) => number === sought.line)
		.flatMap(({ partIds }) => partIds);
	const listed = comparison.lines
		.filter(({ delivery, line }) => line === sought.line && plainMark(delivery ?? '') === sought.name)
		.flatMap(({ partIds }) => partIds);
	return new Set([...ordered, ...listed]);
}

/** By its id in any spelling, also one that is easily misread. */
const byId = ({ issued }: JobBuying, text: string): Part[] => {
	const parts = issued.map(({ part }) => part);
	const plain = plainMark(text);
	const exact = parts.filter(({ partId }) => plainMark(partId) === plain);
	return exact.length > 0
		? exact
		: parts.filter(({ partId }) => lookalike(plainMark(partId)) === lookalike(plain));
};

/**
 * Parts by id, by a line of an order or of a packing list, or by words that all stand in what the part is called
 * (`C-101.2 guide left`). Those needed no more are found by their id and by their lines.
 */
export async function findParts(
	actor: Actor,
	services: Services,
	jobId: string,
	sought: string
): Promise<Outcome<FoundParts>> {
	const read = await readReadiness(actor, services, jobId);
	if (!read.ok) return read;
	const { buying, style } = read.value;
	const text = sought
		.replace(/[\p{Cc}\s]+/gu, ' ')
		.trim()
		.slice(0, 200);
	const retired = new Set(buying.issued.filter((one) => one.retired).map(({ part: { partId } }) => partId));
	const wordsOf = (part: Part): string => partWords(part, style);
	const find = (): Part[] => {
		if (text === '') return [];
		const named = byId(buying, text);
		if (named.length > 0) return named;
		const onLine = ofLine(read.value, text);
		if (onLine.size > 0)
			return buying.issued.map(({ part }) => part).filter(({ partId }) => onLine.has(partId));
		const words = text.toLowerCase().split(/[\s,]+/u);
		return buying.parts.filter((part) => {
			const all = `${part.openingId} ${wordsOf(part)} ${part.item}`.toLowerCase();
			return words.every((word) => all.includes(word));
		});
	};
	const parts = find();
	return done({
		sought: text,
		parts: parts.slice(0, mostFound).map((part) => ({
			partId: part.partId,
			openingId: part.openingId,
			words: wordsOf(part),
			retired: retired.has(part.partId)
		})),
		more: Math.max(0, parts.length - mostFound)
	});
}
