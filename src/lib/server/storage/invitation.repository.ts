/** Invitations into a company. The secret of their link is stored nowhere, only its digest. */
import type { Kysely, Selectable } from 'kysely';
import type { Role } from '../../changes/roles.ts';
import { codec, instant } from './codec.ts';
import type { Tables } from './tables.ts';

export interface Invitation {
	readonly id: string;
	readonly companyId: string;
	readonly name: string;
	readonly email: string;
	readonly roles: readonly Role[];
	readonly invitedBy: string;
	/** ISO 8601, UTC, as the others. */
	readonly madeAt: string;
	readonly expiresAt: string;
	readonly acceptedAt: string | null;
	readonly withdrawnAt: string | null;
}

export interface NewInvitation extends Omit<
	Invitation,
	'madeAt' | 'expiresAt' | 'acceptedAt' | 'withdrawnAt'
> {
	readonly tokenDigest: string;
	readonly madeAt: Date;
	readonly expiresAt: Date;
}

const invitationOf = (row: Selectable<Tables['invitation']>): Invitation => ({
	id: row.invitation_id,
	companyId: row.company_id,
	name: row.name,
	email: row.email,
	roles: codec.roles.read(row.roles),
	invitedBy: row.invited_by,
	madeAt: row.made_at,
	expiresAt: row.expires_at,
	acceptedAt: row.accepted_at,
	withdrawnAt: row.withdrawn_at
});

export class InvitationRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async add(invitation: NewInvitation): Promise<void> {
		await this.#db
			.insertInto('invitation')
			.values({
				company_id: invitation.companyId,
				invitation_id: invitation.id,
				token_digest: invitation.tokenDigest,
				name: invitation.name,
				email: invitation.email,
				roles: codec.roles.write(invitation.roles),
				invited_by: invitation.invitedBy,
				made_at: instant.write(invitation.madeAt),
				expires_at: instant.write(invitation.expiresAt),
				accepted_at: null,
				withdrawn_at: null
			})
			.execute();
	}

	/** Of a company, the latest first, at most `most`. */
	async list(companyId: string, most: number): Promise<Invitation[]> {
		const rows = await this.#db
			.selectFrom('invitation')
			.selectAll()
			.where('company_id', '=', companyId)
			.orderBy('made_at', 'desc')
			.orderBy('invitation_id')
			.limit(most)
			.execute();
		return rows.map(invitationOf);
	}

	async find(companyId: string, invitationId: string): Promise<Invitation | null> {
		const row = await this.#db
			.selectFrom('invitation')
			.selectAll()
			.where('company_id', '=', companyId)
			.where('invitation_id', '=', invitationId)
			.executeTakeFirst();
		return row ? invitationOf(row) : null;
	}

	async ofToken(tokenDigest: string): Promise<Invitation | null> {
		const row = await this.#db
			.selectFrom('invitation')
			.selectAll()
			.where('token_digest', '=', tokenDigest)
			.executeTakeFirst();
		return row ? invitationOf(row) : null;
	}

	/** Marks it as used. False when it was used or withdrawn before. */
	async accept(companyId: string, invitationId: string, at: Date): Promise<boolean> {
		return this.#close(companyId, 'accepted_at', at, invitationId);
	}

	/** False when it was used or withdrawn before. */
	async withdraw(companyId: string, invitationId: string, at: Date): Promise<boolean> {
		return this.#close(companyId, 'withdrawn_at', at, invitationId);
	}

	/** Withdraws what is open for an address. */
	async withdrawAllTo(companyId: string, email: string, at: Date): Promise<void> {
		await this.#open(companyId, 'withdrawn_at', at).where('email', '=', email).execute();
	}

	async #close(
		companyId: string,
		column: 'accepted_at' | 'withdrawn_at',
		at: Date,
		invitationId: string
	): Promise<boolean> {
		const result = await this.#open(companyId, column, at)
			.where('invitation_id', '=', invitationId)
			.executeTakeFirst();
		return result.numUpdatedRows > 0n;
	}

	#open(companyId: string, column: 'accepted_at' | 'withdrawn_at', at: Date) {
		return this.#db
			.updateTable('invitation')
			.set({ [column]: instant.write(at) })
			.where('company_id', '=', companyId)
			.where('accepted_at', 'is', null)
			.where('withdrawn_at', 'is', null);
	}
}
