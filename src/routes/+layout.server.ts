import type { LayoutServerLoad } from './$types';

/** Reads the path so that it is asked again at every page: what a person may do can change while they are here. */
export const load: LayoutServerLoad = ({ locals, url }) => ({ ...locals.shown, path: url.pathname });
