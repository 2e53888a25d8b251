/**
 * Who may do what: one line an operation, and nowhere else. An operation without a line does not compile. That a company
 * only reaches its own is no matter of this table: every operation finds things by the company of the person.
 */
import type { Access } from '../../changes/people.ts';
import type { May, Role } from '../../changes/roles.ts';
import type { Actor } from '../identity/actor.ts';
import type { OperationName } from './operations.ts';

/** `anyone`: before signing in. `signedIn`: whatever they may do else. */
type Permission = readonly Role[] | 'anyone' | 'signedIn';

const everybody: Permission = ['owner', 'estimator', 'purchasing', 'installer'];
/** Those who work on jobs. An owner alone keeps people and the shop book. */
const onJobs: Permission = ['estimator', 'purchasing', 'installer'];
const estimator: Permission = ['estimator'];
const buyers: Permission = ['estimator', 'purchasing'];
const owner: Permission = ['owner'];

// prettier-ignore
const permissions: Readonly<Record<OperationName, Permission>> = {
	listJobs:           everybody,
	createJob:          estimator,
	makeExample:        estimator,
	copyJob:            estimator,
	changeJob:          estimator,
	openJob:            onJobs,
	followJob:          onJobs,
	tellWhereabouts:    onJobs,

	readOpenings:       onJobs,
	applyEdit:          estimator,
	undoEdit:           estimator,
	redoEdit:           estimator,
	previewSchedule:    estimator,
	compareJobSchedule: estimator,
	applySchedule:      estimator,
	forgetMapping:      estimator,
	previewModel:       estimator,
	applyModel:         estimator,

	readTakeoff:        onJobs,
	readPrice:          estimator,
	explainPrice:       estimator,
	readPurchasePrices: buyers,

	listBids:           estimator,
	readBid:            estimator,
	readBidOpening:     estimator,
	compareBids:        estimator,
	freezeBid:          estimator,

	/** Of bids it says that they were frozen, never an amount. */
	readHistory:        onJobs,
	readHistoryLines:   onJobs,
	restoreJob:         estimator,

	readSuppliers:      buyers,
	saveSupplier:       buyers,
	removeSupplier:     buyers,
	changeAlias:        buyers,
	savePlan:           buyers,

	readOrders:         buyers,
	readOrder:          buyers,
	writeOrder:         buyers,
	changeOrderLine:    buyers,
	reviseJobOrder:     buyers,
	dropRevision:       buyers,
	releaseOrder:       buyers,
	withdrawOrder:      buyers,
	restoreOrder:       buyers,
	takeAnswer:         buyers,
	takeAsOrdered:      buyers,
	withdrawAnswer:     buyers,
	decideDifferences:  buyers,
	writeOrderFile:     buyers,

	readDeliveries:     onJobs,
	previewDelivery:    buyers,
	checkDelivery:      buyers,
	typeDelivery:       buyers,
	decideLine:         buyers,
	answerDelivery:     buyers,
	removeDelivery:     buyers,
	restoreDelivery:    buyers,

	/** What is counted on site; none of it has a price. */
	readSite:           onJobs,
	readCountSheet:     onJobs,
	sendCounts:         onJobs,
	finishCount:        onJobs,
	sendPhoto:          onJobs,
	readPhoto:          onJobs,
	readDamage:         onJobs,
	writeDamageNotes:   onJobs,

	/** What can start, and the life of a part: no price, and no reason that could hold one for who does not buy. */
	readBoard:          onJobs,
	readFreed:          onJobs,
	readDay:            onJobs,
	writeDay:           onJobs,
	readChain:          onJobs,
	findParts:          onJobs,

	/** Somebody else’s measure is withdrawn by buyers only; the operation asks whose it is. */
	readMeasures:       onJobs,
	readMeasure:        onJobs,
	saveMeasure:        onJobs,
	withdrawMeasure:    onJobs,
	writeMeasureSheet:  onJobs,

	writeMaterialList:  onJobs,
	writeSchedule:      onJobs,
	writePrint:         onJobs,
	writeJobWorkbook:   estimator,

	readViews:          everybody,
	readLastView:       onJobs,
	keepLastView:       onJobs,
	saveView:           everybody,
	renameView:         everybody,
	removeView:         everybody,

	readTechnicalBook:  everybody,
	readPartCosts:      ['owner', 'estimator', 'purchasing'],
	readPriceBook:      ['owner', 'estimator'],

	recognise:          'anyone',
	signIn:             'anyone',
	signOut:            'anyone',
	readInvitation:     'anyone',
	acceptInvitation:   'anyone',

	readAccount:        'signedIn',
	changePassword:     'signedIn',
	endSession:         'signedIn',
	endOtherSessions:   'signedIn',

	readPeople:         owner,
	invite:             owner,
	withdrawInvitation: owner,
	changeRoles:        owner,
	removePerson:       owner,
};

/** Whether the person is known at all. */
export const isKnown = (actor: Actor): boolean => actor.id !== '';

export function mayDo(actor: Actor, operation: OperationName): boolean {
	const permission = permissions[operation];
	if (permission === 'anyone') return true;
	return (
		isKnown(actor) && (permission === 'signedIn' || permission.some((role) => actor.roles.includes(role)))
	);
}

/** What the pages offer a person: the same table, in the words of the pages. */
export const offered = (actor: Actor, access: Access): May => ({
	openJobs: mayDo(actor, 'openJob'),
	editOpenings: mayDo(actor, 'applyEdit'),
	seePrice: mayDo(actor, 'readPrice'),
	seeCosts: mayDo(actor, 'readPurchasePrices'),
	changeOrders: mayDo(actor, 'saveSupplier'),
	changeDeliveries: mayDo(actor, 'checkDelivery'),
	changePeople: access === 'accounts' && mayDo(actor, 'invite')
});
