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
	supplier_id: string | null;
	/** What the list says of itself. */
	facts: string | null;
	/** Of what was read, to know the same list again. */
	digest: string | null;
	/** What a person said about the whole list. */
	answers: string;
	/** Who finished counting it, and when. */
	counted: string | null;
}

interface SupplierTable extends OfCompany {
	supplier_id: string;
	supplier: string;
	changed_at: string;
	removed_at: string | null;
}

/** What a supplier calls something. */
interface SupplierWordTable extends OfCompany {
	supplier_id: string;
	alias_id: string;
	alias: string;
	actor_id: string;
	actor_name: string;
	made_at: string;
	withdrawn_at: string | null;
}

interface OpeningPlanTable extends OfJob {
	/** Row of the mark and number: a mark can be renamed. */
	opening_key: string;
	starts_on: string | null;
	release_number: number;
	bought_as: string;
}

interface PurchaseOrderTable extends OfJob {
	order_id: string;
	number: string;
	supplier_id: string;
	made_at: string;
	withdrawn_at: string | null;
}

/** Written once; only its release is added. One that was not released may be written anew. */
interface OrderRevisionTable extends OfJob {
	order_id: string;
	revision: number;
	content: string;
	actor_id: string;
	actor_name: string;
	made_at: string;
	released: string | null;
}

interface AcknowledgementTable extends OfJob {
	acknowledgement_id: string;
	order_id: string;
	name: string;
	content: string;
	digest: string;
	actor_name: string;
	received_at: string;
	withdrawn_at: string | null;
}

/** What stands now; what stood before is in the history. */
interface DifferenceDecisionTable extends OfJob {
	order_id: string;
	difference: string;
	decision: string;
	reason: string;
	actor_id: string;
	actor_name: string;
	decided_at: string;
}

/** What stands now; what stood before is in the history. */
interface LineDecisionTable extends OfJob {
	delivery_id: string;
	line: number;
	decision: string;
	actor_id: string;
	actor_name: string;
	decided_at: string;
}

/** Written once, never changed. */
interface SiteCountTable extends OfJob {
	count_id: string;
	delivery_id: string;
	content: string;
	actor_id: string;
	actor_name: string;
	counted_at: string;
	received_at: string;
}

/** The picture itself as base64 text. */
interface PhotoTable extends OfJob {
	photo_id: string;
	media_type: string;
	content: string;
	digest: string;
	actor_id: string;
	actor_name: string;
	received_at: string;
}

interface FieldMeasureTable extends OfJob {
	measure_id: string;
	opening_key: string;
	readings: string;
	note: string;
	actor_id: string;
	actor_name: string;
	measured_at: string;
	received_at: string;
	withdrawn_at: string | null;
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
	supplier: SupplierTable;
	supplier_word: SupplierWordTable;
	opening_plan: OpeningPlanTable;
	purchase_order: PurchaseOrderTable;
	order_revision: OrderRevisionTable;
	acknowledgement: AcknowledgementTable;
	difference_decision: DifferenceDecisionTable;
	line_decision: LineDecisionTable;
	site_count: SiteCountTable;
	photo: PhotoTable;
	field_measure: FieldMeasureTable;
	milestone: MilestoneTable;
	mapping: MappingTable;
	sheet_view: SheetViewTable;
	last_view: LastViewTable;
}
