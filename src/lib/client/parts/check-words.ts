/** Checks in words. */
import type { Check, Severity } from '../../takeoff/result.ts';
import type { Source } from '../../rulebook/definition.ts';

export const severities: readonly Severity[] = ['stop', 'caution', 'note'];

export const severityWords: Record<Severity, string> = { stop: 'Stop', caution: 'Caution', note: 'Note' };

const plural: Record<Severity, string> = { stop: 'stops', caution: 'cautions', note: 'notes' };

export const countOf = (checks: readonly Check[], severity: Severity): number =>
	checks.filter((check) => check.severity === severity).length;

/** `2 stops`, `1 caution`. */
export const countWords = (count: number, severity: Severity): string =>
	`${count} ${count === 1 ? severity : plural[severity]}`;

/** Where a figure or rule comes from, in a word or two. */
export const basisWords: Record<Source['basis'], string> = {
	published: 'Published',
	commonPractice: 'Common practice',
	fromMemory: 'From memory, not looked up',
	shop: 'Shop book',
	invented: 'Invented for the demo',
	definition: 'Definition'
};
