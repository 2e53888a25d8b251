/** Who acts. Every operation takes the person first. */
export interface Actor {
	readonly id: string;
	readonly companyId: string;
	readonly name: string;
}

/** The person at this machine, when nobody has to sign in. */
export const localActor: Actor = { id: 'local', companyId: 'local', name: 'You, at this machine' };
