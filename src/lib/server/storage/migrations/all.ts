/** Every migration by name, in order. A name is never changed and never used again. */
import type { Migration } from 'kysely/migration';
import { jobs } from './0001-jobs.ts';
import { engineering } from './0002-engineering.ts';

export const migrations: Readonly<Record<string, Migration>> = {
	'0001-jobs': jobs,
	'0002-engineering': engineering
};
