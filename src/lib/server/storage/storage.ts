/** The way to the database: one repository a noun, alone or together in one transaction. */
import type { Kysely } from 'kysely';
import { AcknowledgementRepository } from './acknowledgement.repository.ts';
import { AttemptRepository } from './attempt.repository.ts';
import { BidRepository } from './bid.repository.ts';
import { BookRepository } from './book.repository.ts';
import { CompanyHistoryRepository } from './company-history.repository.ts';
import { CompanyRepository } from './company.repository.ts';
import { connect, migrate } from './database.ts';
import { CountRepository } from './count.repository.ts';
import { DeliveryRepository } from './delivery.repository.ts';
import { EditRepository } from './edit.repository.ts';
import { HistoryRepository } from './history.repository.ts';
import { InstallationRepository } from './installation.repository.ts';
import { InvitationRepository } from './invitation.repository.ts';
import { JobRepository } from './job.repository.ts';
import type { JobKey } from './keys.ts';
import { LineDecisionRepository } from './line-decision.repository.ts';
import { MappingRepository } from './mapping.repository.ts';
import { MeasureRepository } from './measure.repository.ts';
import { MemberRepository } from './member.repository.ts';
import { MilestoneRepository } from './milestone.repository.ts';
import { OpeningRepository } from './opening.repository.ts';
import { OrderRepository } from './order.repository.ts';
import { PartRepository } from './part.repository.ts';
import { PhotoRepository } from './photo.repository.ts';
import { PlanRepository } from './plan.repository.ts';
import { alone, SharedTransactions } from './shared-transactions.ts';
import { SupplierRepository } from './supplier.repository.ts';
import type { Tables } from './tables.ts';
import { ViewRepository } from './view.repository.ts';

export interface Repositories {
	readonly books: BookRepository;
	readonly jobs: JobRepository;
	readonly openings: OpeningRepository;
	readonly edits: EditRepository;
	readonly history: HistoryRepository;
	readonly bids: BidRepository;
	readonly parts: PartRepository;
	readonly suppliers: SupplierRepository;
	readonly plans: PlanRepository;
	readonly orders: OrderRepository;
	readonly acknowledgements: AcknowledgementRepository;
	readonly deliveries: DeliveryRepository;
	readonly lineDecisions: LineDecisionRepository;
	readonly counts: CountRepository;
	readonly photos: PhotoRepository;
	readonly measures: MeasureRepository;
	readonly milestones: MilestoneRepository;
	readonly mappings: MappingRepository;
	readonly views: ViewRepository;
	readonly companies: CompanyRepository;
	readonly members: MemberRepository;
	readonly invitations: InvitationRepository;
	readonly attempts: AttemptRepository;
	readonly companyHistory: CompanyHistoryRepository;
	readonly installation: InstallationRepository;
	readonly accountsDatabase: AccountsDatabase;
}

function repositories(db: Kysely<Tables>, type: AccountsDatabase['type']): Repositories {
	return {
		books: new BookRepository(db),
		jobs: new JobRepository(db),
		openings: new OpeningRepository(db),
		edits: new EditRepository(db),
		history: new HistoryRepository(db),
		bids: new BidRepository(db),
		parts: new PartRepository(db),
		suppliers: new SupplierRepository(db),
		plans: new PlanRepository(db),
		orders: new OrderRepository(db),
		acknowledgements: new AcknowledgementRepository(db),
		deliveries: new DeliveryRepository(db),
		lineDecisions: new LineDecisionRepository(db),
		counts: new CountRepository(db),
		photos: new PhotoRepository(db),
		measures: new MeasureRepository(db),
		milestones: new MilestoneRepository(db),
		mappings: new MappingRepository(db),
		views: new ViewRepository(db),
		companies: new CompanyRepository(db),
		members: new MemberRepository(db),
		invitations: new InvitationRepository(db),
		attempts: new AttemptRepository(db),
		companyHistory: new CompanyHistoryRepository(db),
		installation: new InstallationRepository(db),
		accountsDatabase: { db, type }
	};
}

/** The tables of accounts, for the library that keeps them. */
interface AccountsDatabase {
	readonly db: Kysely<Tables>;
	readonly type: 'sqlite' | 'postgres';
}

export interface Storage extends Repositories {
	/**
	 * All of it is stored, or, when it throws or its answer is not ok, nothing of it.
	 * @param of the job that it changes: those of one job that wait for each other share the way to the disk.
	 */
	transaction<T extends { readonly ok: boolean }>(
		work: (inside: Repositories) => Promise<T>,
		of?: JobKey
	): Promise<T>;
	close(): Promise<void>;
}

/**
 * Opens a database and brings its tables up to date.
 * @param place a folder for the embedded database (made where it is missing), or the URL of a PostgreSQL database
 * @throws ClosedDatabase when the place can't be reached or written, or was written by a newer version of the program.
 */
export async function openStorage(place: string): Promise<Storage> {
	const database = connect(place);
	const { db, type } = database;
	try {
		await migrate(database);
	} catch (error) {
		await db.destroy();
		throw error;
	}
	const shared = new SharedTransactions(db);
	return {
		...repositories(db, type),
		transaction<T extends { readonly ok: boolean }>(
			work: (inside: Repositories) => Promise<T>,
			of?: JobKey
		): Promise<T> {
			const inside = (transaction: Kysely<Tables>): Promise<T> => work(repositories(transaction, type));
			if (!of) return alone(db, inside);
			// The embedded database has one writer, so there all jobs wait for each other.
			return shared.run(type === 'sqlite' ? '' : `${of.companyId} ${of.jobId}`, inside);
		},
		close: () => db.destroy()
	};
}
