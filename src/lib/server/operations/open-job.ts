import type { JobHeading } from '../../changes/answer.ts';
import type { May } from '../../changes/roles.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, headingOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import { offered } from './permissions.ts';
import type { Services } from './services.ts';

/** What every page of a job needs: its heading, the technical book it pins, who acts and what they may do. Prices are not in here. */
export async function openJob(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ job: JobHeading; book: TechnicalBook; actor: { id: string; name: string }; may: May }>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { book } = await services.engines.engine(actor.companyId, found.value.technicalDigest);
	return done({
		job: headingOf(found.value),
		book,
		actor: { id: actor.id, name: actor.name },
		may: offered(actor, services.access)
	});
}
