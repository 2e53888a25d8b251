/** Whose and which: every row of every table is found by these first. */

export interface JobKey {
	readonly companyId: string;
	readonly jobId: string;
}

/** Who writes something, as they are called at the time. */
export interface Author {
	readonly id: string;
	readonly name: string;
}

/** The same as columns. */
export const columnsOf = ({ companyId, jobId }: JobKey): { company_id: string; job_id: string } => ({
	company_id: companyId,
	job_id: jobId
});

/** Cuts a list so that one statement never carries more values than a database takes. */
export function inBatches<T>(items: readonly T[]): readonly (readonly T[])[] {
	const batch = 500;
	return Array.from({ length: Math.ceil(items.length / batch) }, (_, i) =>
		items.slice(i * batch, (i + 1) * batch)
	);
}
