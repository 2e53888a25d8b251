import type { Actor } from '../identity/actor.ts';
import type { Photo } from '../storage/photo.repository.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** A photo as it was taken in. */
export async function readPhoto(
	actor: Actor,
	services: Services,
	jobId: string,
	photoId: string
): Promise<Outcome<Photo>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const photo = await services.storage.photos.find(keyOf(actor, jobId), photoId);
	if (!photo)
		return refuse(404, { message: 'This photo is not here. It may still be on the phone that took it.' });
	return done(photo);
}
