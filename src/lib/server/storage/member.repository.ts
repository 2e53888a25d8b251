/** Who belongs to which company, and which of them a session is of. */
import type { Kysely } from 'kysely';
import type { Role } from '../../changes/roles.ts';
import { codec, instant } from './codec.ts';
import type { Tables } from './tables.ts';

export interface Member {
	readonly personId: string;
	readonly name: string;
	readonly email: string;
	readonly roles: readonly Role[];
	/** ISO 8601, UTC. */
	readonly joinedAt: string;
	readonly leftAt: string | null;
}

/** A session that is in force, and whose it is. */
export interface MemberSession {
	readonly sessionId: string;
	readonly personId: string;
	readonly name: string;
	readonly companyId: string;
	readonly companyName: string;
	readonly roles: readonly Role[];
	readonly expiresAt: Date;
}

const columns = [
	'member.person_id',
	'person.name',
	'person.email',
	'member.roles',
	'member.joined_at',
	'member.left_at'
] as const;

const memberOf = (row: {
	readonly person_id: string;
	readonly name: string;
	readonly email: string;
	readonly roles: string;
	readonly joined_at: string;
	readonly left_at: string | null;
}): Member => ({
	personId: row.person_id,
	name: row.name,
	email: row.email,
	roles: codec.roles.read(row.roles),
	joinedAt: row.joined_at,
	leftAt: row.left_at
});

export class MemberRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** Whether anybody can sign in to anything that is stored here. */
	async any(): Promise<boolean> {
		const row = await this.#db.selectFrom('member').select('person_id').limit(1).executeTakeFirst();
		return row !== undefined;
	}

	/** People of a company, those who left included, in the order they came. */
	async list(companyId: string): Promise<Member[]> {
		const rows = await this.#people()
			.where('member.company_id', '=', companyId)
			.orderBy('member.joined_at')
			.orderBy('member.person_id')
			.select(columns)
			.execute();
		return rows.map(memberOf);
	}

	async find(companyId: string, personId: string): Promise<Member | null> {
		const row = await this.#people()
			.where('member.company_id', '=', companyId)
			.where('member.person_id', '=', personId)
			.select(columns)
			.executeTakeFirst();
		return row ? memberOf(row) : null;
	}

	/** The company a person is or was with, whichever it is. */
	async ofPerson(personId: string): Promise<{ companyId: string; left: boolean } | null> {
		const row = await this.#db
			.selectFrom('member')
			.select(['company_id', 'left_at'])
			.where('person_id', '=', personId)
			.executeTakeFirst();
		return row ? { companyId: row.company_id, left: row.left_at !== null } : null;
	}

	/** Whose session it is, while it is in force and they belong to a company; else null. */
	async ofSession(token: string, at: Date): Promise<MemberSession | null> {
		const row = await this.#db
			.selectFrom('session')
			.innerJoin('person', 'person.id', 'session.user_id')
			.innerJoin('member', 'member.person_id', 'person.id')
			.innerJoin('company', 'company.company_id', 'member.company_id')
			.where('session.token', '=', token)
			.where('member.left_at', 'is', null)
			.select([
				'session.id',
				'session.expires_at',
				'person.id as person_id',
				'person.name',
				'member.roles',
				'company.company_id',
				'company.name as company_name'
			])
			.executeTakeFirst();
		if (!row) return null;
		const expiresAt = new Date(row.expires_at);
		if (expiresAt <= at) return null;
		return {
			sessionId: row.id,
			personId: row.person_id,
			name: row.name,
			companyId: row.company_id,
			companyName: row.company_name,
			roles: codec.roles.read(row.roles),
			expiresAt
		};
	}

	/** Takes a person in, who may have been with this company or another before. */
	async join(companyId: string, personId: string, roles: readonly Role[], at: Date): Promise<void> {
		const membership = {
			company_id: companyId,
			roles: codec.roles.write(roles),
			joined_at: instant.write(at),
			left_at: null
		};
		await this.#db
			.insertInto('member')
			.values({ person_id: personId, ...membership })
			.onConflict((conflict) => conflict.column('person_id').doUpdateSet(membership))
			.execute();
	}

	async giveRoles(companyId: string, personId: string, roles: readonly Role[]): Promise<void> {
		await this.#db
			.updateTable('member')
			.set({ roles: codec.roles.write(roles) })
			.where('company_id', '=', companyId)
			.where('person_id', '=', personId)
			.execute();
	}

	async leave(companyId: string, personId: string, at: Date): Promise<void> {
		await this.#db
			.updateTable('member')
			.set({ left_at: instant.write(at) })
			.where('company_id', '=', companyId)
			.where('person_id', '=', personId)
			.execute();
	}

	#people() {
		return this.#db.selectFrom('member').innerJoin('person', 'person.id', 'member.person_id');
	}
}
