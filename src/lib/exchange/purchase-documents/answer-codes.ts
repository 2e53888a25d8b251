/** Codes by which a supplier says yes, yes with changes, or no. */
import type { AcknowledgedLine } from '../../delivery/ordering/acknowledgement.ts';

type Answer = NonNullable<AcknowledgedLine['answer']>;

/** `none`: it says nothing of the kind (receipt only, no status). */
export type CodeReading = Answer | 'none' | null;

/**
 * OrderResponseCode. UN/EDIFACT 4343 in the choice of the ordering rules of OpenPeppol (Order Response, T76): AB message
 * received, AP accepted, CA accepted with changes, RE rejected. UN/EDIFACT 1225 as earlier rules used it (27, 29, 30) is
 * *from memory*.
 */
const orderCodes: Readonly<Record<string, Exclude<CodeReading, null>>> = {
	AB: 'none',
	AP: 'accepted',
	CA: 'changed',
	RE: 'refused',
	'27': 'refused',
	'29': 'accepted',
	'30': 'changed'
};

/**
 * LineStatusCode. UN/EDIFACT 1229 (1 added, 2 deleted, 3 changed, 4 no action, 5 accepted without amendment, 6 accepted
 * with amendment, 7 not accepted, 10 not found, 24 accepted with amendment, no confirmation required, 37 cancelled), and
 * the code list LineStatusCode-2.0 of UBL itself (Added, Cancelled, NoStatus, Revised; Disputed is asked).
 */
const lineCodes: Readonly<Record<string, Exclude<CodeReading, null>>> = {
	'1': 'none',
	'2': 'refused',
	'3': 'changed',
	'4': 'none',
	'5': 'accepted',
	'6': 'changed',
	'7': 'refused',
	'10': 'refused',
	'24': 'changed',
	'37': 'refused',
	ADDED: 'none',
	CANCELLED: 'refused',
	NOSTATUS: 'none',
	REVISED: 'changed'
};

/** Words in place of codes. Common practice, no source. */
const words: Readonly<Record<string, Answer>> = {
	ACCEPTED: 'accepted',
	CHANGED: 'changed',
	REFUSED: 'refused',
	REJECTED: 'refused'
};

const plain = (code: string): string => code.trim().toUpperCase();

/** What the code of a whole answer says; null for one that is not in the lists. */
export const readOrderCode = (code: string): CodeReading =>
	orderCodes[plain(code)] ?? words[plain(code)] ?? null;

/** What the code of a line says; null for one that is not in the lists. */
export const readLineCode = (code: string): CodeReading =>
	lineCodes[plain(code)] ?? words[plain(code)] ?? null;
