import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import { personOf } from './read-views.ts';
import type { Services } from './services.ts';
import { nameKey, nameTaken, noSuchView, viewName } from './view-bodies.ts';

const body = z.strictObject({ name: viewName });

/** Gives a saved view another name. */
export async function renameView(
	actor: Actor,
	services: Services,
	name: string,
	request: unknown
): Promise<Outcome<{ name: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const to = parsed.data.name;
	const key = nameKey(name);
	const person = personOf(actor);
	return services.storage.transaction(async ({ views }): Promise<Outcome<{ name: string }>> => {
		if ((await views.nameOf(person, key)) === null) return noSuchView;
		const holder = to.key === key ? null : await views.nameOf(person, to.key);
		if (holder !== null) return nameTaken(holder);
		await views.rename(person, key, to);
		return done({ name: to.name });
	});
}

/** Deletes a saved view. Sheets that were left in it stay as they are. */
export async function removeView(
	actor: Actor,
	services: Services,
	name: string
): Promise<Outcome<{ name: string }>> {
	const removed = await services.storage.views.remove(personOf(actor), nameKey(name));
	return removed ? done({ name }) : noSuchView;
}
