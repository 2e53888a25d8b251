/** Which passwords are taken: long ones that are not among the first anybody would try. */
import { longestPassword, shortestPassword } from '../../changes/people.ts';

/** Beginnings of what is tried first, as far as it is long enough; a password that is one of these and little more is refused. */
const common = [
	'password',
	'passwort',
	'passw0rd',
	'p@ssword',
	'p@ssw0rd',
	'qwerty',
	'qwertyuiop',
	'qwertz',
	'azerty',
	'asdfgh',
	'asdfghjkl',
	'1q2w3e4r5t6y',
	'qazwsx',
	'letmein',
	'iloveyou',
	'welcome',
	'administrator',
	'changeme',
	'abcdefghijkl',
	'coilwright'
];

/** What may stand around a common word without making it another. */
const filling = /[\d\s!@#$%&*?._-]/gu;

const isRepeated = (text: string): boolean => /^(.{1,8}?)\1+.{0,3}$/su.test(text);

const upwards = '01234567890123456789';
const downwards = '98765432109876543210';
const isDigitsInOrder = (text: string): boolean => upwards.includes(text) || downwards.includes(text);

/**
 * @param email of the person, which the password must not contain
 * @returns what is wrong with it, in words; null when nothing is.
 */
export function passwordProblem(password: string, email: string): string | null {
	const length = Array.from(password).length;
	if (length < shortestPassword)
		return `A password has at least ${shortestPassword} characters; several words do well.`;
	if (length > longestPassword) return `A password has at most ${longestPassword} characters.`;
	const plain = password.normalize('NFKC').toLowerCase();
	const [name = ''] = email.toLowerCase().split('@');
	if (name.length >= 3 && plain.includes(name))
		return 'The password has the name of the e-mail address in it.';
	const bare = plain.replace(filling, '');
	const words = common.map((word) => [word, word.replace(filling, '')]).flat();
	if (
		isRepeated(plain) ||
		(bare.length >= 6 && isRepeated(bare)) ||
		isDigitsInOrder(plain) ||
		words.some((word) => word.length >= 5 && (plain === word || bare === word))
	)
		return 'This password is among the first that are tried. Take several words that do not belong together.';
	return null;
}
