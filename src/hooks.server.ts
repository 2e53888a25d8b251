import { subscribe } from 'node:diagnostics_channel';
import { json, text, type Handle, type HandleServerError, type ServerInit } from '@sveltejs/kit';
import { building } from '$app/environment';
import { withinBudget } from '$lib/server/http/budget.ts';
import { secure } from '$lib/server/http/headers.ts';
import { reportFailure } from '$lib/server/http/report.ts';
import { nobody } from '$lib/server/identity/actor.ts';
import { arrive } from '$lib/server/identity/requests.ts';
import { closeServices, endFeeds, openedServices, serving } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';

export const init: ServerInit = async () => {
	if (building) return;
	// When the server has stopped and nothing is left to do.
	process.once('beforeExit', () => {
		void closeServices();
	});
	// The server that is about to stop waits for what is still read.
	subscribe('coilwright:stopping', () => void endFeeds());
	await openedServices();
};

/** What answers before anybody has signed in. */
const beforeSignIn = new Set([
	'/sign-in',
	'/invitation/[token]',
	'/api/sign-in',
	'/api/sign-out',
	'/api/invitations/[token]'
]);

/** A refusal where no page can say it. */
function plainly(request: Request, status: number, message: string): Response {
	const asPage = request.headers.get('accept')?.includes('text/html') ?? false;
	return asPage ? text(message, { status }) : json({ message }, { status });
}

/** @param asData what SvelteKit's client asks for when it goes from page to page */
function askToSignIn(url: URL, asData: boolean): Response {
	if (url.pathname.startsWith('/api/'))
		return json(
			{ message: 'You are not signed in, or not any more. Sign in and repeat it.' },
			{ status: 401 }
		);
	const location = `/sign-in?to=${encodeURIComponent(`${url.pathname}${url.search}`)}`;
	if (asData) return json({ type: 'redirect', location });
	return new Response(null, { status: 303, headers: { location } });
}

export const handle: Handle = async ({ event, resolve }) => {
	const { request, url, route } = event;
	const { method, headers } = request;
	const services = await openedServices();
	const arrived = arrive({ method, headers, address: event.getClientAddress() }, serving(), services.access);
	if (!arrived.ok) return secure(plainly(request, 403, arrived.message), url.protocol);
	const cookies = headers.get('cookie');
	const recognised = await operations.recognise(nobody, services, cookies);
	if (!recognised.ok)
		return secure(plainly(request, recognised.status, recognised.refusal.message), url.protocol);
	const { actor, access, person, may, sessionId } = recognised.value;
	const { address } = arrived;
	event.locals.actor = actor;
	event.locals.shown = { access, person, may };
	event.locals.visit = { address, browser: headers.get('user-agent'), cookies, sessionId };
	event.locals.recheck = async () => {
		const again = await operations.recognise(nobody, services, cookies);
		// While the database is away nobody knows better.
		if (!again.ok) return again.status === 503 ? actor : null;
		return again.value.actor.id === actor.id ? again.value.actor : null;
	};
	const asker = { personId: actor.id === '' ? null : actor.id, address, alone: access === 'alone' };
	// A page may be older than the sign-in: what somebody else left there is not this person's.
	const meant = headers.get('coilwright-person') ?? actor.id;
	const mustSignIn = actor.id === '' && !beforeSignIn.has(route.id ?? '');
	const response = await withinBudget({ method, headers, route: route.id }, asker, async () =>
		mustSignIn || meant !== actor.id ? askToSignIn(url, event.isDataRequest) : resolve(event)
	);
	for (const cookie of recognised.value.cookies) response.headers.append('set-cookie', cookie);
	return secure(response, url.protocol);
};

export const handleError: HandleServerError = ({ error, event, status, message }) => {
	if (status === 404) return { message: 'There is no such page.' };
	if (status < 500) return { message };
	const reference = reportFailure(error, event.route.id);
	return { message: `Something failed here; what was shown as saved is safe. Reference ${reference}.` };
};
