/** What the pages about suppliers and the plan of a job are answered. */
import type { Alias } from '../delivery/line-decision.ts';
import type { OpeningPlan, Supplier } from '../delivery/ordering/purchase-order.ts';

/** What a supplier calls something, and who said so. */
export interface SupplierWord extends Omit<Alias, 'supplierId'> {
	readonly by: string;
	/** ISO 8601, UTC. */
	readonly madeAt: string;
	readonly withdrawn: boolean;
}

export interface SupplierListing extends Supplier {
	readonly words: readonly SupplierWord[];
}

export interface SuppliersAnswer {
	readonly suppliers: readonly SupplierListing[];
}

/** `PUT /api/jobs/:job/plan` */
export interface PlanAnswer {
	readonly plans: readonly OpeningPlan[];
}
