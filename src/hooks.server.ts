import { json, text, type Handle, type HandleServerError, type ServerInit } from '@sveltejs/kit';
import { building } from '$app/environment';
import { secure } from '$lib/server/http/headers.ts';
import { reportFailure } from '$lib/server/http/report.ts';
import { localActor } from '$lib/server/identity/actor.ts';
import { refusalOfRequest } from '$lib/server/identity/local-only.ts';
import { closeServices, openedServices } from '$lib/server/operations/opened-services.ts';

export const init: ServerInit = async () => {
	if (building) return;
	// When the server has stopped and nothing is left to do.
	process.once('beforeExit', () => {
		void closeServices();
	});
	await openedServices();
};

export const handle: Handle = async ({ event, resolve }) => {
	const refusal = refusalOfRequest(event.request, event.url.protocol, event.getClientAddress());
	if (refusal !== null) {
		const asPage = event.request.headers.get('accept')?.includes('text/html') ?? false;
		return secure(asPage ? text(refusal, { status: 403 }) : json({ message: refusal }, { status: 403 }));
	}
	event.locals.actor = localActor;
	event.locals.recheck = () => Promise.resolve(localActor);
	return secure(await resolve(event));
};

export const handleError: HandleServerError = ({ error, event, status, message }) => {
	if (status === 404) return { message: 'There is no such page.' };
	if (status < 500) return { message };
	const reference = reportFailure(error, event.route.id);
	return { message: `Something failed here; what was shown as saved is safe. Reference ${reference}.` };
};
