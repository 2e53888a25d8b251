/** What the server says about people, as JSON. */
import type { Role } from './roles.ts';

/** A person of the company. */
export interface PersonListing {
	readonly id: string;
	readonly name: string;
	readonly email: string;
	readonly roles: readonly Role[];
	/** ISO 8601, UTC. */
	readonly joinedAt: string;
	/** When they were taken out; null while they belong to it. */
	readonly leftAt: string | null;
	/** The one who asks. */
	readonly you: boolean;
}

export interface InvitationListing {
	readonly id: string;
	readonly name: string;
	readonly email: string;
	readonly roles: readonly Role[];
	/** Name of the person who invited. */
	readonly invitedBy: string;
	readonly madeAt: string;
	readonly expiresAt: string;
	readonly state: 'open' | 'accepted' | 'withdrawn' | 'expired';
}

/** A place where a person is signed in. */
export interface SessionListing {
	readonly id: string;
	readonly madeAt: string;
	readonly expiresAt: string;
	/** Network address; null where it is not known. */
	readonly address: string | null;
	/** What the browser said of itself. */
	readonly browser: string | null;
	/** The one that asks. */
	readonly here: boolean;
}

/** `GET /api/people`, for owners. */
export interface PeopleAnswer {
	readonly company: { readonly name: string };
	readonly people: readonly PersonListing[];
	readonly invitations: readonly InvitationListing[];
	/** What became of people and roles, the latest first. */
	readonly history: readonly { readonly at: string; readonly who: string; readonly title: string }[];
}

/** `POST /api/people/invitations`: the link is shown this once; only a digest of its secret is kept. */
export interface Invited {
	readonly invitation: InvitationListing;
	/** Path of the page that the link opens. */
	readonly path: string;
}

/** `GET /api/account`. */
export interface AccountAnswer {
	readonly name: string;
	readonly email: string;
	readonly company: string;
	readonly roles: readonly Role[];
	readonly sessions: readonly SessionListing[];
}

/** `GET /api/invitations/:token`: what the person who was invited is shown. */
export interface InvitationAnswer {
	readonly company: string;
	readonly name: string;
	readonly email: string;
	readonly roles: readonly Role[];
}

/** Who is at the screen, with every page. Null before signing in. */
export interface Signed {
	readonly id: string;
	readonly name: string;
	readonly company: string | null;
	readonly roles: readonly Role[];
}

/** `alone`: one person at this machine, nobody signs in. */
export type Access = 'alone' | 'accounts';

export const shortestPassword = 12;
export const longestPassword = 128;
