/** What people of a company do. One person may do several of these. */

export const roleIds = ['owner', 'estimator', 'purchasing', 'installer'] as const;
export type Role = (typeof roleIds)[number];

/** Each role, and what it may see and do, in words. */
export const roleWords: Readonly<Record<Role, { readonly name: string; readonly may: string }>> = {
	owner: { name: 'Owner', may: 'People and the shop book' },
	estimator: { name: 'Estimator', may: 'Everything of a job, prices included' },
	purchasing: {
		name: 'Purchasing',
		may: 'Orders, deliveries and what parts cost; no labour rates, no margin, no price of the job'
	},
	installer: { name: 'Installer', may: 'Openings, drawings and deliveries; no price, rate or margin' }
};

/** What the person may do in the pages that are open; the server checks each of it again. */
export interface May {
	/** Open the pages of a job; the list of jobs is for everybody. */
	readonly openJobs: boolean;
	/** Change openings, bring in schedules, undo. */
	readonly editOpenings: boolean;
	/** See the price of the job, rates and margin; freeze bids. */
	readonly seePrice: boolean;
	/** See what parts cost. */
	readonly seeCosts: boolean;
	/** See and write orders, suppliers and the plan. */
	readonly changeOrders: boolean;
	/** Bring in packing lists and take them out. */
	readonly changeDeliveries: boolean;
	/** Invite people, and say what they may do. */
	readonly changePeople: boolean;
}
