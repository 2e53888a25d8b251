import { describe, expect, it } from 'vitest';
import { passwordProblem } from './password-rules.ts';

const email = 'wren.holt@terngannet.example';

describe('a password', () => {
	it.each([
		'slate gull forty pier',
		'7f$3a!92_xB8',
		'correcthorsebattery',
		'müde Möwen über Mole',
		'839204718264',
		'f83f927364512',
		'my password is a poem',
		'x'.repeat(60) + 'yz-pier-q7'.repeat(6),
		`${'slate gull forty pier '.repeat(5)}and the quay 98765`
	])('“%s” is taken', (password) => {
		expect(passwordProblem(password, email)).toBeNull();
	});

	it.each([
		['short gull', /at least 12 characters/u],
		['🦀'.repeat(11), /at least 12 characters/u],
		['slate gull '.repeat(12), /at most 128 characters/u],
		['Password1234', /among the first/u],
		['p@ssw0rd!!!!!', /among the first/u],
		['123456789012', /among the first/u],
		['987654321098', /among the first/u],
		['aaaaaaaaaaaa', /among the first/u],
		['abcabcabcabc', /among the first/u],
		['slate1slate2slate3', /among the first/u],
		['ｐａｓｓｗｏｒｄ１２３４', /among the first/u],
		['passwordpassword', /among the first/u],
		['QWERTYUIOP12', /among the first/u],
		['Coilwright 2026!', /among the first/u],
		['wren.holt-2026-x', /name of the e-mail address/u],
		['WREN.HOLT is here', /name of the e-mail address/u]
	])('“%s” is refused', (password, words) => {
		expect(passwordProblem(password, email)).toMatch(words);
	});
});
