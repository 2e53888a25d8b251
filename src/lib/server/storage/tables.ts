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
	/** The first revision from which on everything is in the history. */
	history_from: number;
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

/** Where an edit stands on the stack of its person. What it did is in the history, under its sequence. */
interface EditTable extends OfJob {
	edit_id: string;
	/** Revision of the job that it made. */
	sequence: number;
	actor_id: string;
	state: string;
}

interface HistoryTable extends OfJob {
	revision: number;
	kind: string;
	actor_id: string;
	actor_name: string;
	title: string;
	changes: string;
	inverse: string;
	/** Rows that were changed, added, moved or removed. */
	row_ids: string;
	records: string;
	made_at: string;
}

interface BidTable extends OfJob {
	number: number;
	title: string;
	/** Revision of the job that was frozen. */
	revision: number;
	actor_id: string;
	actor_name: string;
	/** What a list of bids shows. */
	summary: string;
	content: string;
	/** Of summary and content. */
	digest: string;
	frozen_at: string;
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

interface CompanyTable extends OfCompany {
	name: string;
	made_at: string;
}

/** Who belongs to a company. A person belongs to one. */
interface MemberTable extends OfCompany {
	person_id: string;
	roles: string;
	joined_at: string;
	left_at: string | null;
}

interface InvitationTable extends OfCompany {
	invitation_id: string;
	/** Of the secret in the link, which is kept nowhere. */
	token_digest: string;
	name: string;
	email: string;
	roles: string;
	/** Name of the person who invited. */
	invited_by: string;
	made_at: string;
	expires_at: string;
	accepted_at: string | null;
	withdrawn_at: string | null;
}

/** What became of the people and the shop book of a company. */
interface CompanyHistoryTable extends OfCompany {
	entry_id: string;
	actor_id: string;
	actor_name: string;
	title: string;
	records: string;
	made_at: string;
}

/** How often something was tried since a moment. */
interface AttemptTable {
	attempt_key: string;
	started_at: string;
	tries: number;
}

/** What belongs to the installation and to no company. */
interface InstallationTable {
	name: string;
	value: string;
}

/** Written by the accounts library; here only what is read beside it. */
interface PersonTable {
	id: string;
	name: string;
	email: string;
}

interface SessionTable {
	id: string;
	user_id: string;
	token: string;
	expires_at: string | Date;
}

export interface Tables {
	company: CompanyTable;
	member: MemberTable;
	invitation: InvitationTable;
	company_history: CompanyHistoryTable;
	attempt: AttemptTable;
	installation: InstallationTable;
	person: PersonTable;
	session: SessionTable;
	history: HistoryTable;
	bid: BidTable;
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
