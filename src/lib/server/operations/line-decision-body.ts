/** What may be decided about a line, as the browser sends it. */
import { z } from 'zod';
import type { LineDecision } from '../../delivery/line-decision.ts';
import type { PackingFacts, PackingLine } from '../../delivery/line.ts';
import { typedPackingList, type TypedLine } from '../../exchange/packing-list.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { done, refuse, type Outcome } from './outcome.ts';

const partIds = z.array(z.string().min(1).max(100)).min(1, 'Choose at least one part.').max(5000);
const reason = z
	.string()
	.transform((text) => text.replace(/[\p{Cc}\s]+/gu, ' ').trim())
	.pipe(z.string().min(1, 'Say why.').max(300, 'A reason has at most 300 characters.'));
const quantity = z
	.string()
	.regex(/^\d{1,9}(?:\.\d{1,6})?$/u, 'A quantity is a number above 0, such as 4.')
	.refine((text) => Number(text) > 0, 'A quantity is a number above 0, such as 4.');
const text = z.string().max(500).optional();

const decision = z.discriminatedUnion('kind', [
	z.strictObject({ kind: z.literal('means'), partIds }),
	z.strictObject({
		kind: z.literal('opens'),
		contents: z.array(z.strictObject({ partIds, quantity })).min(1, 'Tick at least one part.').max(200)
	}),
	z.strictObject({ kind: z.literal('substitutes'), partIds, reason }),
	z.strictObject({ kind: z.literal('notOurs'), reason }),
	z.strictObject({
		kind: z.literal('repeats'),
		deliveryId: z.string().min(1).max(100),
		line: z.number().int().min(0)
	}),
	z.strictObject({
		kind: z.literal('reads'),
		/** What it really says, as it would be typed; '' for nothing. */
		typed: z.strictObject({
			orderLine: text,
			partId: text,
			mark: text,
			description: text,
			quantity: text,
			unit: text,
			length: text,
			width: text,
			size: text,
			hand: text,
			finish: text
		})
	})
]);

export const lineDecisionBody = z.strictObject({
	/** Null takes the decision back that stands. */
	decision: decision.nullable(),
	/** When the decision was made that the person saw; null where there was none. */
	seen: z.string().max(40).nullable(),
	/** Whether the supplier’s words are kept in mind. */
	remember: z.boolean()
});
export type SentDecision = NonNullable<z.infer<typeof lineDecisionBody>['decision']>;

/** Fields as typed, without those that are not sent. */
export const typedLine = (sent: Readonly<Record<string, string | undefined>>): TypedLine =>
	Object.fromEntries(
		Object.entries(sent).flatMap(([name, said]) => (said === undefined ? [] : [[name, said]]))
	);

type Reads = Extract<LineDecision, { kind: 'reads' }>;

/**
 * Reads what a person corrected in a line by the rules for typed lists, and keeps what is new in it.
 * @param facts of its list: the order its lines are of
 */
export function readCorrection(
	line: PackingLine,
	typed: TypedLine,
	{ measures, facts }: { readonly measures: Measures; readonly facts: PackingFacts | null }
): Outcome<Reads> {
	const row: TypedLine = {
		description: line.description === '' ? 'line' : line.description,
		quantity: '0',
		...typed
	};
	const list = typedPackingList([row], { measures, ...(facts === null ? {} : { facts }) });
	if (!list.ok) return refuse(422, { message: `${list.message}. Nothing was changed.` });
	const [problem] = list.questions;
	if (problem)
		return refuse(422, {
			message: `${problem.reason}. Nothing was changed.`,
			...(problem.field === null ? {} : { field: problem.field })
		});
	const [read] = list.lines;
	if (!read) return refuse(422, { message: 'Nothing says what part it is. Nothing was changed.' });
	const fields = Object.fromEntries(
		Object.keys(typed).flatMap((name) => {
			const field = name as keyof Reads['fields'];
			return read[field] === line[field] ? [] : [[field, read[field]]];
		})
	) as Reads['fields'];
	if (Object.keys(fields).length === 0)
		return refuse(422, { message: 'It reads as before: change what was misread. Nothing was changed.' });
	return done({ kind: 'reads', fields });
}
