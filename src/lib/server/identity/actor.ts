import { roleIds, type Role } from '../../changes/roles.ts';

/** Who acts. Every operation takes the person first. */
export interface Actor {
	readonly id: string;
	readonly companyId: string;
	readonly name: string;
	readonly roles: readonly Role[];
}

/** The person at this machine, when nobody has to sign in. */
export const localActor: Actor = {
	id: 'local',
	companyId: 'local',
	name: 'You, at this machine',
	roles: roleIds
};

/** Somebody who has not signed in: of no company, and with nothing they may do. */
export const nobody: Actor = { id: '', companyId: '', name: '', roles: [] };
