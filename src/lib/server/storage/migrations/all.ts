/** Every migration by name, in order. A name is never changed and never used again. */
import type { Migration } from 'kysely/migration';
import { jobs } from './0001-jobs.ts';
import { engineering } from './0002-engineering.ts';
import { hands } from './0003-hands.ts';
import { views } from './0004-views.ts';
import { history } from './0005-history.ts';
import { people } from './0006-people.ts';
import { byteOrder } from './0007-byte-order.ts';
import { buying } from './0008-buying.ts';

export const migrations: Readonly<Record<string, Migration>> = {
	'0001-jobs': jobs,
	'0002-engineering': engineering,
	'0003-hands': hands,
	'0004-views': views,
	'0005-history': history,
	'0006-people': people,
	'0007-byte-order': byteOrder,
	'0008-buying': buying
};
