/** What may be said about people. */
import { z } from 'zod';
import { roleIds, type Role } from '../../changes/roles.ts';
import { longestPassword } from '../../changes/people.ts';
import type { Visit } from './visit.ts';

/**
 * A name as it is kept. Control characters have no place in it, nor those that turn the direction of what stands beside
 * it; white space counts once. Blank where nothing of it can be seen.
 */
export function nameOf(text: string): string {
	const name = text.replace(/[\p{Cc}\p{Bidi_Control}\s]+/gu, ' ').trim();
	return /[\p{L}\p{N}\p{P}\p{S}]/u.test(name) ? name : '';
}

export const personName = z
	.string('Say the name.')
	.transform(nameOf)
	.pipe(z.string().min(1, 'Say the name.').max(120, 'A name has at most 120 characters.'));

export const email = z
	.string('Say the e-mail address.')
	.transform((text) => text.trim().toLowerCase())
	.pipe(z.email('This is not an e-mail address.').max(254, 'An e-mail address has at most 254 characters.'));

/** As it is typed to sign in; what a new one has to be is said by the rules for passwords. */
export const typedPassword = z
	.string('Say the password.')
	.min(1, 'Say the password.')
	// Counted in UTF-16, where a character may be two.
	.max(2 * longestPassword, `A password has at most ${longestPassword} characters.`);

export const roles = z
	.array(z.enum(roleIds, 'A role is owner, estimator, purchasing or installer.'))
	.min(1, 'Say what the person may do: one of the roles at least.')
	.max(20)
	.transform((chosen): readonly Role[] => roleIds.filter((role) => chosen.includes(role)));

export const placeOf = ({ address, browser }: Visit): { address: string; browser: string | null } => ({
	address,
	browser
});
