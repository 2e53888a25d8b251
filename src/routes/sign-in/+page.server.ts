import { redirect } from '@sveltejs/kit';
import { wayBack } from '$lib/client/people/way-back.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ parent, url }) => {
	const { access, person } = await parent();
	const to = access === 'alone' ? '/' : wayBack(url.searchParams.get('to'));
	if (access === 'alone' || person !== null) redirect(303, to);
	return { to };
};
