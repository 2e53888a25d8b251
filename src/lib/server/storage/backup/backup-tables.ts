/** Which tables a backup holds, and how their rows are told apart. */

export interface BackupTable {
	readonly name: string;
	/** Columns of its key: rows are written in this order. */
	readonly key: readonly string[];
	/** How its rows are known to be a company's: by a column, or by the person they are of. */
	readonly company: 'company_id' | { readonly person: string };
}

const job = (name: string, ...rest: readonly string[]): BackupTable => ({
	name,
	key: ['company_id', 'job_id', ...rest],
	company: 'company_id'
});
const company = (name: string, ...rest: readonly string[]): BackupTable => ({
	name,
	key: ['company_id', ...rest],
	company: 'company_id'
});

/** A table comes after those it refers to. */
export const backupTables: readonly BackupTable[] = [
	company('company'),
	company('book', 'digest'),
	company('milestone', 'milestone'),
	company('mapping', 'kind'),
	job('job'),
	job('opening', 'row_id'),
	job('edit', 'edit_id'),
	job('history', 'revision'),
	job('bid', 'number'),
	job('part', 'part_id'),
	job('delivery', 'delivery_id'),
	company('supplier', 'supplier_id'),
	company('supplier_word', 'supplier_id', 'alias_id'),
	job('opening_plan', 'opening_key'),
	job('purchase_order', 'order_id'),
	job('order_revision', 'order_id', 'revision'),
	job('acknowledgement', 'acknowledgement_id'),
	job('difference_decision', 'order_id', 'difference'),
	job('line_decision', 'delivery_id', 'line'),
	job('site_count', 'count_id'),
	job('photo', 'photo_id'),
	job('field_measure', 'measure_id'),
	company('sheet_view', 'actor_id', 'name_key'),
	job('last_view', 'actor_id'),
	{ name: 'person', key: ['id'], company: { person: 'id' } },
	{ name: 'credential', key: ['id'], company: { person: 'user_id' } },
	company('member', 'person_id'),
	company('invitation', 'invitation_id'),
	company('company_history', 'entry_id')
];

/**
 * Tables that no backup holds: who is signed in and what was tried are of the moment, and the installation is that of the
 * secret, which stays with the server.
 */
export const leftOut: readonly string[] = ['session', 'verification', 'attempt', 'installation'];
