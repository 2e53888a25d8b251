import { z } from 'zod';
import { sheetViewSchema, type SavedView } from '../../changes/sheet-view.ts';
import type { Actor } from '../identity/actor.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { personOf } from './read-views.ts';
import type { Services } from './services.ts';
import { nameTaken, sizeProblem, viewName } from './view-bodies.ts';

/** More views than this nobody finds again. */
const mostViews = 100;

const body = z.strictObject({
	name: viewName,
	view: sheetViewSchema,
	/** Whether it may take the place of the view of that name. */
	replace: z.boolean().default(false)
});

/** Saves a view of the sheet under a name of the person's own. */
export async function saveView(
	actor: Actor,
	services: Services,
	request: unknown
): Promise<Outcome<SavedView>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { name, view, replace } = parsed.data;
	const tooLarge = sizeProblem(view);
	if (tooLarge) return tooLarge;
	const person = personOf(actor);
	const at = services.now();
	return services.storage.transaction(async ({ views }): Promise<Outcome<SavedView>> => {
		const earlier = await views.nameOf(person, name.key);
		if (earlier !== null && !replace) return nameTaken(earlier);
		if (earlier === null && (await views.count(person)) >= mostViews)
			return refuse(422, {
				message: `${mostViews} views are saved, and no more are kept. Delete one that is not used, or replace one. Nothing was stored.`
			});
		await (replace ? views.save(person, name, view, at) : views.add(person, name, view, at));
		return done({ name: name.name, view, savedAt: at.toISOString() });
	});
}
