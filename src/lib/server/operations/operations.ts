/** The only door to the operations: who acts is asked here, once, before anything is looked at. */
import type { Actor } from '../identity/actor.ts';
import { acceptInvitation, readInvitation } from './accept-invitation.ts';
import { applyEdit } from './apply-edit.ts';
import { applyModel } from './apply-model.ts';
import { applySchedule } from './apply-schedule.ts';
import { changeJob } from './change-job.ts';
import { changeRoles, removePerson } from './change-member.ts';
import { changeAlias, removeSupplier, saveSupplier } from './change-supplier.ts';
import { changePassword } from './change-password.ts';
import { removeView, renameView } from './change-view.ts';
import { checkDelivery } from './check-delivery.ts';
import { compareBids } from './compare-bids.ts';
import { compareJobSchedule } from './compare-schedule.ts';
import { copyJob } from './copy-job.ts';
import { createJob } from './create-job.ts';
import { endOtherSessions, endSession } from './end-session.ts';
import { followJob, tellWhereabouts } from './follow-job.ts';
import { forgetMapping } from './forget-mapping.ts';
import { freezeBid } from './freeze-bid.ts';
import { invite, withdrawInvitation } from './invite.ts';
import { keepLastView } from './keep-last-view.ts';
import { listJobs } from './list-jobs.ts';
import { openJob } from './open-job.ts';
import { refuse, type Outcome } from './outcome.ts';
import { isKnown, mayDo } from './permissions.ts';
import { previewModel } from './preview-model.ts';
import { previewSchedule } from './preview-schedule.ts';
import { listBids, readBid, readBidOpening } from './read-bids.ts';
import { readAccount } from './read-account.ts';
import { readDeliveries } from './read-deliveries.ts';
import { readHistory, readHistoryLines } from './read-history.ts';
import { readOpenings } from './read-openings.ts';
import { readPeople } from './read-people.ts';
import { explainPrice, readPrice, readPurchasePrices } from './read-price.ts';
import { readSuppliers } from './read-suppliers.ts';
import { readTakeoff } from './read-takeoff.ts';
import { readLastView, readViews } from './read-views.ts';
import { recognise } from './recognise.ts';
import { removeDelivery, restoreDelivery } from './remove-delivery.ts';
import { restoreJob } from './restore-job.ts';
import { savePlan } from './save-plan.ts';
import { saveView } from './save-view.ts';
import type { Services } from './services.ts';
import { readPartCosts, readPriceBook, readTechnicalBook } from './shop-books.ts';
import { signIn, signOut } from './sign-in.ts';
import { storageTrouble } from './storage-trouble.ts';
import { redoEdit, undoEdit } from './undo-edit.ts';
import { writeMaterialList } from './write-material-list.ts';
import { writePrint } from './write-print.ts';
import { writeSchedule } from './write-schedule.ts';
import { writeJobWorkbook } from './write-workbook.ts';

const all = {
	listJobs,
	createJob,
	copyJob,
	changeJob,
	openJob,
	followJob,
	tellWhereabouts,
	readOpenings,
	applyEdit,
	undoEdit,
	redoEdit,
	previewSchedule,
	compareJobSchedule,
	applySchedule,
	forgetMapping,
	previewModel,
	applyModel,
	readTakeoff,
	readPrice,
	explainPrice,
	readPurchasePrices,
	listBids,
	readBid,
	readBidOpening,
	compareBids,
	freezeBid,
	readHistory,
	readHistoryLines,
	restoreJob,
	readSuppliers,
	saveSupplier,
	removeSupplier,
	changeAlias,
	savePlan,
	readDeliveries,
	checkDelivery,
	removeDelivery,
	restoreDelivery,
	writeMaterialList,
	writeSchedule,
	writePrint,
	writeJobWorkbook,
	readViews,
	readLastView,
	keepLastView,
	saveView,
	renameView,
	removeView,
	readTechnicalBook,
	readPartCosts,
	readPriceBook,
	recognise,
	signIn,
	signOut,
	readInvitation,
	acceptInvitation,
	readAccount,
	changePassword,
	endSession,
	endOtherSessions,
	readPeople,
	invite,
	withdrawInvitation,
	changeRoles,
	removePerson
};

type Operations = typeof all;
export type OperationName = keyof Operations;

type Operation<P extends readonly unknown[], T> = (
	actor: Actor,
	services: Services,
	...parameters: P
) => Promise<Outcome<T>>;

function guarded<P extends readonly unknown[], T>(
	name: OperationName,
	operation: Operation<P, T>
): Operation<P, T> {
	return async (actor, services, ...parameters) => {
		if (!mayDo(actor, name)) {
			if (!isKnown(actor)) return refuse(401, { message: 'Sign in first.' });
			return refuse(403, {
				message:
					'This is not for you to see or to change here. The owner of your company says who may do what.'
			});
		}
		try {
			return await operation(actor, services, ...parameters);
		} catch (thrown) {
			const trouble = storageTrouble(thrown);
			if (trouble) return trouble;
			throw thrown;
		}
	};
}

/** Every operation by name, behind the door. */
export const operations = Object.fromEntries(
	Object.entries(all).map(([name, operation]) => [
		name,
		guarded(name as OperationName, operation as Operation<readonly unknown[], unknown>)
	])
) as unknown as Operations;
