import { redirect } from '@sveltejs/kit';
import { pageData } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, parent }) => {
	const { access } = await parent();
	if (access === 'alone') redirect(303, '/');
	return pageData(await operations.readPeople(locals.actor, await openedServices()));
};
