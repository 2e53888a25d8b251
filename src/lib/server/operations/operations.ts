/** The only door to the operations: who acts is asked here, once, before anything is looked at. */
import type { Actor } from '../identity/actor.ts';
import { acceptInvitation, readInvitation } from './accept-invitation.ts';
import { answerDelivery } from './answer-delivery.ts';
import { applyEdit } from './apply-edit.ts';
import { applyModel } from './apply-model.ts';
import { applySchedule } from './apply-schedule.ts';
import { changeOrderLine } from './change-order-line.ts';
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
import { decideDifferences } from './decide-differences.ts';
import { decideLine } from './decide-line.ts';
import { endOtherSessions, endSession } from './end-session.ts';
import { findParts } from './find-parts.ts';
import { finishCount } from './finish-count.ts';
import { followJob, tellWhereabouts } from './follow-job.ts';
import { forgetMapping } from './forget-mapping.ts';
import { freezeBid } from './freeze-bid.ts';
import { invite, withdrawInvitation } from './invite.ts';
import { keepLastView } from './keep-last-view.ts';
import { listJobs } from './list-jobs.ts';
import { makeExample } from './make-example.ts';
import { openJob } from './open-job.ts';
import { refuse, type Outcome } from './outcome.ts';
import { isKnown, mayDo } from './permissions.ts';
import { previewDelivery } from './preview-delivery.ts';
import { previewModel } from './preview-model.ts';
import { previewSchedule } from './preview-schedule.ts';
import { listBids, readBid, readBidOpening } from './read-bids.ts';
import { readAccount } from './read-account.ts';
import { readBoard } from './read-board.ts';
import { readChain } from './read-chain.ts';
import { readCountSheet } from './read-count-sheet.ts';
import { readDamage } from './read-damage.ts';
import { readDay } from './read-day.ts';
import { readDeliveries } from './read-deliveries.ts';
import { readFreed } from './read-freed.ts';
import { readHistory, readHistoryLines } from './read-history.ts';
import { readMeasure } from './read-measure.ts';
import { readMeasures } from './read-measures.ts';
import { readOpenings } from './read-openings.ts';
import { readOrder } from './read-order.ts';
import { readOrders } from './read-orders.ts';
import { readPeople } from './read-people.ts';
import { readPhoto } from './read-photo.ts';
import { explainPrice, readPrice, readPurchasePrices } from './read-price.ts';
import { readSite } from './read-site.ts';
import { readSuppliers } from './read-suppliers.ts';
import { readTakeoff } from './read-takeoff.ts';
import { readLastView, readViews } from './read-views.ts';
import { recognise } from './recognise.ts';
import { releaseOrder } from './release-order.ts';
import { removeDelivery, restoreDelivery } from './remove-delivery.ts';
import { restoreJob } from './restore-job.ts';
import { dropRevision, reviseJobOrder } from './revise-order.ts';
import { saveMeasure } from './save-measure.ts';
import { savePlan } from './save-plan.ts';
import { saveView } from './save-view.ts';
import { sendCounts } from './send-count.ts';
import { sendPhoto } from './send-photo.ts';
import type { Services } from './services.ts';
import { readPartCosts, readPriceBook, readTechnicalBook } from './shop-books.ts';
import { signIn, signOut } from './sign-in.ts';
import { storageTrouble } from './storage-trouble.ts';
import { takeAnswer, takeAsOrdered, withdrawAnswer } from './take-answer.ts';
import { typeDelivery } from './type-delivery.ts';
import { redoEdit, undoEdit } from './undo-edit.ts';
import { withdrawMeasure } from './withdraw-measure.ts';
import { restoreOrder, withdrawOrder } from './withdraw-order.ts';
import { writeDamageNotes } from './write-damage-notes.ts';
import { writeDay } from './write-day.ts';
import { writeMaterialList } from './write-material-list.ts';
import { writeMeasureSheet } from './write-measure-sheet.ts';
import { writeOrderFile } from './write-order-file.ts';
import { writeOrder } from './write-order.ts';
import { writePrint } from './write-print.ts';
import { writeSchedule } from './write-schedule.ts';
import { writeJobWorkbook } from './write-workbook.ts';

const all = {
	listJobs,
	createJob,
	makeExample,
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
	readOrders,
	readOrder,
	writeOrder,
	changeOrderLine,
	reviseJobOrder,
	dropRevision,
	releaseOrder,
	withdrawOrder,
	restoreOrder,
	takeAnswer,
	takeAsOrdered,
	withdrawAnswer,
	decideDifferences,
	writeOrderFile,
	readDeliveries,
	previewDelivery,
	checkDelivery,
	typeDelivery,
	decideLine,
	answerDelivery,
	removeDelivery,
	restoreDelivery,
	readSite,
	readCountSheet,
	sendCounts,
	finishCount,
	sendPhoto,
	readPhoto,
	readDamage,
	writeDamageNotes,
	readBoard,
	readFreed,
	readDay,
	writeDay,
	readChain,
	findParts,
	readMeasures,
	readMeasure,
	saveMeasure,
	withdrawMeasure,
	writeMeasureSheet,
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
