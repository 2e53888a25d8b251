/**
 * Accounts and sessions: who a person is, by e-mail address and password. The only place that knows the accounts library.
 * Its own pages and endpoints are not served; what is said here is all that reaches it.
 */
import { createHmac, timingSafeEqual } from 'node:crypto';
import { longestPassword, shortestPassword } from '../../changes/people.ts';

/** Tables of accounts, as the library takes them. */
export interface AccountTables {
	/** Kysely on the database, or on a transaction of it. */
	readonly db: object;
	readonly type: 'sqlite' | 'postgres';
}

export interface AccountKeys {
	/** Signs what browsers keep of a sign-in. */
	readonly secret: string;
	/** Where people reach the program; null: by a name of this machine, over http. */
	readonly origin: string | null;
}

/** Where somebody is who signs in. */
export interface Place {
	readonly address: string | null;
	/** What the browser says of itself. */
	readonly browser: string | null;
}

/** Somebody who has just signed in. */
export interface SignedIn {
	readonly personId: string;
	/** Of their session. */
	readonly token: string;
	/** `Set-Cookie`, for the browser. */
	readonly cookies: readonly string[];
}

export interface AccountSession {
	readonly id: string;
	readonly token: string;
	readonly madeAt: Date;
	readonly expiresAt: Date;
	readonly address: string | null;
	readonly browser: string | null;
}

const day = 24 * 60 * 60;
/** A session ends when it was not used for so long, seconds. */
const sessionLasts = 7 * day;
/** A session that is used is made longer at most so often, seconds. */
const refreshedEvery = day;

const cookiePrefix = 'coilwright';
const addressHeader = 'x-coilwright-address';

async function openLibrary(tables: AccountTables, { secret, origin }: AccountKeys) {
	// It is large, and of no use to a person alone at their machine.
	const { betterAuth } = await import('better-auth');
	const auth = betterAuth({
		appName: 'Coilwright',
		baseURL: origin ?? 'http://localhost',
		// Named so, nothing in the environment takes its place.
		secrets: [{ version: 1, value: secret }],
		database: tables,
		telemetry: { enabled: false },
		// Its messages may quote what a person typed. What fails is thrown, and reported by our own log.
		logger: { disabled: true },
		rateLimit: { enabled: false },
		emailAndPassword: {
			enabled: true,
			disableSignUp: true,
			minPasswordLength: shortestPassword,
			maxPasswordLength: longestPassword
		},
		user: {
			modelName: 'person',
			fields: { emailVerified: 'email_verified', createdAt: 'created_at', updatedAt: 'updated_at' }
		},
		session: {
			modelName: 'session',
			expiresIn: sessionLasts,
			updateAge: refreshedEvery,
			fields: {
				userId: 'user_id',
				expiresAt: 'expires_at',
				ipAddress: 'ip_address',
				userAgent: 'user_agent',
				createdAt: 'created_at',
				updatedAt: 'updated_at'
			}
		},
		account: {
			modelName: 'credential',
			fields: {
				accountId: 'account_id',
				providerId: 'provider_id',
				userId: 'user_id',
				accessToken: 'access_token',
				refreshToken: 'refresh_token',
				idToken: 'id_token',
				accessTokenExpiresAt: 'access_token_expires_at',
				refreshTokenExpiresAt: 'refresh_token_expires_at',
				createdAt: 'created_at',
				updatedAt: 'updated_at'
			}
		},
		verification: {
			modelName: 'verification',
			fields: { expiresAt: 'expires_at', createdAt: 'created_at', updatedAt: 'updated_at' }
		},
		advanced: {
			cookiePrefix,
			useSecureCookies: isEncrypted(origin),
			ipAddress: { ipAddressHeaders: [addressHeader] },
			database: { validateSchema: false }
		}
	});
	return { api: auth.api, context: await auth.$context };
}

type Library = Awaited<ReturnType<typeof openLibrary>>;

const isEncrypted = (origin: string | null): boolean => origin?.startsWith('https:') === true;

const emptyIsNull = (text: string | null | undefined): string | null =>
	text === undefined || text === '' ? null : text;

/** The library wraps what a database throws. */
function unwrapped(thrown: unknown): unknown {
	return thrown instanceof Error && thrown.cause !== undefined ? thrown.cause : thrown;
}

const isWrongPassword = (thrown: unknown): boolean =>
	thrown instanceof Error &&
	'statusCode' in thrown &&
	(thrown.statusCode === 401 || thrown.statusCode === 400);

export class Accounts {
	readonly #tables: AccountTables;
	readonly #keys: AccountKeys;
	#library: Promise<Library> | null = null;

	constructor(tables: AccountTables, keys: AccountKeys) {
		this.#tables = tables;
		this.#keys = keys;
	}

	/** The same accounts, inside a transaction. */
	inside(tables: AccountTables): Accounts {
		return new Accounts(tables, this.#keys);
	}

	/** The token of the session in a `Cookie` header; null where there is none, or it is not signed by this installation. */
	tokenIn(cookies: string | null): string | null {
		const name = `${isEncrypted(this.#keys.origin) ? '__Secure-' : ''}${cookiePrefix}.session_token=`;
		const part = (cookies ?? '')
			.split(';')
			.map((one) => one.trim())
			.find((one) => one.startsWith(name));
		if (part === undefined) return null;
		const [, token = '', signature = ''] =
			/^([A-Za-z0-9]{1,64})\.(.{1,64})$/su.exec(decoded(part.slice(name.length))) ?? [];
		if (token === '') return null;
		const right = createHmac('sha256', this.#keys.secret).update(token).digest();
		const given = Buffer.from(signature, 'base64');
		return given.length === right.length && timingSafeEqual(given, right) ? token : null;
	}

	/** Null when there is no such account or the password is another; both take the same time. */
	async signIn(email: string, password: string, place: Place): Promise<SignedIn | null> {
		const { api } = await this.#open();
		try {
			const { headers, response } = await api.signInEmail({
				body: { email, password },
				headers: headersOf(place),
				returnHeaders: true
			});
			return { personId: response.user.id, token: response.token, cookies: headers.getSetCookie() };
		} catch (thrown) {
			if (isWrongPassword(thrown)) return null;
			throw unwrapped(thrown);
		}
	}

	/** Whether a session is to be made longer. */
	isDue(expiresAt: Date, at: Date): boolean {
		return expiresAt.getTime() - at.getTime() < (sessionLasts - refreshedEvery) * 1000;
	}

	/** Makes a session longer. @returns `Set-Cookie`, for the browser. */
	async lengthen(cookies: string): Promise<readonly string[]> {
		const { api } = await this.#open();
		try {
			const { headers } = await api.getSession({
				headers: new Headers({ cookie: cookies }),
				returnHeaders: true
			});
			return headers.getSetCookie();
		} catch (thrown) {
			throw unwrapped(thrown);
		}
	}

	/** Ends the session of a `Cookie` header. @returns `Set-Cookie` that makes the browser forget it. */
	async signOut(cookies: string | null): Promise<readonly string[]> {
		const { api, context } = await this.#open();
		const token = this.tokenIn(cookies);
		if (token !== null) await context.internalAdapter.deleteSession(token);
		const { headers } = await api.signOut({ headers: new Headers(), returnHeaders: true });
		return headers.getSetCookie();
	}

	/** Those in force, the latest first. */
	async sessions(personId: string): Promise<AccountSession[]> {
		const { context } = await this.#open();
		const sessions = await context.internalAdapter.listSessions(personId, { onlyActiveSessions: true });
		return sessions
			.map(({ id, token, createdAt, expiresAt, ipAddress, userAgent }) => ({
				id,
				token,
				madeAt: createdAt,
				expiresAt,
				address: emptyIsNull(ipAddress),
				browser: emptyIsNull(userAgent)
			}))
			.sort((a, b) => b.madeAt.getTime() - a.madeAt.getTime());
	}

	async endSessions(tokens: readonly string[]): Promise<void> {
		if (tokens.length === 0) return;
		const { context } = await this.#open();
		await context.internalAdapter.deleteSessions([...tokens]);
	}

	async endAllSessions(personId: string): Promise<void> {
		const { context } = await this.#open();
		await context.internalAdapter.deleteUserSessions(personId);
	}

	async isPassword(personId: string, password: string): Promise<boolean> {
		const { context } = await this.#open();
		const hash = (await context.internalAdapter.findCredentialAccount(personId))?.password;
		return typeof hash === 'string' && context.password.verify({ hash, password });
	}

	/** What is kept of a password. Takes a good part of a second's work on purpose: never inside a transaction. */
	async hashOf(password: string): Promise<string> {
		const { context } = await this.#open();
		return context.password.hash(password);
	}

	/** Id of the person with an address; null where there is none. */
	async find(email: string): Promise<string | null> {
		const { context } = await this.#open();
		return (await context.internalAdapter.findUserByEmail(email))?.user.id ?? null;
	}

	/** @param id one that was never given; null for any */
	async add(
		person: { readonly name: string; readonly email: string },
		hash: string,
		id: string | null
	): Promise<string> {
		const { context } = await this.#open();
		const { internalAdapter } = context;
		const made = await internalAdapter.createUser(
			{ name: person.name, email: person.email, emailVerified: true, ...(id === null ? {} : { id }) },
			{ method: 'email-password' }
		);
		await internalAdapter.linkAccount({
			userId: made.id,
			accountId: made.id,
			providerId: 'credential',
			password: hash
		});
		return made.id;
	}

	async rename(personId: string, name: string): Promise<void> {
		const { context } = await this.#open();
		await context.internalAdapter.updateUser(personId, { name });
	}

	async setPassword(personId: string, hash: string): Promise<void> {
		const { context } = await this.#open();
		await context.internalAdapter.updatePassword(personId, hash);
	}

	#open(): Promise<Library> {
		this.#library ??= openLibrary(this.#tables, this.#keys);
		return this.#library;
	}
}

function headersOf({ address, browser }: Place): Headers {
	const headers = new Headers();
	if (address !== null) headers.set(addressHeader, address);
	if (browser !== null) headers.set('user-agent', browser.slice(0, 500));
	return headers;
}

function decoded(text: string): string {
	try {
		return decodeURIComponent(text);
	} catch {
		return '';
	}
}
