/** What went wrong in a database that is no fault of the program, in words. */
import { troubleOf } from '../storage/trouble.ts';
import { refuse, type Refused } from './outcome.ts';

const unreachable = refuse(503, {
	message:
		'The database does not answer just now. What was on its way may not be stored; it is sent again, and counts once.'
});
const full = refuse(503, {
	message: 'There is no room left where the database is kept. Nothing was stored; make room, then try again.'
});
const readOnly = refuse(503, {
	message:
		'The database can only be read just now. Nothing was stored; whoever runs the server can change that.'
});
const unstorable = refuse(422, {
	message:
		'A text has a sign in it that can’t be stored (a zero, or half of a letter). Nothing was stored; take it out.'
});
const taken = refuse(409, {
	message:
		'Something of the same name or address was stored at the same moment, perhaps in another window. Nothing was stored of this; look again, then repeat it.'
});

/** Null when it is something else: a fault of the program. */
export function storageTrouble(thrown: unknown): Refused | null {
	switch (troubleOf(thrown)) {
		case 'unreachable':
			return unreachable;
		case 'full':
			return full;
		case 'readOnly':
			return readOnly;
		case 'unstorable':
			return unstorable;
		case 'taken':
			return taken;
		case null:
			return null;
	}
}
