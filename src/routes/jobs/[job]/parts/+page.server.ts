import { redirect } from '@sveltejs/kit';
import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
	const sought = url.searchParams.get('find') ?? '';
	const found = pageData(
		await operations.findParts(locals.actor, await openedServices(), params.job, sought)
	);
	const [only, other] = found.parts;
	if (only && !other) redirect(303, `/jobs/${params.job}/parts/${encodeURIComponent(only.partId)}`);
	return found;
};
