/**
 * Who may do what: one line an operation, and nowhere else. An operation without a line does not compile. That a company
 * only reaches its own is no matter of this table: every operation finds things by the company of the person.
 */
import type { May, Role } from '../../changes/roles.ts';
import type { Actor } from '../identity/actor.ts';
import type { OperationName } from './operations.ts';

type Permission = readonly Role[];

const everybody: Permission = ['owner', 'estimator', 'purchasing', 'installer'];
/** Those who work on jobs. An owner alone keeps people and the shop book. */
const onJobs: Permission = ['estimator', 'purchasing', 'installer'];
const estimator: Permission = ['estimator'];
const buyers: Permission = ['estimator', 'purchasing'];

// prettier-ignore
export const permissions: Readonly<Record<OperationName, Permission>> = {
	listJobs:           everybody,
	createJob:          estimator,
	copyJob:            estimator,
	changeJob:          estimator,
	openJob:            onJobs,

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

	readDeliveries:     onJobs,
	checkDelivery:      buyers,
	removeDelivery:     buyers,
	restoreDelivery:    buyers,

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
	readPriceBook:      ['owner', 'estimator'],
};

export const mayDo = (actor: Actor, operation: OperationName): boolean =>
	permissions[operation].some((role) => actor.roles.includes(role));

/** What the pages offer a person: the same table, in the words of the pages. */
export const offered = (actor: Actor): May => ({
	editOpenings: mayDo(actor, 'applyEdit'),
	seePrice: mayDo(actor, 'readPrice'),
	seeCosts: mayDo(actor, 'readPrice'),
	changeDeliveries: mayDo(actor, 'checkDelivery'),
	changePeople: false
});
