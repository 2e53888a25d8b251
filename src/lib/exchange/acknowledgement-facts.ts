/** What an acknowledgement says above and below its table: numbers, revision, currency, promise, all or nothing. */
import type { Acknowledgement } from '../delivery/ordering/acknowledgement.ts';
import { readDay, type DayOrder } from './day-text.ts';
import { currencyIn } from './price-text.ts';

export type AcknowledgementFacts = Omit<Acknowledgement, 'lines'>;

export interface FactQuestion {
	/** Row or line of the file. */
	readonly line: number;
	readonly text: string;
	readonly reason: string;
}

export interface TextLine {
	readonly line: number;
	/** All cells of the row, a space between. */
	readonly text: string;
}

/** Something that is called by its number: at least one figure in it. */
const name = String.raw`([\p{L}\d][\p{L}\d./-]*\d[\p{L}\d./-]*|\d)`;
const label = String.raw`\s*(?:numbers?|no\b\.?|#)?\s*[:#]?\s*`;
const ours = new RegExp(
	String.raw`\b(?:your (?:purchase )?order|your po|customer(?:['’]?s)? (?:po|order)|purchase order|p\.?o\.?)(?!\p{L})${label}${name}`,
	'iu'
);
const theirs = new RegExp(
	String.raw`\b(?:(?:order )?acknowledge?ments?|(?:order )?confirmation|our (?:order|reference|ref\.?)|sales order)(?!\p{L})${label}${name}`,
	'iu'
);
const revision = /\brev(?:ision|\.)?\s*(?:no\.?|number|#)?\s*[:#]?\s*(\d{1,4})\b/iu;
const promise =
	/\b(?:promised(?: for| by| date)?|(?:planned |expected |estimated )?(?:delivery|ship(?:ping|ment)?|dispatch|despatch)(?: date| day)|expected (?:on|by)|(?:ships|delivers|we (?:ship|deliver)) (?:on|by))\s*:?\s*(.+)$/iu;
const acceptsAll =
	/\b(?:accepted|confirmed|acknowledged|accept|confirm|acknowledge)\b[^.]*\b(?:in full|as ordered|as it stands|without (?:any )?changes?|as placed)\b/iu;
const refusesAll =
	/\b(?:we|order is|order was|order has been)\b[^.]*\b(?:refuse|refused|reject|rejected|decline|declined|can(?:not|['’]t) accept)\b/iu;

/** The only value that some lines name; null where they name none or several, which is asked. */
function only<T extends string | number>(
	found: readonly { readonly at: TextLine; readonly value: T }[],
	what: string,
	questions: FactQuestion[]
): T | null {
	const values = [...new Set(found.map(({ value }) => value))];
	const [first, other] = values;
	if (first === undefined) return null;
	if (other === undefined) return first;
	const last = found.at(-1);
	questions.push({
		line: last?.at.line ?? 1,
		text: last?.at.text ?? '',
		reason: `${what} is given as ${values.join(' and as ')}; none is taken`
	});
	return null;
}

/** @param lines everything that is no line of the table */
export function acknowledgementFacts(
	lines: readonly TextLine[],
	dayOrder: DayOrder | null
): { readonly facts: AcknowledgementFacts; readonly questions: readonly FactQuestion[] } {
	const questions: FactQuestion[] = [];
	const all = (pattern: RegExp) =>
		lines.flatMap((at) => {
			const value = pattern.exec(at.text)?.[1]?.replace(/[./-]+$/u, '');
			return value === undefined ? [] : [{ at, value }];
		});
	const days = all(promise).flatMap(({ at, value }) => {
		const read = readDay(value, dayOrder);
		if (read.ok) return [{ at, value: read.day }];
		if (/\d/u.test(value)) questions.push({ line: at.line, text: at.text, reason: read.reason });
		return [];
	});
	const currencies = lines.flatMap((at) => {
		const value = currencyIn(at.text);
		return value === null ? [] : [{ at, value }];
	});
	const refused = lines.some(({ text }) => refusesAll.test(text));
	const accepted = lines.some(({ text }) => acceptsAll.test(text));
	return {
		facts: {
			number: only(all(theirs), 'the number of the acknowledgement', questions),
			orderNumber: only(all(ours), 'the number of the order', questions),
			orderRevision: only(
				all(revision).map(({ at, value }) => ({ at, value: Number(value) })),
				'the revision of the order',
				questions
			),
			currency: only(currencies, 'the currency', questions),
			promised: only(days, 'the promised day', questions),
			whole: refused === accepted ? null : refused ? 'refused' : 'accepted'
		},
		questions
	};
}
