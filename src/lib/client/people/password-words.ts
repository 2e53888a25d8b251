import { longestPassword, shortestPassword } from '../../changes/people.ts';

/** The rules, said before a password is typed. */
export const passwordRules = `At least ${shortestPassword} characters, any of them; several words that do not belong together do well. Not the name in your e-mail address.`;

/** What is wrong with a new password as far as a page can say; '' when the server may look at it. */
export function passwordTrouble(password: string): string {
	const { length } = Array.from(password);
	if (length === 0) return 'Choose a password.';
	if (length < shortestPassword)
		return `This has ${length} ${length === 1 ? 'character' : 'characters'}; at least ${shortestPassword} are needed.`;
	if (length > longestPassword) return `This has ${length} characters; at most ${longestPassword} are taken.`;
	return '';
}
