/** The tables as Kysely sees them. JSON, moments and flags are written and read by `codec.ts`. */

/** In every key: whose it is. */
interface OfCompany {
	company_id: string;
}

interface OfJob extends OfCompany {
	job_id: string;
}

interface JobTable extends OfJob {
	name: string;
	measures: string;
	revision: number;
	technical_digest: string;
	price_digest: string;
	demo: number;
	created_at: string;
	changed_at: string;
	deleted_at: string | null;
}

interface BookTable extends OfCompany {
	digest: string;
	kind: string;
	content: string;
	stored_at: string;
}

/** A removed row stays as an empty place: its id is never used again for another row. */
interface OpeningTable extends OfJob {
	row_id: string;
	position: number;
	cells: string;
	/** Copies out of `cells`, for looking up and adding up. */
	mark: string;
	opening_number: number | null;
	quantity: number;
	removed: number;
}

interface EditTable extends OfJob {
	edit_id: string;
	/** Order of the edits of a job. */
	sequence: number;
	actor_id: string;
	title: string;
	changes: string;
	inverse: string;
	/** Rows that were changed, added or removed. */
	row_ids: string;
	state: string;
	made_at: string;
}

interface PartTable extends OfJob {
	part_id: string;
	/** Opening, kind and side it is for. */
	slot: string;
	interchange_key: string;
	part: string;
	supersedes: string | null;
	issued_at: string;
	retired_at: string | null;
}

interface DeliveryTable extends OfJob {
	delivery_id: string;
	name: string;
	lines: string;
	line_count: number;
	received_at: string;
	removed_at: string | null;
}

/** A view of the sheet that a person saved; one a name. */
interface SheetViewTable extends OfCompany {
	actor_id: string;
	/** The name as names are compared. */
	name_key: string;
	name: string;
	view: string;
	saved_at: string;
}

/** How a person last left the sheet of a job. */
interface LastViewTable extends OfJob {
	actor_id: string;
	view: string;
	left_at: string;
}

/** A confirmed mapping by kind of schedule. */
interface MappingTable extends OfCompany {
	/** Digest of the headings. */
	kind: string;
	mapping: string;
	confirmed_at: string;
}

/** Things done once for a company, such as loading the demo. */
interface MilestoneTable extends OfCompany {
	milestone: string;
	reached_at: string;
}

export interface Tables {
	job: JobTable;
	book: BookTable;
	opening: OpeningTable;
	edit: EditTable;
	part: PartTable;
	delivery: DeliveryTable;
	milestone: MilestoneTable;
	mapping: MappingTable;
	sheet_view: SheetViewTable;
	last_view: LastViewTable;
}
