/** How often may be tried what could be guessed. Counted in the database, so for all servers together. */
import { createHash } from 'node:crypto';
import { isIPv6 } from 'node:net';
import { refuse, type Refused } from './outcome.ts';
import type { Services } from './services.ts';

/** Minutes for which tries are counted together. */
const window = 15;
const minute = 60_000;

export interface Limit {
	readonly key: string;
	readonly most: number;
}

const digest = (text: string): string => createHash('sha256').update(text).digest('base64url');

/** Of an IPv6 address the network, as far as one household or office has it; an IPv4 address as it is. */
function networkOf(address: string): string {
	if (!isIPv6(address)) return address;
	const [before = '', after = ''] = (address.split('%')[0] ?? '').toLowerCase().split('::');
	const [head, tail] = [before, after].map((part) => part.split(':').filter((group) => group !== ''));
	const zeros = Array<string>(Math.max(0, 8 - (head?.length ?? 0) - (tail?.length ?? 0))).fill('0');
	const groups = address.includes('::') ? [...(head ?? []), ...zeros, ...(tail ?? [])] : (head ?? []);
	return groups
		.slice(0, 4)
		.map((group) => group.replace(/^0+(?=.)/u, ''))
		.join(':');
}

export const signInLimits = (email: string, address: string): readonly Limit[] => [
	{ key: `account ${digest(email)}`, most: 10 },
	{ key: `sign-in ${networkOf(address)}`, most: 50 }
];
export const passwordLimits = (personId: string): readonly Limit[] => [
	{ key: `password ${personId}`, most: 10 }
];
export const invitationLimits = (address: string): readonly Limit[] => [
	{ key: `invitation ${networkOf(address)}`, most: 50 }
];

/**
 * Counts a try before it is looked at, so that many at once are not more than one after the other.
 * @returns a refusal that says when to try again, however right this one may be; null when it may be tried.
 */
export async function countTry(services: Services, limits: readonly Limit[]): Promise<Refused | null> {
	const { storage } = services;
	const at = services.now();
	const since = new Date(at.getTime() - window * minute);
	await storage.attempts.forget(since);
	let wait = 0;
	for (const { key, most } of limits) {
		const { tries, startedAt } = await storage.attempts.count(key, since, at);
		if (tries > most) wait = Math.max(wait, startedAt.getTime() - since.getTime());
	}
	if (wait === 0) return null;
	const minutes = Math.max(1, Math.ceil(wait / minute));
	const message = `That was tried too often. Try again in ${minutes} ${minutes === 1 ? 'minute' : 'minutes'}.`;
	return refuse(429, { message }, Math.max(1, Math.ceil(wait / 1000)));
}

/** What was right is not counted against anybody. */
export async function takeBackTry({ storage }: Services, limits: readonly Limit[]): Promise<void> {
	for (const { key } of limits) await storage.attempts.takeBack(key);
}
