const base = 'http://coilwright.example';

/**
 * Where to go after signing in: a page of this site, as path and query. Anything that a browser would read as another
 * site, or that is no page to come back to, leads to the list of jobs.
 */
export function wayBack(wish: string | null): string {
	// Before a URL is read, browsers leave out tabs and line breaks and take \ for /.
	if (wish === null || !wish.startsWith('/') || /[\\\t\r\n]/u.test(wish)) return '/';
	const url = URL.parse(wish, base);
	if (url?.origin !== base || url.pathname.startsWith('//')) return '/';
	if (url.pathname === '/sign-in' || url.pathname.startsWith('/api/')) return '/';
	return url.pathname + url.search;
}
