/** How far the changes of others are shown, in words; nothing while they are. */
import type { EndReason } from '../../changes/live.ts';
import type { Connection } from './live-job.svelte.ts';

export function connectionWords(connection: Connection, ended: EndReason | null): string {
	if (ended === 'deleted') return 'The job was deleted';
	if (ended === 'notAllowed') return 'This job is not open to you any more';
	if (ended === 'signedOut') return 'You are signed out: others’ changes are not shown';
	return connection === 'lost' ? 'Others’ changes are not shown until the connection is back' : '';
}
